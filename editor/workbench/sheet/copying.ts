// Copying and pasting: cells as tab-separated text, statements as their own text.
import type { Keyword } from "../../../core/view.ts";

/**
 * Cells as lines of tab-separated text. A cell with a tab, a line end or a quote is put in quotes, quotes
 * doubled.
 */
export function toTabs(cells: readonly (readonly string[])[]): string {
  return cells.map((row) => row.map(quoted).join("\t")).join("\n");
}

/** Tab-separated text as rows of cells; the line end that closes the last row makes no row. */
export function fromTabs(text: string): string[][] {
  const rows: string[][] = [[]];
  let cell = "";
  let inQuotes = false;
  const even = text.replace(/\r\n?/g, "\n").replace(/\n$/, "");
  for (let at = 0; at < even.length; at += 1) {
    const letter = even[at] ?? "";
    if (inQuotes) {
      if (letter === '"' && even[at + 1] === '"') {
        cell += '"';
        at += 1;
      } else if (letter === '"') inQuotes = false;
      else cell += letter;
    } else if (letter === '"' && cell === "") inQuotes = true;
    else if (letter === "\t") {
      rows.at(-1)?.push(cell);
      cell = "";
    } else if (letter === "\n") {
      rows.at(-1)?.push(cell);
      cell = "";
      rows.push([]);
    } else cell += letter;
  }
  rows.at(-1)?.push(cell);
  return rows;
}

const quoted = (cell: string): string => (/[\t\n"]/.test(cell) ? `"${cell.replace(/"/g, '""')}"` : cell);

const keywords: readonly Keyword[] = [
  "book",
  "part",
  "kind",
  "ask",
  "dial",
  "figure",
  "formula",
  "chart",
  "list",
  "step",
  "caution",
  "stop",
  "promise",
  "picture",
  "worked",
];

/** Whether a pasted text begins as a statement of a book does. */
export function looksLikeStatements(text: string): boolean {
  const first = text.split("\n").find((line) => line.trim() !== "" && !line.startsWith("--"));
  return first !== undefined && keywords.some((word) => first === word || first.startsWith(`${word} `));
}
