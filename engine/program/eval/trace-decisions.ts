// What decided the value of a statement, as facts: the alternative taken, the chart's row, the answer given.
import type { Condition, Decision, RowFacts } from "../../../core/reason.ts";
import type { Span } from "../../../core/span.ts";
import type { UnitSystem } from "../../../core/view.ts";
import { eachExpr } from "../../language/syntax/names.ts";
import type { Expr, Statement } from "../../language/syntax/tree.ts";
import { Opcode, type Op } from "../plan/op.ts";
import type { Block } from "../plan/plan.ts";
import type { Evaluation } from "./evaluate.ts";
import { filledRule } from "./filled-rule.ts";
import { type Frame, IMPOSSIBLE, UNKNOWN, isKnown, reasonOf } from "./frame.ts";
import { pointsUsed } from "./interpolate.ts";
import { producers } from "./producers.ts";
import { oneLine } from "./show.ts";

/** What decided, and the part of the statement's text in which it is written, if it is one part. */
export interface Decided {
  readonly at?: Span;
  readonly by: readonly Decision[];
}

const NOTHING: Decided = { by: [] };

/** More possible rows than this are not listed. */
const MOST_ROWS = 12;

/** The alternative that was taken, or the first one whose condition is open. */
export function decidedBranch(
  evaluation: Evaluation,
  block: Block,
  rule: Extract<Expr, { is: "choose" }>,
  units: UnitSystem,
): { readonly at: Span; readonly by: Decision; readonly value: Expr } | undefined {
  const { plan, frame } = evaluation;
  const source = (at: Span) => oneLine(block.entry.statement.text.slice(at.start, at.end));
  const told = (when: Expr): Condition => {
    const condition = source(when.at);
    const filled = filledRule(evaluation, block, when, units);
    return saysMore(condition, filled) ? { condition, numbers: filled } : { condition };
  };
  const not: Condition[] = [];
  const made = producers(plan);
  const selects = block.ops.filter((op) => op.opcode === Opcode.select && made.get(op.out)?.block === block);
  for (const one of rule.cases) {
    const select = selects.find((op) => op.at.start === one.value.at.start && op.at.end === one.value.at.end);
    if (select === undefined) return undefined;
    const condition = source(one.when.at);
    if (!isKnown(frame, select.in0))
      return { at: one.when.at, by: { code: "not-settled", condition }, value: rule };
    if (frame.num[select.in0] === 1)
      return { at: one.value.at, by: { code: "since", ...told(one.when) }, value: one.value };
    not.push(told(one.when));
  }
  return (
    rule.otherwise && {
      at: rule.otherwise.at,
      by: { code: "otherwise", ...(not.length <= MOST_CASES ? { not } : {}) },
      value: rule.otherwise,
    }
  );
}

/** More alternatives than this are not listed one by one. */
const MOST_CASES = 4;

/** Whether a condition says more with its numbers put in: not where it only says that a word is itself. */
const saysMore = (condition: string, filled: string): boolean =>
  /\d/.test(filled) && filled !== condition && !/^(.+) is (not )?\1$/.test(filled);

type Pick = Extract<Op, { opcode: typeof Opcode.pick }>;
type Interpolate = Extract<Op, { opcode: typeof Opcode.interpolate }>;

/** Charts that a rule calls, with the rows that each call read. */
export function decidedCalls({ plan, frame }: Evaluation, block: Block, rule: Expr): readonly Decision[] {
  const decisions: Decision[] = [];
  eachExpr(rule, (expr) => {
    if (expr.is !== "call") return;
    const chart = expr.name.text;
    const called = plan.checked.entries[plan.checked.byName.get(chart) ?? -1];
    const op = readingOperation(block, chart, expr.at);
    if (op === undefined || !isKnown(frame, op.out) || called?.statement.body.keyword !== "chart") return;
    const rowOf = rowsOf(called.statement.text, called.statement.body);
    const rows =
      op.opcode === Opcode.pick
        ? [op.payload.written[frame.num[op.out]!]!]
        : pointsUsed(frame, op.payload, op.in0).filter((row) => row >= 0);
    decisions.push({ code: "rows-of-chart", chart, points: rows.map(rowOf) });
  });
  return decisions;
}

/** The operation by which a call of a chart reads its rows. */
function readingOperation(block: Block, chart: string, at: Span): Pick | Interpolate | undefined {
  const found = block.ops.filter(
    (op): op is Pick | Interpolate =>
      (op.opcode === Opcode.pick || op.opcode === Opcode.interpolate) &&
      op.payload.name === chart &&
      op.at.start === at.start &&
      op.at.end === at.end,
  );
  return found.find((op) => op.opcode === Opcode.interpolate) ?? found[0];
}

type WrittenChart = Extract<Statement["body"], { keyword: "chart" }>;

/** Facts of a row by its index among the rows as written: each cell with the name of its column. */
const rowsOf =
  (text: string, { header, rows }: WrittenChart) =>
  (row: number): RowFacts => ({
    row: row + 1,
    cells: rows[row]!.cells.map((cell, column) =>
      oneLine(
        `${header[column]?.text.replace(/@.*$/, "") ?? ""} ${text.slice(cell.at.start, cell.at.end)}`.trim(),
      ),
    ).join(" | "),
  });

/** The row of a chart that decided, or the points that its value lies between. */
export function decidedRow({ plan, frame }: Evaluation, block: Block, column: number | undefined): Decided {
  const { chart } = block.entry.checked;
  const { body, text } = block.entry.statement;
  if (chart === undefined || body.keyword !== "chart") return NOTHING;
  const rowOf = rowsOf(text, body);
  const output = block.outputs[column ?? 0]!;
  const op = producers(plan).get(output)?.op;
  if (op?.opcode === Opcode.rowValue) {
    const pick = producers(plan).get(op.in0)?.op;
    if (pick?.opcode !== Opcode.pick) return NOTHING;
    const clash = clashOf(frame, op.in0);
    if (clash !== undefined) {
      const rows = [rowOf(clash[0] - 1), rowOf(clash[1] - 1)] as const;
      return { at: body.rows[clash[1] - 1]!.at, by: [{ code: "rows-both-apply", rows }] };
    }
    if (!isKnown(frame, op.in0)) return { by: [openRows(frame, pick, isKnown(frame, output))] };
    const row = pick.payload.written[frame.num[op.in0]!]!;
    return { at: body.rows[row]!.at, by: [{ code: "row", ...rowOf(row) }] };
  }
  if (op?.opcode === Opcode.interpolate) {
    const rows = isKnown(frame, output) ? pointsUsed(frame, op.payload, op.in0) : [];
    if (rows.length === 0) return NOTHING;
    const points = rows.filter((row) => row >= 0);
    return {
      at: { start: body.rows[points[0]!]!.at.start, end: body.rows[points.at(-1)!]!.at.end },
      by: [
        points.length === 1
          ? { code: "at-row", ...rowOf(points[0]!) }
          : { code: "between-rows", points: points.map(rowOf) },
      ],
    };
  }
  if (op?.opcode !== Opcode.candidateRows) return NOTHING;
  const candidates = frame.candidateRows[op.payload.slot];
  const rows = candidates
    ? [...candidates.left].flatMap((yes, r) => (yes ? [op.payload.pick.written[r]! + 1] : []))
    : [];
  if (rows.length > 0) return { by: [{ code: "rows-left", rows }] };
  const asks = chart.conditions
    .filter((_, c) => isKnown(frame, op.payload.pick.conditions[c]!))
    .map((condition) => condition.name);
  return { by: [{ code: "answers-leave-no-row", asks }] };
}

/** The two rows, as written from 1, that leave a pick without a row because both apply. */
function clashOf(frame: Frame, picked: number): readonly [number, number] | undefined {
  if (isKnown(frame, picked) || frame.state[picked] !== IMPOSSIBLE || frame.cause[picked] !== picked)
    return undefined;
  const reason = reasonOf(frame, picked);
  return reason.code === "rows-clash" ? [reason.rows[0].row, reason.rows[1].row] : undefined;
}

/** The rows of a chart that are still possible; `agree`: the value is known all the same. */
function openRows(frame: Frame, pick: Pick, agree: boolean): Decision {
  const possible = frame.possibleRows.get(pick.out)?.rows ?? [];
  const rows = possible.map((r) => pick.payload.written[r]! + 1);
  if (agree) return { code: "rows-agree", rows };
  return rows.length > 0 && frame.state[pick.out] === UNKNOWN
    ? { code: "rows-possible", rows: rows.slice(0, MOST_ROWS) }
    : { code: "no-row-fits" };
}
