// Writes an expression tree as text again, with only the brackets that its meaning needs. What is read from
// the text is the same tree but for its places, so that a screen may change a tree and write it back.
import type { Band, BinaryOp, Expr, QuantityPart, Text, UnitText } from "./tree.ts";

/**
 * How tightly a form binds, loosest first; a part that binds less than its place wants is put in brackets.
 */
const LEVEL = {
  rule: 0,
  or: 1,
  and: 2,
  not: 3,
  comparison: 4,
  rounded: 5,
  runOut: 6,
  sum: 7,
  product: 8,
  signed: 9,
  power: 10,
  primary: 11,
} as const;
type Level = (typeof LEVEL)[keyof typeof LEVEL];

/**
 * The text of a rule. Nothing about line breaks, comments or spacing of the text it was read from is kept.
 */
export const printRule = (expr: Expr): string => print(expr, LEVEL.rule);

function print(expr: Expr, least: Level): string {
  const text = bare(expr);
  return levelOf(expr) < least ? `(${text})` : text;
}

/** What a value is rounded to; a figure with the name `whole` goes in brackets. */
function step(to: Extract<Expr, { is: "round" }>["to"]): string {
  if (to === "whole") return "whole";
  return to.is === "name" && to.name === "whole" ? "(whole)" : print(to, LEVEL.primary);
}

function bare(expr: Expr): string {
  switch (expr.is) {
    case "number":
      return number(expr.value);
    case "quantity": {
      const parts = expr.parts.map((part) => `${number(Math.abs(part.value))} ${unit(part.unit)}`);
      return `${expr.parts.some(isNegative) ? "-" : ""}${parts.join(" ")}`;
    }
    case "taper":
      return `${number(expr.thickness)}:${number(expr.run)}`;
    case "mix":
      return `${number(expr.first)}:${number(expr.second)} by ${expr.by}`;
    case "truth":
      return expr.value ? "yes" : "no";
    case "text":
      return printText(expr.text);
    case "name":
      return dotted(expr.name, expr.field?.text);
    case "call":
      return dotted(`${expr.name.text}(${expr.args.map(beforeComma).join(", ")})`, expr.field?.text);
    case "counted":
      return (
        `${expr.of.is === "counted" ? `(${bare(expr.of)})` : print(expr.of, LEVEL.primary)} ` +
        `counted in ${unit(expr.unit)}`
      );
    case "before":
      return `${expr.name.text} before`;
    case "minus":
      return signed("-", print(expr.of, expr.of.is === "minus" ? LEVEL.signed : LEVEL.power));
    case "not":
      return `not ${print(expr.of, LEVEL.not)}`;
    case "binary":
      return binary(expr.op, expr.left, expr.right);
    case "round":
      return `${print(expr.of, LEVEL.rounded)} rounded ${WAYS[expr.way]} ${step(expr.to)}`;
    case "in-band":
      return `${print(expr.of, LEVEL.rounded)} ${expr.not ? "is not" : "is"} ${band(expr.band)}`;
    case "one-of":
      return (
        `${print(expr.of, LEVEL.rounded)} ${expr.not ? "is not" : "is"} one of ` +
        expr.items.map((item) => print(item, LEVEL.rule)).join(", ")
      );
    case "of-known":
      return `${expr.what} known of ${expr.items.map((item) => print(item, LEVEL.rule)).join(", ")}`;
    case "known":
      return `${print(expr.of, LEVEL.rounded)} ${expr.not ? "is not" : "is"} known`;
    case "among":
      return `${print(expr.of, LEVEL.rounded)} ${expr.not ? "is not" : "is"} among ${expr.chart.text}`;
    case "choose":
      return [
        ...expr.cases.map((one) => `${beforeComma(one.value)} if ${beforeComma(one.when)}`),
        ...(expr.otherwise ? [`otherwise ${print(expr.otherwise, LEVEL.or)}`] : []),
      ].join(", ");
    case "gather":
      return `${expr.what} of ${dotted(expr.from.text, expr.field?.text)}`;
  }
}

const WAYS = { up: "up to", down: "down to", near: "to" } as const;

/** The level of a form, the least level of its left part, and the least of its right. */
const BINARY: Record<BinaryOp, readonly [own: Level, left: Level, right: Level]> = {
  or: [LEVEL.or, LEVEL.or, LEVEL.and],
  and: [LEVEL.and, LEVEL.and, LEVEL.not],
  "<": [LEVEL.comparison, LEVEL.rounded, LEVEL.rounded],
  "<=": [LEVEL.comparison, LEVEL.rounded, LEVEL.rounded],
  ">": [LEVEL.comparison, LEVEL.rounded, LEVEL.rounded],
  ">=": [LEVEL.comparison, LEVEL.rounded, LEVEL.rounded],
  is: [LEVEL.comparison, LEVEL.rounded, LEVEL.rounded],
  "is not": [LEVEL.comparison, LEVEL.rounded, LEVEL.rounded],
  "run out at": [LEVEL.runOut, LEVEL.runOut, LEVEL.sum],
  "paired at": [LEVEL.runOut, LEVEL.runOut, LEVEL.sum],
  "+": [LEVEL.sum, LEVEL.sum, LEVEL.product],
  "-": [LEVEL.sum, LEVEL.sum, LEVEL.product],
  "*": [LEVEL.product, LEVEL.product, LEVEL.signed],
  "/": [LEVEL.product, LEVEL.product, LEVEL.signed],
  of: [LEVEL.product, LEVEL.product, LEVEL.signed],
  "^": [LEVEL.power, LEVEL.primary, LEVEL.power],
};

function levelOf(expr: Expr): Level {
  switch (expr.is) {
    // A comma behind the values would go on with them: anywhere but alone they stand in brackets.
    case "of-known":
    case "choose":
      return LEVEL.rule;
    case "binary":
      return BINARY[expr.op][0];
    case "not":
      return LEVEL.not;
    case "in-band":
    case "one-of":
    case "known":
    case "among":
      return LEVEL.comparison;
    case "round":
      return LEVEL.rounded;
    case "minus":
      return LEVEL.signed;
    // A negative literal begins with a minus, and binds as one.
    case "number":
      return isNegative(expr) ? LEVEL.signed : LEVEL.primary;
    case "quantity":
      return expr.parts.some(isNegative) ? LEVEL.signed : LEVEL.primary;
    case "taper":
    case "mix":
    case "truth":
    case "text":
    case "name":
    case "call":
    case "counted":
    case "before":
    case "gather":
      return LEVEL.primary;
  }
}

function binary(op: BinaryOp, left: Expr, right: Expr): string {
  const [, leftLeast, rightLeast] = BINARY[op];
  // On the right of ^ a sign needs no brackets: 2 ^ -3.
  const signedRight =
    op === "^" &&
    levelOf(right) === LEVEL.signed &&
    !(right.is === "minus" && levelOf(right.of) < LEVEL.primary);
  const written = print(right, signedRight ? LEVEL.signed : rightLeast);
  return `${print(left, leftLeast)} ${op} ${op === "is" || op === "is not" ? asName(written) : written}`;
}

/**
 * Right behind `is`, a value that is called `known` or `among` would be read as the word: brackets make it a
 * name again.
 */
const asName = (text: string): string => (/^(known|among)(?![\p{L}\p{N}-])/u.test(text) ? `(${text})` : text);

/** A part with a comma behind it: a list of `is one of` would take the comma, so it gets brackets. */
const beforeComma = (expr: Expr): string => print(expr, endsInList(expr) ? LEVEL.primary : LEVEL.or);

/** Whether the text ends in the items of `is one of`, so that a comma behind it would go on with them. */
function endsInList(expr: Expr): boolean {
  if (expr.is === "one-of") return true;
  if (expr.is === "not") return endsInList(expr.of);
  return expr.is === "binary" && (expr.op === "and" || expr.op === "or") && endsInList(expr.right);
}

const isNegative = ({ value }: { readonly value: number } | QuantityPart): boolean =>
  value < 0 || Object.is(value, -0);

function number(value: number): string {
  return Object.is(value, -0) ? "-0" : String(value);
}

/** Two minuses that touch would begin a comment. */
const signed = (sign: "-", text: string): string => (text.startsWith("-") ? `${sign} ${text}` : sign + text);

const unit = ({ text, apart, by }: UnitText): string =>
  `${text}${apart ? " apart" : ""}${by ? ` by ${by}` : ""}`;

const dotted = (name: string, field: string | undefined): string =>
  field === undefined ? name : `${name}.${field}`;

function band({ low, lowIn, high, highIn }: Band): string {
  const end = (expr: Expr) => print(expr, LEVEL.rounded);
  if (low === undefined && high === undefined) return "any";
  if (low === undefined) return `${highIn ? "up to" : "under"} ${end(high!)}`;
  const from = lowIn ? asName(end(low)) : `over ${end(low)}`;
  if (high === undefined) return lowIn ? `${from} and over` : from;
  return `${from} to ${highIn ? "" : "under "}${end(high)}`;
}

/** A text with its quotes; braces and quote marks in it are doubled again. */
function printText({ pieces }: Text): string {
  return `"${pieces
    .map((piece) =>
      typeof piece === "string"
        ? piece.replace(/[{}]/g, (brace) => brace + brace).replaceAll('"', "''")
        : `{${printRule(piece.rule)}${piece.unit ? ` in ${unit(piece.unit)}` : ""}}`,
    )
    .join("")}"`;
}
