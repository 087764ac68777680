// Checks one cell of a chart: what a condition's cell covers, and what a value's cell gives.
import { type Side, type Stretch, stretch } from "../../../core/box.ts";
import { type Column, fits, isNumber, typeName } from "../../../core/type.ts";
import { type Unit, toSI } from "../../../core/unit.ts";
import type { Band, ConditionCell, Expr, ValueCell } from "../syntax/tree.ts";
import { literal, spoilt } from "./amount.ts";
import { check } from "./expression.ts";
import { unlike } from "./mismatches.ts";
import type { Condition, Rule } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";

/** What a condition's cell covers; undefined with a finding. */
export function checkCondition(
  context: CheckContext,
  cell: ConditionCell,
  condition: Condition,
): Side | undefined {
  if (cell.fits === undefined) return undefined;
  if (cell.fits === "any") return "any";
  return condition.domain.is === "words"
    ? wordsOf(context, cell, cell.fits, condition)
    : stretchesOf(context, cell.fits, condition);
}

function wordsOf(
  context: CheckContext,
  cell: ConditionCell,
  bands: readonly Band[],
  condition: Condition,
): Side | undefined {
  const words = new Set<number>();
  for (const band of bands) {
    const isWord = band.low !== undefined && band.low === band.high;
    const before = context.faults.length;
    const rule = isWord
      ? (literal(context, band.low) ?? check(context, band.low, condition.type))
      : undefined;
    if (rule !== undefined && (context.faults.length > before || rule.type.is === "anything"))
      return undefined;
    if (rule?.does !== "constant" || !fits(rule.type, condition.type)) {
      fault(context, "chart/cell", band.at, {
        text: cell.text,
        type: typeName(condition.type),
        column: condition.name,
      });
      return undefined;
    }
    words.add(rule.value);
  }
  return { is: "words", words };
}

function stretchesOf(context: CheckContext, bands: readonly Band[], condition: Condition): Side | undefined {
  const stretches: Stretch[] = [];
  for (const band of bands) {
    const unit = unitInBand(context, band) ?? condition.unit;
    const low = band.low === undefined ? -Infinity : end(context, band.low, condition, unit);
    const high =
      band.high === undefined
        ? Infinity
        : band.high === band.low
          ? low
          : end(context, band.high, condition, unit);
    if (low === undefined || high === undefined) return undefined;
    const made = stretch(low, band.lowIn, high, band.highIn);
    if (made.from > made.to) {
      const text = context.source.slice(band.at.start, band.at.end);
      fault(context, "band/upside-down", band.at, { text, same: made.low === made.high });
      return undefined;
    }
    stretches.push(made);
  }
  return { is: "line", stretches: stretches.sort((a, b) => a.from - b.from) };
}

/** In `15 to under 20 °C` the unit at the end serves both ends. */
function unitInBand(context: CheckContext, band: Band): Unit | undefined {
  for (const expr of [band.high, band.low]) {
    if (expr?.is !== "quantity") continue;
    const rule = literal({ ...context, faults: [] }, expr);
    if (rule?.unit !== undefined) return rule.unit;
  }
  return undefined;
}

/** One end of a band in SI: a literal, or a dial whose value is known while the book is checked. */
function end(
  context: CheckContext,
  expr: Expr,
  condition: Condition,
  unit: Unit | undefined,
): number | undefined {
  if (expr.is === "number" && unit !== undefined && !isNumber(condition.type)) {
    const value = toSI(expr.value, unit);
    if (Number.isFinite(value)) return value;
    fault(context, "number/size", expr.at, { text: context.source.slice(expr.at.start, expr.at.end) });
    return undefined;
  }
  const before = context.faults.length;
  const rule = literal(context, expr) ?? check(context, expr, condition.type);
  if (context.faults.length > before || rule.type.is === "anything") return undefined;
  if (!fits(rule.type, condition.type) && !fits(condition.type, rule.type)) {
    const leftExpr: Expr = { is: "name", at: condition.rule.at, name: condition.name };
    unlike(context, { left: condition.rule, right: rule, leftExpr, rightExpr: expr }, "compare", expr.at);
    return undefined;
  }
  if (rule.does === "constant") return rule.value;
  const constant = rule.does === "value" ? context.scope.signature(rule.name)?.constant : undefined;
  if (constant === undefined)
    fault(context, "chart/end", expr.at, { text: context.source.slice(expr.at.start, expr.at.end) });
  return constant;
}

/** The one value that a cell means, where it is no more than one. */
export const pointOf = (one: Side): number | undefined => {
  if (one === "any" || one.is === "words" || one.stretches.length !== 1) return undefined;
  const [only] = one.stretches;
  return only!.low === only!.high ? only!.low : undefined;
};

/** A value cell; a bare number takes the column's unit. */
export function checkValue(context: CheckContext, cell: ValueCell, out: Column): Rule {
  if (cell.rule === undefined) return spoilt(cell.at, out.type);
  const expr = cell.rule;
  const rule = check(context, expr, out.type);
  if (rule.type.is === "anything" || out.type.is === "anything") return { ...rule, type: out.type } as Rule;
  if (rule.does === "constant" && isBare(expr)) {
    if (out.unit !== undefined && !isNumber(out.type))
      return { ...rule, type: out.type, unit: out.unit, value: toSI(rule.value, out.unit) };
    if (out.type.is === "share") return { ...rule, type: out.type, value: rule.value * 0.01 };
    if (out.type.is === "taper") return { ...rule, type: out.type };
    if (out.type.is === "count" && Number.isInteger(rule.value) && rule.value >= 0)
      return { ...rule, type: out.type };
  }
  if (fits(rule.type, out.type)) return rule;
  if (rule.type.is === "kind" && out.type.is === "kind")
    fault(context, "kind/mismatch", cell.at, {
      has: rule.type.kind,
      wants: out.type.kind,
      because: `${out.name} is that kind`,
    });
  else
    fault(context, "chart/value", cell.at, {
      text: cell.text,
      has: typeName(rule.type),
      wants: typeName(out.type),
      column: out.name,
    });
  return spoilt(cell.at, out.type);
}

const isBare = (expr: Expr): boolean =>
  expr.is === "number" || (expr.is === "minus" && expr.of.is === "number");
