// Literals: numbers with units become SI values, words find their kind.
import { LENGTH, TIME, sameDimension } from "../../../core/dimension.ts";
import type { Span } from "../../../core/span.ts";
import { NUMBER, TAPER, type Type, YES_NO, typeOfUnit } from "../../../core/type.ts";
import { spelledUnit } from "../../../core/spelled-unit.ts";
import { type Unit, currencyOf, readUnit, toSI, unitSymbols } from "../../../core/unit.ts";
import type { Expr, UnitText } from "../syntax/tree.ts";
import { nearest } from "./did-you-mean.ts";
import type { Rule } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";

/** The unit as written, or undefined with a fault noted. */
export function unitAt(context: CheckContext, written: UnitText): Unit | undefined {
  const unit = readUnit(written);
  if ("symbol" in unit) {
    const currency = currencyOf(written);
    const first = context.scope.currency();
    // A dial and its span name a currency three times; that is one finding.
    if (
      currency !== undefined &&
      first !== undefined &&
      currency !== first &&
      !context.faults.some((one) => one.code === "money/two" && one.facts.currency === currency)
    ) {
      fault(context, "money/two", written.at, { currency, first });
    }
    return unit;
  }
  const near = spelledUnit(unit.unknown) ?? nearest(unit.unknown, unitSymbols());
  const at = { start: written.at.start, end: written.at.start + written.text.length };
  fault(
    context,
    "unit/unknown",
    at,
    { unit: unit.unknown, near },
    near === undefined
      ? []
      : [{ says: `Write ${near}`, edits: [{ at, text: written.text.replace(unit.unknown, near) }] }],
  );
  return undefined;
}

/**
 * A literal as a constant in SI; undefined when the expression is no literal. What is no number to work with
 * (1/0, 1e999) has a finding.
 */
export function literal(context: CheckContext, expr: Expr): Rule | undefined {
  const rule = written(context, expr);
  if (rule?.does !== "constant" || isSensible(rule.value)) return rule;
  fault(context, "number/size", expr.at, { text: context.source.slice(expr.at.start, expr.at.end) });
  return spoilt(expr.at, rule.type);
}

/** Far beyond anything measured there is no room left to change units in. */
export const isSensible = (value: number): boolean => Math.abs(value) < 1e200;

function written(context: CheckContext, expr: Expr): Rule | undefined {
  switch (expr.is) {
    case "number":
      return { does: "constant", at: expr.at, type: NUMBER, value: expr.value };
    case "truth":
      return { does: "constant", at: expr.at, type: YES_NO, value: expr.value ? 1 : 0 };
    case "mix": {
      if (expr.first > 0 && expr.second > 0)
        return {
          does: "constant",
          at: expr.at,
          type: { is: "mix", by: expr.by },
          value: expr.second / expr.first,
        };
      fault(context, "mix/zero", expr.at, {});
      return spoilt(expr.at, { is: "mix", by: expr.by });
    }
    case "taper":
      return taper(context, expr.at, expr.thickness, expr.run);
    case "quantity":
      return amount(context, expr);
    case "text":
    case "name":
    case "call":
    case "before":
    case "counted":
    case "minus":
    case "not":
    case "binary":
    case "round":
    case "in-band":
    case "one-of":
    case "of-known":
    case "known":
    case "among":
    case "choose":
    case "gather":
      return undefined;
  }
}

/** 1:12 and 12:1 are one taper: thickness to run, and the run is the longer. */
function taper(context: CheckContext, at: Span, thickness: number, run: number): Rule {
  if (thickness <= 0 || run <= 0) {
    fault(context, "taper/zero", at, {});
    return spoilt(at, TAPER);
  }
  if (run < thickness) {
    fault(context, "taper/turned", at, { written: `${thickness}:${run}`, read: `1:${thickness / run}` }, [
      { says: `Write ${run}:${thickness}`, edits: [{ at, text: `${run}:${thickness}` }] },
    ]);
    return { does: "constant", at, type: TAPER, value: thickness / run };
  }
  return { does: "constant", at, type: TAPER, value: run / thickness };
}

function amount(context: CheckContext, expr: Extract<Expr, { is: "quantity" }>): Rule {
  const units = expr.parts.map((part) => unitAt(context, part.unit));
  const first = units[0];
  if (units.some((unit) => unit === undefined) || first === undefined) return spoilt(expr.at);
  if (
    expr.parts.length > 1 &&
    !units.every(
      (unit) =>
        sameDimension(unit!.dimension, first.dimension) &&
        (sameDimension(unit!.dimension, TIME) || sameDimension(unit!.dimension, LENGTH)),
    )
  ) {
    fault(context, "unit/parts", expr.at, { units: units.map((unit) => unit!.symbol) });
    return spoilt(expr.at);
  }
  // Read through the decimal quotient where that is exact, so that 3 mm is 0.003 and not a neighbour of it.
  const value = expr.parts.reduce((sum, part, i) => sum + exact(part.value, units[i]!), 0);
  return { does: "constant", at: expr.at, type: typeOfUnit(first), value, unit: first };
}

function exact(value: number, unit: Unit): number {
  const inverse = 1 / unit.factor;
  return unit.zero === 0 && unit.factor < 1 && Number.isInteger(inverse)
    ? value / inverse
    : toSI(value, unit);
}

/** Stands for a part that has its fault already; it fits everywhere. */
export const spoilt = (at: Span, type: Type = { is: "anything" }): Rule => ({
  does: "none",
  at,
  type,
  reason: { code: "part-finding" },
});
