// `size before`: a list's column in the row above. What it may name, what type it has though its own column
// is still being checked, and whether the first row, which has none above it, surely comes to it.
import type { Type } from "../../../core/type.ts";
import type { Unit } from "../../../core/unit.ts";
import { atMost, below, nearly } from "../../../core/number.ts";
import { eachExpr } from "../syntax/names.ts";
import type { Expr } from "../syntax/tree.ts";
import { spoilt } from "./amount.ts";
import type { Rule } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";

/** The name under which a column of the row above is known while a list is checked and compiled. */
export const beforeName = (column: string): string => `${column} before`;

export function rowAbove(context: CheckContext, expr: Extract<Expr, { is: "before" }>): Rule {
  const { at, name } = expr;
  const known: { readonly type: Type; readonly unit: Unit | undefined } | undefined = context.locals.get(
    beforeName(name.text),
  );
  if (known === undefined) {
    const inList = [...context.locals.keys()].some((one) => one.includes(" "));
    fault(context, "list/before", at, { name: name.text, inList });
    return spoilt(at);
  }
  if (known.type.is === "anything") return spoilt(at);
  return {
    does: "local",
    at,
    type: known.type,
    name: beforeName(name.text),
    ...(known.unit ? { unit: known.unit } : {}),
  };
}

/** Columns that some rule looks at in the row above. */
export function columnsBefore(rules: readonly Expr[]): ReadonlySet<string> {
  const found = new Set<string>();
  const look = (rule: Expr): void =>
    eachExpr(rule, (expr) => {
      if (expr.is === "before") found.add(expr.name.text);
      if (expr.is === "text")
        for (const piece of expr.text.pieces) if (typeof piece !== "string") look(piece.rule);
    });
  rules.forEach(look);
  return found;
}

/**
 * Where the first row surely looks at a row above it; undefined where it does not, or where that is not seen.
 * `first` is its number, if that is written out.
 */
export function firstLook(rule: Rule, counter: string, first: number | undefined): Rule | undefined {
  const look = (one: Rule | undefined): Rule | undefined => one && firstLook(one, counter, first);
  switch (rule.does) {
    case "local":
      return rule.name.endsWith(" before") ? rule : undefined;
    case "arithmetic":
    case "compare":
      return look(rule.left) ?? look(rule.right);
    case "negate":
    case "function":
    case "not":
    case "words":
      return look(rule.of);
    case "round":
      return look(rule.of) ?? look(rule.step);
    case "band":
      return look(rule.of);
    case "most":
      return rule.of.reduce<Rule | undefined>((found, one) => found ?? look(one), undefined);
    case "choose": {
      for (const { when, value } of rule.cases) {
        const taken = truthFor(when, counter, first);
        if (taken === undefined) return look(when);
        if (taken) return look(value);
      }
      return look(rule.otherwise);
    }
    // What these do not need, they do not look at: whether they do is seen in the job.
    case "and":
    case "or":
    case "known":
    case "call":
    case "read-chart":
    case "constant":
    case "none":
    case "text":
    case "value":
    case "gather":
    case "left-count":
    case "left-first":
    case "left-among":
    case "stopped":
    case "of-steps":
      return undefined;
  }
}

/** Whether a condition on the row's number holds for the first row, where it is nothing else. */
function truthFor(when: Rule, counter: string, first: number | undefined): boolean | undefined {
  if (first === undefined) return undefined;
  const number = (rule: Rule): number | undefined =>
    rule.does === "constant"
      ? rule.value
      : rule.does === "local" && rule.name === counter
        ? first
        : undefined;
  switch (when.does) {
    case "compare": {
      const [a, b] = [number(when.left), number(when.right)];
      if (a === undefined || b === undefined) return undefined;
      return when.op === "is"
        ? nearly(a, b)
        : when.op === "is not"
          ? !nearly(a, b)
          : when.op === "<"
            ? below(a, b)
            : atMost(a, b);
    }
    case "not": {
      const of = truthFor(when.of, counter, first);
      return of === undefined ? undefined : !of;
    }
    case "constant":
    case "none":
    case "text":
    case "value":
    case "local":
    case "arithmetic":
    case "negate":
    case "function":
    case "most":
    case "round":
    case "and":
    case "or":
    case "band":
    case "words":
    case "known":
    case "choose":
    case "gather":
    case "left-count":
    case "left-first":
    case "left-among":
    case "call":
    case "read-chart":
    case "stopped":
    case "of-steps":
      return undefined;
  }
}
