// Calls: the mathematical functions by their standard names, the book's own formulas, and charts read with
// other values.
import { WARMTH, toThe, LENGTH } from "../../../core/dimension.ts";
import {
  type Column,
  NUMBER,
  TAPER,
  type Type,
  fits,
  isNumber,
  isOrdered,
  quantity,
  typeName,
} from "../../../core/type.ts";
import type { Expr } from "../syntax/tree.ts";
import { spoilt } from "./amount.ts";
import { checkAs, unitOf, unknownName, unlike, wrong } from "./mismatches.ts";
import { nearest } from "./did-you-mean.ts";
import type { CheckedChart, FunctionName, Rule } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";

type Call = Extract<Expr, { is: "call" }>;

/** Name, parameters and promise of every function, for the reference and for completion. */
export const FUNCTIONS: readonly { readonly name: string; readonly takes: string; readonly gives: string }[] =
  [
    { name: "largest", takes: "two or more of one type", gives: "the largest" },
    { name: "smallest", takes: "two or more of one type", gives: "the smallest" },
    {
      name: "sqrt",
      takes: "a number or an amount, not negative",
      gives: "the square root; of an area, a length",
    },
    { name: "abs", takes: "a number or an amount", gives: "its size without a sign" },
    { name: "exp", takes: "a plain number", gives: "e to that power" },
    { name: "ln", takes: "a plain number above zero", gives: "the natural logarithm" },
    { name: "log10", takes: "a plain number above zero", gives: "the logarithm to base ten" },
    { name: "sin", takes: "an angle", gives: "its sine" },
    { name: "cos", takes: "an angle", gives: "its cosine" },
    { name: "tan", takes: "an angle", gives: "its tangent" },
    { name: "atan", takes: "a plain number", gives: "the angle in radians" },
    { name: "absolute", takes: "a temperature", gives: "kelvin above absolute zero, as temperature apart" },
    {
      name: "ratio",
      takes: "a taper, a mix or a share",
      gives: "the plain number: run per thickness, second part per first, share as a fraction",
    },
    { name: "taper", takes: "a run and a thickness", gives: "a taper" },
  ];

export const isFunction = (name: string): boolean => FUNCTIONS.some((one) => one.name === name);

export function callRule(context: CheckContext, expr: Call): Rule {
  const { name, args } = expr;
  const known = context.scope.signature(name.text);
  if (expr.field !== undefined && known?.what !== "chart") {
    fault(context, "name/no-column", expr.field.at, {
      name: name.text,
      type:
        known?.formula !== undefined
          ? "a formula"
          : known !== undefined
            ? typeName(known.type)
            : isFunction(name.text)
              ? "a function"
              : "unclear",
    });
    return spoilt(expr.at);
  }
  if (known?.formula !== undefined) return formulaCall(context, expr, known.formula);
  // What is in a loop, or has another finding, is not blamed again for what it might have been.
  if (known?.type.is === "anything") return spoilt(expr.at);
  if (known?.what === "chart")
    return known.chart === undefined ? spoilt(expr.at) : chartCall(context, expr, known.type, known.chart);
  if (known !== undefined) {
    fault(context, "call/not-formula", name.at, { name: name.text, what: known.what });
    return spoilt(expr.at);
  }
  if (context.scope.spoiled(name.text)) return spoilt(expr.at);
  if (!isFunction(name.text)) {
    args.forEach((arg) => context.check(context, arg));
    unknownName(context, name);
    return spoilt(expr.at);
  }
  const wants =
    name.text === "largest" || name.text === "smallest" ? undefined : name.text === "taper" ? 2 : 1;
  if (wants === undefined ? args.length < 2 : args.length !== wants) {
    fault(context, "call/count", expr.at, {
      name: name.text,
      has: args.length,
      wants: wants ?? "two or more",
    });
    return spoilt(expr.at);
  }
  if (name.text === "largest" || name.text === "smallest") return most(context, expr, name.text);
  if (name.text === "taper") return taperOf(context, expr);
  const of = context.check(context, args[0]!);
  if (of.type.is === "anything") return spoilt(expr.at);
  return ofOne(context, expr, name.text, of);
}

function ofOne(context: CheckContext, expr: Call, name: string, of: Rule): Rule {
  const call = (type: Type): Rule => ({
    does: "function",
    at: expr.at,
    type,
    name: name as FunctionName,
    of,
  });
  const plain = isNumber(of.type) || (of.type.is === "share" && of.type.by === "plain");
  if (name === "sqrt")
    return plain
      ? call(NUMBER)
      : of.type.is === "quantity"
        ? call(quantity(toThe(of.type.dimension, 0.5)))
        : wrong(context, of, "a number or an amount", "sqrt takes its root");
  if (name === "abs")
    return plain
      ? call(NUMBER)
      : of.type.is === "quantity"
        ? { ...call(of.type), ...unitOf(of) }
        : wrong(context, of, "a number or an amount", "abs takes its size");
  if (name === "absolute") {
    if (of.type.is !== "temperature")
      return wrong(context, of, "a temperature", "absolute counts it from absolute zero");
    // Kept in kelvin as it is; only its type changes from a point to a difference.
    const zero: Rule = { does: "constant", at: expr.at, type: of.type, value: 0 };
    return { does: "arithmetic", at: expr.at, op: "-", left: of, right: zero, type: quantity(WARMTH) };
  }
  if (name === "ratio") {
    if (of.type.is !== "taper" && of.type.is !== "mix" && of.type.is !== "share")
      return wrong(context, of, "a taper, a mix or a share", "ratio gives its plain number");
    const one: Rule = { does: "constant", at: expr.at, type: NUMBER, value: 1 };
    return { does: "arithmetic", at: expr.at, op: "*", left: of, right: one, type: NUMBER };
  }
  return plain ? call(NUMBER) : wrong(context, of, "a plain number", `${name} takes one`);
}

function most(context: CheckContext, expr: Call, pick: "largest" | "smallest"): Rule {
  const rules: Rule[] = [];
  let first: Rule | undefined;
  for (const arg of expr.args) {
    const rule = context.check(context, arg, first?.type);
    if (rule.type.is === "anything") return spoilt(expr.at);
    if (!isOrdered(rule.type) && rule.type.is !== "kind")
      return wrong(context, rule, "a value that has an order", `${pick} compares it`);
    if (first === undefined) first = rule;
    else if (!fits(rule.type, first.type)) {
      if (fits(first.type, rule.type)) first = rule;
      else {
        unlike(
          context,
          { left: first, right: rule, leftExpr: expr.args[0]!, rightExpr: arg },
          "compare",
          expr.at,
        );
        return spoilt(expr.at);
      }
    }
    rules.push(rule);
  }
  return { does: "most", at: expr.at, type: first!.type, pick, of: rules, ...(first ? unitOf(first) : {}) };
}

function taperOf(context: CheckContext, expr: Call): Rule {
  const wanted = { type: quantity(LENGTH), because: "taper takes a run and a thickness" };
  const run = checkAs(context, expr.args[0]!, wanted);
  const thickness = checkAs(context, expr.args[1]!, wanted);
  return { does: "arithmetic", at: expr.at, op: "/", left: run, right: thickness, type: TAPER };
}

function formulaCall(
  context: CheckContext,
  expr: Call,
  formula: NonNullable<ReturnType<CheckContext["scope"]["signature"]>>["formula"] & object,
): Rule {
  const { parameters, body } = formula;
  if (expr.args.length !== parameters.length) {
    fault(context, "call/count", expr.at, {
      name: expr.name.text,
      has: expr.args.length,
      wants: parameters.length,
      parameters: parameters.map((one) => one.name),
    });
    return spoilt(expr.at);
  }
  const args = expr.args.map((arg, i) => {
    const { name, type } = parameters[i]!;
    return checkAs(context, arg, { type, because: `${expr.name.text} wants it as ${name}` });
  });
  if (body.type.is === "anything") return spoilt(expr.at);
  return {
    does: "call",
    at: expr.at,
    type: body.type,
    formula: expr.name.text,
    parameters: parameters.map((one) => one.name),
    args,
    body,
    ...unitOf(body),
  };
}

/** A chart read with other values in place of its conditions, in the order of `by`. */
function chartCall(context: CheckContext, expr: Call, type: Type, chart: CheckedChart): Rule {
  const name = expr.name.text;
  if (chart.mode === "keep-every-row") {
    fault(context, "call/kept", expr.at, { name });
    return spoilt(expr.at);
  }
  if (expr.args.length !== chart.conditions.length) {
    fault(context, "call/count", expr.at, {
      name,
      has: expr.args.length,
      wants: chart.conditions.length,
      parameters: chart.conditions.map((one) => one.name),
    });
    return spoilt(expr.at);
  }
  // A row is looked for by any number: one that is not whole finds none where there are only whole ones.
  const wanted = (type: Type): Type => (type.is === "count" ? NUMBER : type);
  const args = expr.args.map((arg, i) =>
    checkAs(context, arg, {
      type: wanted(chart.conditions[i]!.type),
      because: `${name} is read by it as ${chart.conditions[i]!.name}`,
    }),
  );
  const column = columnOf(context, expr, type, chart.outs);
  if (column === undefined) return spoilt(expr.at);
  const out = chart.outs[column]!;
  if (out.type.is === "anything") return spoilt(expr.at);
  return {
    does: "read-chart",
    at: expr.at,
    type: out.type,
    chart: name,
    table: chart,
    column,
    args,
    ...(out.unit ? { unit: out.unit } : {}),
  };
}

/** Which of the chart's values is meant; undefined with a finding. */
function columnOf(
  context: CheckContext,
  expr: Call,
  type: Type,
  outs: readonly Column[],
): number | undefined {
  const name = expr.name.text;
  if (type.is !== "row") {
    if (expr.field === undefined) return 0;
    fault(context, "name/no-column", expr.field.at, { name, type: typeName(type) });
    return undefined;
  }
  const index = outs.findIndex((one) => one.name === expr.field?.text);
  if (index >= 0) return index;
  const columns = outs.map((one) => one.name);
  const near = expr.field && nearest(expr.field.text, columns);
  fault(
    context,
    "name/column",
    expr.field?.at ?? expr.at,
    {
      name: expr.field ? name : context.source.slice(expr.at.start, expr.at.end),
      written: expr.field?.text,
      columns,
    },
    near ? [{ says: `Write ${near}`, edits: [{ at: expr.field!.at, text: near }] }] : [],
  );
  return undefined;
}
