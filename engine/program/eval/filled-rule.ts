// A rule as written, with the values of a job instead of its names: "6 mm run out at 1:12".
import { TIME } from "../../../core/dimension.ts";
import type { Span } from "../../../core/span.ts";
import { type Type, quantity } from "../../../core/type.ts";
import { type Unit, simpleUnit } from "../../../core/unit.ts";
import type { UnitSystem } from "../../../core/view.ts";
import { eachExpr } from "../../language/syntax/names.ts";
import type { Expr } from "../../language/syntax/tree.ts";
import { Opcode } from "../plan/op.ts";
import type { Block } from "../plan/plan.ts";
import type { Evaluation } from "./evaluate.ts";
import { isKnown } from "./frame.ts";
import { oneLine, shownOf, writeAny } from "./show.ts";

type Gather = Extract<Expr, { is: "gather" }>;

/** The rule on one line, each name replaced by its value. */
export function filledRule(evaluation: Evaluation, block: Block, rule: Expr, units: UnitSystem): string {
  const { text } = block.entry.statement;
  const swaps: { at: Span; text: string }[] = [];
  eachExpr(rule, (expr) => {
    const value =
      expr.is === "name"
        ? valueText(evaluation, expr.name, expr.field?.text, units)
        : expr.is === "gather"
          ? gatheredText(evaluation, block, expr, units)
          : undefined;
    if (value !== undefined) swaps.push({ at: expr.at, text: value });
  });
  let out = "";
  let done = rule.at.start;
  for (const swap of swaps.sort((a, b) => a.at.start - b.at.start)) {
    if (swap.at.start < done) continue;
    out += text.slice(done, swap.at.start) + swap.text;
    done = swap.at.end;
  }
  return oneLine(out + text.slice(done, rule.at.end));
}

/** `sum of plies.thickness` or `count of steps`: its number, where it is known. */
function gatheredText(
  evaluation: Evaluation,
  block: Block,
  expr: Gather,
  units: UnitSystem,
): string | undefined {
  const { plan, frame } = evaluation;
  const write = (register: number, type: Type, unit: Unit | undefined) =>
    writeAny({ plan, frame }, frame.num[register]!, { type, unit }, units);
  if (expr.from.text === "steps" && !plan.checked.byName.has("steps")) {
    const register = plan.registers.byName.get(`steps!${expr.field?.text ?? "count"}`);
    if (register === undefined || !isKnown(frame, register)) return undefined;
    return write(register, expr.field ? quantity(TIME) : { is: "count" }, simpleUnit("min"));
  }
  const op = block.ops.find(
    (one) =>
      (one.opcode === Opcode.aggregate ||
        one.opcode === Opcode.candidateCount ||
        one.opcode === Opcode.firstCandidate) &&
      one.at.start === expr.at.start,
  );
  const from = plan.checked.entries[plan.checked.byName.get(expr.from.text) ?? -1]?.checked.signature?.type;
  if (op === undefined || !isKnown(frame, op.out) || from === undefined) return undefined;
  const column = from.is === "list" ? from.columns.find((one) => one.name === expr.field?.text) : undefined;
  const isCount = op.opcode === Opcode.aggregate && op.payload.what === "count";
  const type: Type = isCount
    ? { is: "count" }
    : from.is === "kept" && op.opcode === Opcode.firstCandidate
      ? from.of
      : (column?.type ?? { is: "count" });
  return write(op.out, type, column?.unit);
}

/** A value by its name, as it is shown; `field` for one column of a chart. */
export function valueText(
  evaluation: Evaluation,
  name: string,
  field: string | undefined,
  units: UnitSystem,
): string | undefined {
  const at = evaluation.plan.checked.byName.get(name);
  if (at === undefined) return undefined;
  const block = evaluation.plan.byId.get(evaluation.plan.checked.entries[at]!.id);
  if (block === undefined) return undefined;
  const all = shownOf(evaluation, block, units);
  const value = field === undefined ? all[0] : all.find((one) => one.name === `${name}.${field}`);
  const label = (block.entry.from?.hidden ?? name).replace(/^\w+ /, "");
  switch (value?.state) {
    case undefined:
      return undefined;
    case "known":
      return value!.text;
    case "unknown":
      return `${label} (not known)`;
    case "impossible":
      return `${label} (none)`;
  }
}
