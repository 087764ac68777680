// Small changes to the rules of a book, each an edit of its text: a limit moved by one step, a comparison
// turned, a row dropped, a rounding turned, the basis of a share exchanged. A book whose examples do not
// notice such a change would not notice the slip of a finger either.
import type { Span, TextEdit } from "../../../core/span.ts";
import type { CheckedBook, Entry } from "../../language/check/book.ts";
import { eachExpr } from "../../language/syntax/names.ts";
import { placed } from "../../language/syntax/split.ts";
import type { Band, ConditionCell, Expr, Statement, ValueCell } from "../../language/syntax/tree.ts";
import { oneLine } from "../../program/eval/show.ts";

export interface Mutation {
  readonly id: string;
  /** Counted from the start of the book. */
  readonly at: Span;
  readonly says: string;
  readonly edits: readonly TextEdit[];
}

/** Only the book's own text is changed: the books that it uses or amends have their own examples. */
export const mutationsOf = (checked: CheckedBook): readonly Mutation[] => {
  const all = checked.entries.flatMap((entry) => (entry.checked.faults.length > 0 ? [] : changesOf(entry)));
  return checked.composition === undefined
    ? all
    : all.filter((change) =>
        change.edits.every((edit) => edit.at.start <= edit.at.end && edit.at.end <= checked.text.length),
      );
};

function changesOf(entry: Entry): readonly Mutation[] {
  const { statement, piece } = entry;
  const { body, text } = statement;
  const changes: Mutation[] = [];
  const absolute = (at: Span): Span => placed(piece, at);
  const add = (says: string, edits: readonly { at: Span; text: string }[]) =>
    changes.push({
      id: entry.id,
      at: absolute(edits[0]!.at),
      says: `${statement.name?.text ?? entry.id}: ${says}`,
      edits: edits.map((edit) => ({ at: absolute(edit.at), text: edit.text })),
    });
  for (const rule of rulesOf(statement)) eachExpr(rule, (expr) => inExpression(expr, text, add));
  if (body.keyword === "chart") inChart(body, text, add, piece.lines !== undefined);
  return changes;
}

type Add = (says: string, edits: readonly { at: Span; text: string }[]) => void;

const TURNED: Readonly<Record<string, string>> = { "<": ">", "<=": ">=", ">": "<", ">=": "<=" };

function inExpression(expr: Expr, text: string, add: Add): void {
  const source = (at: Span) => oneLine(text.slice(at.start, at.end));
  if (expr.is === "binary" && expr.op in TURNED) {
    add(`${source(expr.opAt)} turned to ${TURNED[expr.op]} in ${source(expr.at)}`, [
      { at: expr.opAt, text: TURNED[expr.op]! },
    ]);
    for (const side of [expr.left, expr.right]) moveLimit(side, text, add);
  }
  if (expr.is === "binary" && (expr.op === "and" || expr.op === "or"))
    add(`${expr.op} turned to ${expr.op === "and" ? "or" : "and"} in ${source(expr.at)}`, [
      { at: expr.opAt, text: expr.op === "and" ? "or" : "and" },
    ]);
  if (expr.is === "in-band")
    for (const end of [expr.band.low, expr.band.high]) if (end !== undefined) moveLimit(end, text, add);
  if (expr.is === "round" && expr.way !== "near") {
    const written = text.slice(expr.of.at.end, expr.at.end);
    const way = /rounded\s+(up|down)\s+to/.exec(written);
    if (way !== null) {
      const start = expr.of.at.end + way.index + way[0].indexOf(way[1]!);
      add(`rounded ${expr.way === "up" ? "down" : "up"} instead`, [
        { at: { start, end: start + way[1]!.length }, text: expr.way === "up" ? "down" : "up" },
      ]);
    }
  }
  if (expr.is === "quantity")
    for (const part of expr.parts)
      if (part.unit.by !== undefined) swapBasis(part.unit.at, part.unit.by, text, add);
}

function swapBasis(at: Span, by: "mass" | "volume", text: string, add: Add): void {
  const other = by === "mass" ? "volume" : "mass";
  add(`by ${by} exchanged for by ${other}`, [{ at, text: text.slice(at.start, at.end).replace(by, other) }]);
}

/** A literal limit, moved by one step of its last written digit. */
function moveLimit(expr: Expr, text: string, add: Add): void {
  const moved = nudged(expr, text);
  if (moved !== undefined)
    add(`${oneLine(text.slice(expr.at.start, expr.at.end))} moved to ${moved}`, [
      { at: expr.at, text: moved },
    ]);
}

function nudged(expr: Expr, text: string): string | undefined {
  if (expr.is !== "number" && !(expr.is === "quantity" && expr.parts.length === 1)) return undefined;
  const written = text.slice(expr.at.start, expr.at.end);
  const match = /^(-?)(\d+)(?:\.(\d+))?(?=[^\d/]|$)/.exec(written);
  if (match === null) return undefined;
  const digits = match[3]?.length ?? 0;
  const value = Number(match[0]) + 10 ** -digits;
  return value.toFixed(digits) + written.slice(match[0].length);
}

function inChart(
  body: Extract<Statement["body"], { keyword: "chart" }>,
  text: string,
  add: Add,
  ofSeveral: boolean,
): void {
  const between = body.options.some((one) => one.option === "straight" || one.option === "curve");
  body.rows.forEach((row, r) => {
    // Where the lines of a chart stand in several texts, the line break before a row may be another text's:
    // the row goes, its empty line stays.
    const start = ofSeveral ? row.at.start : text.lastIndexOf("\n", row.at.start);
    const next = ofSeveral ? row.at.end : text.indexOf("\n", row.at.end);
    if (body.rows.length > 1)
      add(`row ${r + 1} dropped`, [{ at: { start, end: next < 0 ? text.length : next }, text: "" }]);
    row.cells.forEach((cell, c) => {
      const isCondition = "fits" in cell;
      if (isCondition && !between) return;
      const rule = isCondition ? pointOf(cell as ConditionCell) : (cell as ValueCell).rule;
      if (rule === undefined) return;
      const moved = nudged(rule, text);
      if (moved !== undefined)
        add(`row ${r + 1}, ${body.header[c]?.text ?? "value"}: ${cell.text} moved to ${moved}`, [
          { at: rule.at, text: moved },
        ]);
    });
  });
  if (between) return;
  // A limit between two rows is one limit: both ends move together, or the checker would notice the gap.
  body.header.forEach((head, c) => {
    const ends = new Map<string, Expr[]>();
    for (const row of body.rows) {
      const cell = row.cells[c];
      const fits = cell !== undefined && "fits" in cell ? (cell as ConditionCell).fits : undefined;
      if (fits === undefined || fits === "any") continue;
      for (const band of fits)
        for (const end of new Set([band.low, band.high])) {
          const moved = end && nudged(end, text);
          if (end !== undefined && moved !== undefined)
            ends.set(text.slice(end.at.start, end.at.end).split(/[^\d.]/)[0]!, [
              ...(ends.get(text.slice(end.at.start, end.at.end).split(/[^\d.]/)[0]!) ?? []),
              end,
            ]);
        }
    }
    for (const [, all] of ends) {
      const first = all[0]!;
      const limit = oneLine(text.slice(first.at.start, first.at.end));
      add(
        `the limit ${limit} of ${head.text} moved to ${nudged(first, text)}`,
        all.map((end) => ({ at: end.at, text: nudged(end, text)! })),
      );
    }
  });
}

function pointOf(cell: ConditionCell): Expr | undefined {
  if (cell.fits === undefined || cell.fits === "any" || cell.fits.length !== 1) return undefined;
  const band: Band = cell.fits[0]!;
  return band.low !== undefined && band.low === band.high ? band.low : undefined;
}

function rulesOf({ body, clauses }: Statement): readonly Expr[] {
  const own = [clauses.when, clauses.takes, clauses.waits].filter((rule) => rule !== undefined);
  switch (body.keyword) {
    case "figure":
    case "formula":
      return [body.rule, ...own];
    case "list":
      return [body.from, body.to, ...body.columns.map((column) => column.rule)];
    case "step":
    case "caution":
    case "stop":
      return own;
    case "dial":
      return [body.rule];
    // A promise, an example and a drawing guard the book; changing them is not changing its rules.
    case "promise":
    case "picture":
    case "worked":
    case "book":
    case "part":
    case "use":
    case "drop":
    case "add":
    case "kind":
    case "ask":
    case "chart":
    case "unreadable":
      return [];
  }
}
