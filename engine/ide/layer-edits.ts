// Edits of statements of a book underneath. They never touch that book: a row of its chart is written into
// `chart NAME add` of the own text, and any of its statements can be copied as an `instead` to begin from.
import type { TextEdit } from "../../core/span.ts";
import type { Book } from "../api/book.ts";
import { internalsOf } from "../api/book.ts";
import type { Entry } from "../language/check/book.ts";
import { placed } from "../language/syntax/split.ts";

const chartIn = (book: Book, name: string): Entry | undefined => {
  const { checked } = internalsOf(book);
  const entry = checked.entries[checked.byName.get(name) ?? -1];
  return entry?.statement.body.keyword === "chart" ? entry : undefined;
};

/** Whether a chart, or some of its rows, belongs to a book underneath. */
export function isUnderneath(book: Book, name: string): boolean {
  const chart = chartIn(book, name);
  return (
    chart !== undefined && chart.from !== undefined && (!chart.from.own || chart.piece.lines !== undefined)
  );
}

/**
 * A cell of an own row is changed in place. Another value in a row underneath becomes a row of the same
 * conditions; the conditions themselves cannot be changed from above.
 */
export function setCellUnder(
  book: Book,
  name: string,
  row: number,
  column: number,
  text: string,
): readonly TextEdit[] {
  const chart = chartIn(book, name);
  if (chart?.statement.body.keyword !== "chart") return [];
  const { body } = chart.statement;
  const one = body.rows[row];
  const cell = one?.cells[column];
  if (one === undefined || cell === undefined) return [];
  const at = placed(chart.piece, cell.at);
  if (at.end <= book.text.length) return book.text.slice(at.start, at.end) === text ? [] : [{ at, text }];
  const isCondition = body.conditions.some((condition) => condition.text === body.header[column]?.text);
  return isCondition || cell.text === text
    ? []
    : addRowUnder(
        book,
        name,
        one.cells.map((other, i) => (i === column ? text : other.text)),
      );
}

/** The row behind the own rows of the chart, or in a new `chart NAME add` at the end of the text. */
export function addRowUnder(book: Book, name: string, cells: readonly string[]): readonly TextEdit[] {
  const chart = chartIn(book, name);
  if (chart?.statement.body.keyword !== "chart") return [];
  const width = chart.statement.body.header.length;
  const line = `\n    ${Array.from({ length: width }, (_, i) => cells[i] ?? "")
    .join(" | ")
    .trimEnd()}`;
  if (chart.piece.lines !== undefined && chart.from?.own)
    return [{ at: { start: chart.piece.at.end, end: chart.piece.at.end }, text: line }];
  const offset = book.text.trimEnd().length;
  return [
    {
      at: { start: offset, end: offset },
      text: `\n\nchart ${name} add${line}${offset === book.text.length ? "\n" : ""}`,
    },
  ];
}

/** Only an own row can be taken out; the last one takes its statement with it. */
export function removeRowUnder(book: Book, name: string, row: number): readonly TextEdit[] {
  const chart = chartIn(book, name);
  const one = chart?.statement.body.keyword === "chart" ? chart.statement.body.rows[row] : undefined;
  if (chart === undefined || one === undefined) return [];
  const at = placed(chart.piece, one.at);
  if (at.end > book.text.length) return [];
  const own =
    chart.statement.body.keyword === "chart"
      ? chart.statement.body.rows.filter((other) => placed(chart.piece, other.at).end <= book.text.length)
      : [];
  if (own.length === 1) return [{ at: { start: chart.piece.lead.start, end: chart.piece.at.end }, text: "" }];
  const next = book.text.indexOf("\n", at.end);
  return [
    {
      at: { start: book.text.lastIndexOf("\n", at.start), end: next < 0 ? book.text.length : next },
      text: "",
    },
  ];
}

const REPLACED = new Set([
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
  "worked",
]);

/**
 * The text of a statement that replaces a row underneath, saying the same as it does, ready to be inserted
 * and changed; undefined where the row is the book's own or cannot be replaced.
 */
export function insteadOf(book: Book, id: string): string | undefined {
  const entry = internalsOf(book).checked.entries.find((one) => one.id === id);
  if (
    entry === undefined ||
    entry.from === undefined ||
    entry.from.own ||
    entry.from.beneath !== undefined ||
    entry.statement.name === undefined
  )
    return undefined;
  const { keyword } = entry.statement.body;
  if (!REPLACED.has(keyword)) return undefined;
  if (entry.statement.uses.some((name) => name.includes("@")) || /\bas-before\b/.test(entry.piece.text))
    return keyword === "figure" ? `instead figure ${entry.statement.name.text} = as-before` : undefined;
  const text = entry.piece.text.replace(/^instead\s+/, "").replace(/\r/g, "");
  const reason =
    (keyword === "caution" || keyword === "stop") && entry.statement.clauses.because === undefined
      ? '\n    because "why it reads otherwise here"'
      : "";
  return `instead ${text}${reason}`;
}
