// Edits that screens make, as edits of the one text: comments and layout elsewhere stay as they are.
import type { Span, TextEdit } from "../../core/span.ts";
import { type Book, internalsOf } from "../api/book.ts";
import type { Entry } from "../language/check/book.ts";
import { addRowUnder, removeRowUnder, setCellUnder, isUnderneath } from "./layer-edits.ts";

/** Only statements of the book's own text can be edited there. */
const entryOf = (book: Book, id: string): Entry | undefined =>
  internalsOf(book).checked.entries.find((entry) => entry.id === id && entry.from?.own !== false);

/** A new statement after the row `afterId` (at the end if undefined). */
export function insertStatement(
  book: Book,
  afterId: string | undefined,
  statement: string,
): readonly TextEdit[] {
  const clean = statement.trim().replace(/\r\n?/g, "\n");
  if (clean === "") return [];
  const after = afterId === undefined ? undefined : entryOf(book, afterId);
  const offset = after?.piece.at.end ?? book.text.trimEnd().length;
  const gap = offset === 0 ? "" : after === undefined || /\n/.test(clean) ? "\n\n" : "\n";
  const isEndOpen = after === undefined && book.text.trimEnd().length === book.text.length;
  return [
    {
      at: { start: offset, end: offset },
      text: `${gap}${clean}${isEndOpen ? "\n" : ""}`,
    },
  ];
}

/** Moves a statement with the comments above it, to after `afterId` ("" = to the top). */
export function moveStatement(book: Book, id: string, afterId: string): readonly TextEdit[] {
  const moved = entryOf(book, id);
  const after = afterId === "" ? undefined : entryOf(book, afterId);
  if (moved === undefined || (afterId !== "" && after === undefined) || id === afterId) return [];
  const { lead, at } = moved.piece;
  const taken: Span = { start: lead.start, end: at.end };
  const text = book.text.slice(taken.start, taken.end);
  const offset = after?.piece.at.end ?? 0;
  if (offset >= taken.start && offset <= taken.end) return [];
  const insert = offset === 0 ? `${text.replace(/^\n+/, "")}\n` : text.startsWith("\n") ? text : `\n${text}`;
  return [
    { at: taken, text: "" },
    { at: { start: offset, end: offset }, text: insert },
  ];
}

export function removeStatement(book: Book, id: string): readonly TextEdit[] {
  const entry = entryOf(book, id);
  if (entry === undefined) return [];
  const { lead, at } = entry.piece;
  // Comments right above go with it; those above an empty line stay.
  const above = book.text.slice(lead.start, lead.end);
  const cut = above.lastIndexOf("\n\n");
  const start = lead.start + (cut >= 0 ? cut + 1 : above.startsWith("\n") ? 0 : 0);
  const end = start === 0 && book.text[at.end] === "\n" ? at.end + 1 : at.end;
  return [{ at: { start, end }, text: "" }];
}

// ───────────── chart rows ─────────────

/** Sets a chart cell (`row` 0 is the first row below the header); the chart's columns are aligned again. */
export function setCell(
  book: Book,
  chart: string,
  row: number,
  column: number,
  text: string,
): readonly TextEdit[] {
  if (isUnderneath(book, chart)) return setCellUnder(book, chart, row, column, clean(text));
  return alignedRows(book, chart, (rows) => {
    const cells = rows[row + 1];
    if (cells !== undefined && column < cells.length) cells[column] = clean(text);
  });
}

/** `afterRow` -1 adds above the first row. */
export function addChartRow(
  book: Book,
  chart: string,
  afterRow: number,
  cells: readonly string[],
): readonly TextEdit[] {
  if (isUnderneath(book, chart)) return addRowUnder(book, chart, cells.map(clean));
  const found = chartOf(book, chart);
  if (found === undefined) return [];
  const { entry, rows } = found;
  const width = rows[0]?.cells.length ?? cells.length;
  const full = Array.from({ length: width }, (_, i) => clean(cells[i] ?? ""));
  const before = rows[Math.min(afterRow + 1, rows.length - 1)];
  if (before === undefined) return [];
  const edits = alignedRows(book, chart, () => {}, [full]);
  const lineEnd = book.text.indexOf("\n", before.at.end + entry.piece.at.start);
  const offset = lineEnd < 0 ? book.text.length : lineEnd;
  const widths = widthsOf([...rows.map((one) => one.cells.map((cell) => cell.text)), full]);
  return [...edits, { at: { start: offset, end: offset }, text: `\n    ${join(full, widths)}` }];
}

export function removeChartRow(book: Book, chart: string, row: number): readonly TextEdit[] {
  if (isUnderneath(book, chart)) return removeRowUnder(book, chart, row);
  const found = chartOf(book, chart);
  const one = found?.rows[row + 1];
  if (found === undefined || one === undefined) return [];
  const start = book.text.lastIndexOf("\n", found.entry.piece.at.start + one.at.start);
  const next = book.text.indexOf("\n", found.entry.piece.at.start + one.at.end);
  return [{ at: { start, end: next < 0 ? book.text.length : next }, text: "" }];
}

interface WrittenRow {
  readonly at: Span;
  readonly cells: readonly { readonly at: Span; readonly text: string }[];
}

/** The header and the rows of a chart. */
function chartOf(
  book: Book,
  name: string,
): { readonly entry: Entry; readonly rows: readonly WrittenRow[] } | undefined {
  const { checked } = internalsOf(book);
  const entry = checked.entries[checked.byName.get(name) ?? -1];
  if (entry?.statement.body.keyword !== "chart") return undefined;
  const { header, rows } = entry.statement.body;
  const [first, last] = [header[0], header.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  return { entry, rows: [{ at: { start: first.at.start, end: last.at.end }, cells: header }, ...rows] };
}

const clean = (text: string): string =>
  text
    .replace(/[|\r\n]+/g, " ")
    .replace(/--/g, "-")
    .trim();

/** Writes every row in aligned columns; only rows that differ become edits. */
function alignedRows(
  book: Book,
  chart: string,
  change: (rows: string[][]) => void,
  more: readonly string[][] = [],
): TextEdit[] {
  const found = chartOf(book, chart);
  if (found === undefined) return [];
  const rows = found.rows.map((row) => row.cells.map((cell) => cell.text));
  change(rows);
  const widths = widthsOf([...rows, ...more]);
  const from = found.entry.piece.at.start;
  return found.rows.flatMap((row, i) => {
    // An empty last cell keeps its bar, so the row runs to the last bar.
    const line = book.text.slice(from + row.at.start, lineEndOf(book.text, from + row.at.end));
    const comment = /\s*--[^\n]*$/.exec(outsideTexts(line))?.index ?? line.length;
    const at = {
      start: from + row.at.start,
      end: from + row.at.start + line.slice(0, comment).trimEnd().length,
    };
    const text = join(rows[i]!, widths);
    return book.text.slice(at.start, at.end) === text ? [] : [{ at, text }];
  });
}

const lineEndOf = (text: string, from: number): number => {
  const end = text.indexOf("\n", from);
  return end < 0 ? text.length : end;
};
const outsideTexts = (line: string): string => line.replace(/"[^"]*"/g, (text) => "x".repeat(text.length));

const widthsOf = (rows: readonly (readonly string[])[]): readonly number[] => {
  const widths: number[] = [];
  for (const row of rows)
    row.forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, [...cell].length);
    });
  return widths;
};

const join = (cells: readonly string[], widths: readonly number[]): string =>
  cells
    .map((cell, i) =>
      i === cells.length - 1 ? cell : cell + " ".repeat(Math.max(0, widths[i]! - [...cell].length)),
    )
    .join(" | ")
    .trimEnd();
