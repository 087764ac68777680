// What may be added, multiplied, taken as a share, run out at a taper, paired at a mix and rounded, and what
// comes of it.
import {
  LENGTH,
  MASS,
  MONEY,
  VOLUME,
  WARMTH,
  isPlain,
  over,
  sameDimension,
  times,
  toThe,
} from "../../../core/dimension.ts";
import {
  COUNT,
  NUMBER,
  type Type,
  fits,
  isNumber,
  isOrdered,
  quantity,
  typeName,
  typeOfUnit,
} from "../../../core/type.ts";
import { type Unit, simpleUnit } from "../../../core/unit.ts";
import type { Expr } from "../syntax/tree.ts";
import { spoilt, unitAt } from "./amount.ts";
import { unitOf, unlike, wrong } from "./mismatches.ts";
import type { Rule } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";

type Binary = Extract<Expr, { is: "binary" }>;

export function arithmetic(context: CheckContext, expr: Binary): Rule {
  const left = context.check(context, expr.left);
  const right = context.check(context, expr.right);
  if (left.type.is === "anything" || right.type.is === "anything") return spoilt(expr.at);
  switch (expr.op) {
    case "+":
    case "-":
      return sum(context, expr, expr.op, left, right);
    case "*":
    case "/":
      return product(context, expr, expr.op, left, right);
    case "of":
      return shareOf(context, expr, left, right);
    case "run out at":
      return runOut(context, expr, left, right);
    case "paired at":
      return paired(context, expr, left, right);
    case "^":
    case "<":
    case "<=":
    case ">":
    case ">=":
    case "is":
    case "is not":
    case "and":
    case "or":
      return spoilt(expr.at);
  }
}

const made = (
  expr: Binary,
  op: "+" | "-" | "*" | "/",
  type: Type,
  sides: { readonly left: Rule; readonly right: Rule },
  unit?: Unit,
): Rule => ({ does: "arithmetic", at: expr.at, type, op, ...sides, ...(unit ? { unit } : {}) });

function sum(context: CheckContext, expr: Binary, op: "+" | "-", left: Rule, right: Rule): Rule {
  const [l, r] = [left.type, right.type];
  const doing = op === "+" ? "add" : "subtract";
  const isApart = (t: Type) => t.is === "quantity" && t.dimension.join() === "0,0,0,1,0,0";
  if (l.is === "temperature" || r.is === "temperature") {
    if (l.is === "temperature" && r.is === "temperature" && op === "-")
      return made(expr, "-", quantity([0, 0, 0, 1, 0, 0]), { left, right });
    if (l.is === "temperature" && isApart(r)) return made(expr, op, l, { left, right }, left.unit);
    if (r.is === "temperature" && isApart(l) && op === "+")
      return made(expr, op, r, { left, right }, right.unit);
    if (l.is === "temperature" && r.is === "temperature") {
      const literal = expr.right.is === "quantity" ? expr.right : undefined;
      fault(
        context,
        "temperature/point",
        expr.at,
        { doing: "add", both: true, literal: literal !== undefined },
        literal
          ? [
              {
                says: "Write apart after it",
                edits: [{ at: { start: literal.at.end, end: literal.at.end }, text: " apart" }],
              },
            ]
          : [],
      );
      return spoilt(expr.at);
    }
    unlike(context, { left, right, leftExpr: expr.left, rightExpr: expr.right }, doing, expr.at);
    return spoilt(expr.at);
  }
  if (l.is === "count" && r.is === "count")
    return made(expr, op, op === "+" ? COUNT : NUMBER, { left, right });
  if (asNumber(l) && asNumber(r) && !(l.is === "share" && r.is === "share"))
    return made(expr, op, NUMBER, { left, right });
  if (!isOrdered(l) || l.is === "taper" || l.is === "mix")
    return wrong(context, left, "an amount", `${doing} wants amounts`);
  if (!isOrdered(r) || r.is === "taper" || r.is === "mix")
    return wrong(context, right, "an amount", `${doing} wants amounts`);
  if (!fits(r, l)) {
    unlike(context, { left, right, leftExpr: expr.left, rightExpr: expr.right }, doing, expr.at);
    return spoilt(expr.at);
  }
  return made(expr, op, l, { left, right }, left.unit ?? right.unit);
}

/** A plain share is worth a number: 1 + 15 % is 1.15. */
const asNumber = (type: Type): boolean => isNumber(type) || (type.is === "share" && type.by === "plain");

function product(context: CheckContext, expr: Binary, op: "*" | "/", left: Rule, right: Rule): Rule {
  const [l, r] = [left.type, right.type];
  for (const side of [left, right]) {
    if (side.type.is === "temperature") {
      fault(context, "temperature/times", side.at, {
        text: context.source.slice(side.at.start, side.at.end),
      });
      return spoilt(expr.at);
    }
    if (!isOrdered(side.type))
      return wrong(context, side, "an amount", `${op === "*" ? "multiplying" : "dividing"} wants amounts`);
  }
  const special = (t: Type) => (t.is === "share" && t.by !== "plain") || t.is === "taper" || t.is === "mix";
  if (special(l) && asNumber(r)) return made(expr, op, l, { left, right });
  if (special(r) && asNumber(l) && op === "*") return made(expr, op, r, { left, right });
  if (op === "/" && special(l) && fits(l, r)) return made(expr, op, NUMBER, { left, right });
  const odd = special(l) ? left : special(r) ? right : undefined;
  if (odd !== undefined) {
    const [other, otherExpr] = odd === left ? [right, expr.right] : [left, expr.left];
    const oddExpr = odd === left ? expr.left : expr.right;
    const word = odd.type.is === "share" ? "of" : odd.type.is === "taper" ? "run out at" : "paired at";
    const text = (e: Expr) => context.source.slice(e.at.start, e.at.end);
    const written =
      odd.type.is === "share"
        ? `${text(oddExpr)} of ${text(otherExpr)}`
        : `${text(otherExpr)} ${word} ${text(oddExpr)}`;
    fault(
      context,
      "share/times",
      expr.at,
      { type: typeName(odd.type), other: typeName(other.type), word, op },
      op === "*" ? [{ says: `Write ${written}`, edits: [{ at: expr.at, text: written }] }] : [],
    );
    return spoilt(expr.at);
  }
  if (op === "*" && l.is === "count" && r.is === "count") return made(expr, op, COUNT, { left, right });
  // A share times a number is still a share of something: 15 % * 2 is 30 %.
  if (l.is === "share" && isNumber(r)) return made(expr, op, l, { left, right });
  if (r.is === "share" && isNumber(l) && op === "*") return made(expr, op, r, { left, right });
  const [a, b] = [dimensionOf(l), dimensionOf(r)];
  const type = quantity(op === "*" ? times(a, b) : over(a, b));
  const unit = isPlain(b)
    ? left.unit
    : isPlain(a) && op === "*"
      ? right.unit
      : type.is === "quantity" && sameDimension(type.dimension, MONEY)
        ? currencyUnit(context)
        : undefined;
  return made(
    expr,
    op,
    type,
    { left, right },
    type.is === "quantity" && isPlain(type.dimension) ? undefined : unit,
  );
}

const dimensionOf = (type: Type) => (type.is === "quantity" ? type.dimension : ([0, 0, 0, 0, 0, 0] as const));

/** A sum of money is shown in the book's currency. */
function currencyUnit(context: CheckContext): Unit | undefined {
  const currency = context.scope.currency();
  return currency === undefined ? undefined : simpleUnit(currency);
}

function shareOf(context: CheckContext, expr: Binary, left: Rule, right: Rule): Rule {
  const [l, r] = [left.type, right.type];
  if (l.is !== "share") {
    const mends =
      expr.left.is === "number"
        ? [
            {
              says: "Write % after it",
              edits: [{ at: { start: expr.left.at.end, end: expr.left.at.end }, text: " %" }],
            },
          ]
        : [];
    fault(context, "share/wanted", left.at, { has: typeName(l) }, mends);
    return spoilt(expr.at);
  }
  if (l.by === "plain") {
    if (r.is === "quantity" || r.is === "count" || r.is === "share")
      return made(expr, "*", r.is === "count" ? NUMBER : r, { left, right }, right.unit);
    return wrong(context, right, "an amount", "a share is taken of it");
  }
  const wanted = l.by === "mass" ? MASS : VOLUME;
  if (r.is === "quantity" && sameDimension(r.dimension, wanted))
    return made(expr, "*", r, { left, right }, right.unit);
  // A rate or an areal weight keeps its mass: 2 % by mass of 450 g/m2 is fair.
  if (r.is === "quantity" && l.by === "mass" && r.dimension[1] === 1)
    return made(expr, "*", r, { left, right }, right.unit);
  if (r.is === "share" && r.by === l.by) return made(expr, "*", r, { left, right });
  const other = r.is === "quantity" && sameDimension(r.dimension, l.by === "mass" ? VOLUME : MASS);
  fault(context, "share/basis", expr.at, {
    doing: "of",
    left: l.by,
    amount: true,
    other,
    of: context.source.slice(expr.right.at.start, expr.right.at.end),
    type: typeName(r),
  });
  return spoilt(expr.at);
}

function runOut(context: CheckContext, expr: Binary, left: Rule, right: Rule): Rule {
  if (!(left.type.is === "quantity" && sameDimension(left.type.dimension, LENGTH)))
    return wrong(context, left, "a length", "run out at wants the thickness before it");
  if (right.type.is !== "taper")
    return wrong(context, right, "a taper such as 1:12", "run out at wants it after it");
  return made(expr, "*", left.type, { left, right }, left.unit);
}

function paired(context: CheckContext, expr: Binary, left: Rule, right: Rule): Rule {
  if (right.type.is !== "mix")
    return wrong(context, right, "a mix such as 100:28 by mass", "paired at wants it after it");
  const wanted = right.type.by === "mass" ? MASS : VOLUME;
  if (left.type.is === "quantity" && sameDimension(left.type.dimension, wanted))
    return made(expr, "*", left.type, { left, right }, left.unit);
  fault(context, "share/basis", expr.at, {
    doing: "paired at",
    left: right.type.by,
    amount: true,
    other: left.type.is === "quantity" && sameDimension(left.type.dimension, wanted === MASS ? VOLUME : MASS),
    of: context.source.slice(expr.left.at.start, expr.left.at.end),
    type: typeName(left.type),
  });
  return spoilt(expr.at);
}

export function power(context: CheckContext, expr: Binary): Rule {
  const left = context.check(context, expr.left);
  const right = context.check(context, expr.right);
  if (left.type.is === "anything" || right.type.is === "anything") return spoilt(expr.at);
  if (!asNumber(right.type)) return wrong(context, right, "a plain number", "it is a power");
  const base = { does: "arithmetic", at: expr.at, op: "^", left, right } as const;
  if (asNumber(left.type)) return { ...base, type: NUMBER };
  if (left.type.is !== "quantity")
    return wrong(context, left, "a number or an amount", "it is raised to a power");
  if (right.does !== "constant" || !Number.isInteger(right.value) || Math.abs(right.value) > 12) {
    fault(context, "power/whole", right.at, { type: typeName(left.type) });
    return spoilt(expr.at);
  }
  return { ...base, type: quantity(toThe(left.type.dimension, right.value)) };
}

export function roundRule(context: CheckContext, expr: Extract<Expr, { is: "round" }>): Rule {
  const of = context.check(context, expr.of);
  if (of.type.is === "anything") return spoilt(expr.at);
  if (!isOrdered(of.type)) return wrong(context, of, "an amount", "it is rounded");
  const base = { does: "round", at: expr.at, way: expr.way, of, base: 0 } as const;
  if (expr.to === "whole") {
    if (!asNumber(of.type) || of.type.is === "share") {
      fault(
        context,
        "round/whole",
        of.at,
        { type: typeName(of.type), unit: of.unit?.symbol },
        of.unit
          ? [
              {
                says: `Round to 1 ${of.unit.symbol}`,
                edits: [{ at: { start: expr.at.end - 5, end: expr.at.end }, text: `1 ${of.unit.symbol}` }],
              },
            ]
          : [],
      );
      return spoilt(expr.at);
    }
    return { ...base, type: COUNT, step: { does: "constant", at: expr.at, type: NUMBER, value: 1 } };
  }
  const step = context.check(context, expr.to);
  if (step.type.is === "anything") return spoilt(expr.at);
  if (step.does === "constant" && step.type.is !== "temperature" && step.value <= 0) {
    fault(context, "round/step", step.at, {});
    return spoilt(expr.at);
  }
  if (of.type.is === "temperature") {
    // 23.4 °C rounded to 1 °C: multiples are counted from the zero of the scale that is written.
    const unit = step.unit;
    const isApart = step.type.is === "quantity" && step.type.dimension.join() === "0,0,0,1,0,0";
    if (step.does === "constant" && unit !== undefined && (step.type.is === "temperature" || isApart)) {
      const zero = unit.symbol.startsWith("°C")
        ? 273.15
        : unit.symbol.startsWith("°F")
          ? 459.67 * (5 / 9)
          : 0;
      const size = step.type.is === "temperature" ? step.value - unit.zero : step.value;
      return { ...base, type: of.type, base: zero, step: { ...step, value: size }, ...unitOf(of) };
    }
    return wrong(context, step, "a step such as 1 °C apart", "a temperature is rounded to it");
  }
  if (of.type.is === "taper" && isNumber(step.type)) return { ...base, type: of.type, step };
  if (isNumber(of.type) && isNumber(step.type))
    return { ...base, type: step.does === "constant" && Number.isInteger(step.value) ? COUNT : NUMBER, step };
  if (!fits(step.type, of.type)) {
    unlike(context, { left: of, right: step, leftExpr: expr.of, rightExpr: expr.to }, "round", expr.at);
    return spoilt(expr.at);
  }
  return { ...base, type: of.type, step, ...unitOf(of) };
}

/** `air counted in °C`: how many of the unit the amount is, as a plain number. */
export function countedIn(context: CheckContext, expr: Extract<Expr, { is: "counted" }>): Rule {
  const of = context.check(context, expr.of);
  const unit = unitAt(context, expr.unit);
  if (of.type.is === "anything" || unit === undefined) return spoilt(expr.at);
  if (!fits(of.type, typeOfUnit(unit)) || unit.sense === "count") {
    fault(context, "unit/counted", expr.at, {
      type: typeName(of.type),
      unit: unit.symbol,
      number: isNumber(of.type),
      ratio: of.type.is === "taper" || of.type.is === "mix",
    });
    return spoilt(expr.at);
  }
  const from: Rule =
    unit.zero === 0
      ? of
      : {
          does: "arithmetic",
          at: expr.at,
          op: "-",
          left: of,
          right: { does: "constant", at: expr.at, type: of.type, value: unit.zero },
          type: quantity(WARMTH),
        };
  // Multiplied where that is exact, so that 12.7 mm is 12.7 of them and not a neighbour of it.
  const inverse = 1 / unit.factor;
  const exact = unit.factor < 1 && Number.isInteger(inverse);
  return {
    does: "arithmetic",
    at: expr.at,
    op: exact ? "*" : "/",
    left: from,
    right: { does: "constant", at: expr.at, type: NUMBER, value: exact ? inverse : unit.factor },
    type: NUMBER,
  };
}
