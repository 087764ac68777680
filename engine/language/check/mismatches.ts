// What the checkers of expressions share: saying that a part is not what is wanted there, that two parts do
// not go together, and that a name is unknown. The checker itself comes with the context, so that the files
// of one recursion need not import one another in a circle.
import type { Span } from "../../../core/span.ts";
import { type Type, fits, isNumber, isOrdered, typeName } from "../../../core/type.ts";
import type { Unit } from "../../../core/unit.ts";
import type { Expr, Word } from "../syntax/tree.ts";
import { spoilt } from "./amount.ts";
import { nearest } from "./did-you-mean.ts";
import type { Rule } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";

/** What a rule is asked for, and why, so that a message can say so. */
export interface Wanted {
  readonly type: Type;
  readonly because: string;
}

/** A rule that must be of one type; a bare number gets a message of its own. */
export function checkAs(context: CheckContext, expr: Expr, wanted: Wanted): Rule {
  const rule = context.check(context, expr, wanted.type);
  if (fits(rule.type, wanted.type)) return rule;
  if (wanted.type.is === "count" && isWhole(rule)) return { ...rule, type: wanted.type };
  if (wanted.type.is === "kind" && rule.type.is === "kind")
    fault(context, "kind/mismatch", rule.at, {
      has: rule.type.kind,
      wants: wanted.type.kind,
      because: wanted.because,
    });
  else if (wanted.type.is === "count" && isNumber(rule.type))
    notWhole(context, expr, { because: wanted.because });
  else
    fault(context, "type/wanted", rule.at, {
      has: typeName(rule.type),
      wants: typeName(wanted.type),
      because: wanted.because,
      bare: expr.is === "number",
    });
  return spoilt(rule.at);
}

/**
 * Whether a plain number is whole by its rule: made of counts and whole literals by what keeps them whole.
 */
export function isWhole(rule: Rule): boolean {
  if (rule.type.is === "count") return true;
  if (!isNumber(rule.type)) return false;
  switch (rule.does) {
    case "constant":
      return Number.isInteger(rule.value) && rule.value >= 0;
    case "arithmetic":
      return "+-*".includes(rule.op) && isWhole(rule.left) && isWhole(rule.right);
    case "function":
      return rule.name === "abs" && isWhole(rule.of);
    case "most":
      return rule.of.every(isWhole);
    case "choose":
      return (
        rule.cases.every((one) => isWhole(one.value)) &&
        (rule.otherwise.does === "none" ? rule.cases.length > 0 : isWhole(rule.otherwise))
      );
    case "call":
      return isWhole(rule.body);
    case "none":
    case "text":
    case "value":
    case "local":
    case "negate":
    case "round":
    case "compare":
    case "and":
    case "or":
    case "not":
    case "band":
    case "words":
    case "known":
    case "gather":
    case "left-count":
    case "left-first":
    case "left-among":
    case "read-chart":
    case "stopped":
    case "of-steps":
      return false;
  }
}

/** A number that may be broken where a count is wanted. `facts`: whose count it is, or why one is wanted. */
export function notWhole(
  context: CheckContext,
  expr: Expr,
  facts: { readonly name: string } | { readonly because: string },
): void {
  const { at } = expr;
  const end = { start: at.end, end: at.end };
  const begin = { start: at.start, end: at.start };
  // Rounding binds looser than sums and tighter than alternatives.
  const brackets = expr.is === "choose" || expr.is === "round";
  fault(context, "count/whole", at, facts, [
    {
      says: "Round it up to whole",
      edits: brackets
        ? [
            { at: begin, text: "(" },
            { at: end, text: ") rounded up to whole" },
          ]
        : [{ at: end, text: " rounded up to whole" }],
    },
  ]);
}

export const unitOf = (rule: { readonly unit?: Unit | undefined }): { unit?: Unit } =>
  rule.unit === undefined ? {} : { unit: rule.unit };

export function wrong(context: CheckContext, rule: Rule, wants: string, because: string): Rule {
  fault(context, "type/wanted", rule.at, { has: typeName(rule.type), wants, because });
  return spoilt(rule.at);
}

export function unknownName(context: CheckContext, word: Word, hint?: Type): Rule {
  const { at, text: name } = word;
  if (name === "as-before") {
    fault(context, "layer/as-before", at, {});
    return spoilt(at);
  }
  const spaced = spacedForm(context, name);
  if (spaced !== undefined) {
    fault(context, "name/tight", at, { name, spaced }, [
      { says: `Write ${spaced}`, edits: [{ at, text: spaced }] },
    ]);
    return spoilt(at);
  }
  const line = (["step", "caution", "stop"] as const).find((word) => context.scope.hasLine(word, name));
  if (line !== undefined) {
    fault(context, "name/line", at, { name, what: line });
    return spoilt(at);
  }
  const words = hint?.is === "kind" ? hint.words : [];
  const near = nearest(name, [...context.scope.names(), ...context.locals.keys(), ...words]);
  const mends = near === undefined ? [] : [{ says: `Write ${near}`, edits: [{ at, text: near }] }];
  if (hint?.is === "kind" && !context.inText)
    fault(context, "kind/word", at, { word: name, kind: hint.kind, words: hint.words, near }, mends);
  else fault(context, context.inText ? "text/insert" : "name/unknown", at, { name, near }, mends);
  return spoilt(at);
}

/** `a-b` where `a` and `b` are known: a subtraction written too tight. */
function spacedForm(context: CheckContext, name: string): string | undefined {
  const parts = name.split("-");
  if (parts.length > 12) return undefined;
  for (let i = 1; i < parts.length; i++) {
    const [left, right] = [parts.slice(0, i).join("-"), parts.slice(i).join("-")];
    const is = (part: string) =>
      context.locals.has(part) || context.scope.signature(part) !== undefined || /^\d+$/.test(part);
    if (is(left) && is(right)) return `${left} - ${right}`;
  }
  return undefined;
}

/** The two sides of an operation, checked and as written. */
interface Sides {
  readonly left: Rule;
  readonly right: Rule;
  readonly leftExpr: Expr;
  readonly rightExpr: Expr;
}

/** One finding for two sides that do not go together: the plainest explanation that fits. */
export function unlike(context: CheckContext, sides: Sides, doing: string, at: Span): void {
  if (bareSide(context, sides, doing) || temperatureSide(context, sides, doing, at)) return;
  if (shareBesideNumber(context, sides, doing, at)) return;
  const { left, right } = sides;
  const [one, two] = [left.type, right.type];
  if (one.is === "kind" && two.is === "kind")
    fault(context, "kind/mismatch", right.at, {
      has: two.kind,
      wants: one.kind,
      because: "both sides of a comparison are of one kind",
    });
  else if (one.is === "share" && two.is === "share")
    fault(context, "share/basis", at, { doing, left: one.by, right: two.by, amount: false });
  else
    fault(context, "unit/mismatch", at, {
      doing,
      left: typeName(one),
      right: typeName(two),
      leftAt: left.at,
      rightAt: right.at,
    });
}

/** A number without a unit beside an amount: whether that was it. */
function bareSide(
  context: CheckContext,
  { left, right, leftExpr, rightExpr }: Sides,
  doing: string,
): boolean {
  const number = [leftExpr, rightExpr].find((expr) => expr.is === "number");
  if (number === undefined) return false;
  const other = number === leftExpr ? right : left;
  if (other.type.is === "kind" || !isOrdered(other.type)) return false;
  const unit =
    other.type.is === "share"
      ? `% ${other.type.by === "plain" ? "" : `by ${other.type.by}`}`.trim()
      : other.unit?.symbol;
  const text = context.source.slice(number.at.start, number.at.end);
  fault(
    context,
    "unit/bare",
    number.at,
    { number: text, type: typeName(other.type), unit, doing },
    unit === undefined
      ? []
      : [{ says: `Write ${text} ${unit}`, edits: [{ at: number.at, text: `${text} ${unit}` }] }],
  );
  return true;
}

/** A plain number, such as a quotient of two masses, beside a share: whether that was it. */
function shareBesideNumber(context: CheckContext, sides: Sides, doing: string, at: Span): boolean {
  const { left, right, leftExpr, rightExpr } = sides;
  const [number, share, literal] =
    left.type.is === "share" ? [right, left, leftExpr] : [left, right, rightExpr];
  if (share.type.is !== "share" || !isNumber(number.type)) return false;
  const plain = share.type.by === "plain" && share.does === "constant" && literal.is === "quantity";
  const text = plain ? String(Number(share.value.toPrecision(15))) : "";
  fault(
    context,
    "share/number",
    at,
    {
      doing,
      number: context.source.slice(number.at.start, number.at.end),
      named: number.does === "value" && number.column === undefined,
      by: share.type.by,
    },
    plain ? [{ says: `Write ${text}`, edits: [{ at: literal.at, text }] }] : [],
  );
  return true;
}

/** A temperature beside a difference of temperatures: whether that was it. */
function temperatureSide(
  context: CheckContext,
  { left, right, leftExpr, rightExpr }: Sides,
  doing: string,
  at: Span,
): boolean {
  const sides = [left, right] as const;
  const point = sides.find((side) => side.type.is === "temperature");
  const apart = sides.find(
    (side) => side.type.is === "quantity" && side.type.dimension.join() === "0,0,0,1,0,0",
  );
  if (point === undefined || apart === undefined) return false;
  const pointExpr = point === left ? leftExpr : rightExpr;
  const end = { start: pointExpr.at.end, end: pointExpr.at.end };
  fault(
    context,
    "temperature/point",
    at,
    {
      doing,
      point: context.source.slice(point.at.start, point.at.end),
      apart: context.source.slice(apart.at.start, apart.at.end),
      literal: pointExpr.is === "quantity",
    },
    pointExpr.is === "quantity"
      ? [{ says: "Write apart after it", edits: [{ at: end, text: " apart" }] }]
      : [],
  );
  return true;
}
