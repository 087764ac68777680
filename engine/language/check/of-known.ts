// `first known of a, b` and its like as the alternatives that they stand for, so that every reading of a book
// (values, proofs, reasons) knows them without a form of their own.
import { COUNT } from "../../../core/type.ts";
import type { Expr } from "../syntax/tree.ts";
import type { Rule } from "./rule.ts";
import type { CheckContext } from "./scope.ts";

type OfKnown = Extract<Expr, { is: "of-known" }>;

export function ofKnown(context: CheckContext, expr: OfKnown): Rule {
  const rule = context.check(context, alternatives(expr));
  return expr.what === "count" && rule.type.is === "quantity" ? { ...rule, type: COUNT } : rule;
}

const isKnown = (of: Expr): Expr => ({ is: "known", at: of.at, of, not: false });

function alternatives({ at, what, items }: OfKnown): Expr {
  const first: Expr =
    items.length === 1
      ? items[0]!
      : {
          is: "choose",
          at,
          cases: items.slice(0, -1).map((item) => ({ value: item, when: isKnown(item) })),
          otherwise: items.at(-1)!,
        };
  const each = (known: (item: Expr) => Expr, otherwise: Expr): readonly Expr[] =>
    items.map((item) => ({
      is: "choose",
      at: item.at,
      cases: [{ value: known(item), when: isKnown(item) }],
      otherwise,
    }));
  switch (what) {
    case "first":
      return first;
    // One that is not known counts as the first that is, which changes nothing.
    case "smallest":
    case "largest":
      return { is: "call", at, name: { at, text: what }, args: each((item) => item, first) };
    case "count": {
      const number = (value: number): Expr => ({ is: "number", at, value });
      return each(() => number(1), number(0)).reduce((left, right) => ({
        is: "binary",
        at,
        op: "+",
        opAt: at,
        left,
        right,
      }));
    }
  }
}
