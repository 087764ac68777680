// Steps, cautions and stops that a layer replaces under a condition: the line underneath stays in force elsewhere, so
// both stand in the combined book, and the one underneath applies only where none above it does.
import type { Expr, Statement, Word } from "../syntax/tree.ts";
import { once, withParts } from "./rewrite.ts";

const and = (left: Expr | undefined, right: Expr): Expr => (left === undefined ? right : { is: "binary", at: left.at, op: "and", opAt: left.at, left, right });
const or = (left: Expr, right: Expr): Expr => ({ is: "binary", at: left.at, op: "or", opAt: left.at, left, right });

const placeFor = (raw: Statement): Expr["at"] => raw.clauses.when?.at ?? raw.name?.at ?? { start: 0, end: 4 };

/** The line under the name `to`, applying where none of the lines `over` it (by their keys) does. */
export const lineUnder = (raw: Statement, to: string, over: readonly string[]): Statement => once(raw, `under ${to} ${over.join()}`, () => {
  const at = placeFor(raw);
  const when = over.reduce<Expr | undefined>((so, key) => and(so, { is: "not", at, of: { is: "name", at, name: key } }), raw.clauses.when);
  return withParts(raw, raw.body, { ...raw.clauses, ...(when ? { when } : {}) }, { ...raw.name!, text: to });
});

/** The condition of a line as a value of its own, for a line above that says `as-before`. */
export const conditionOf = (raw: Statement, to: string): Statement => once(raw, `condition ${to}`, () => {
  const at = placeFor(raw);
  const withSteps = raw.clauses.withSteps?.map((step): Expr => ({ is: "name", at, name: `step ${step.text}` })).reduce(or);
  const rule = raw.clauses.when !== undefined && withSteps !== undefined ? and(raw.clauses.when, withSteps) : (raw.clauses.when ?? withSteps ?? { is: "truth", at, value: true });
  return withParts({ ...raw, faults: [], ruleAt: at }, { keyword: "figure", declared: { of: { at, text: "yes-no" } }, rule }, {}, { at: raw.name!.at, text: to });
});

/** A line whose conditions name the condition underneath: yes where any of the values `names` is. */
export const withCondition = (own: Statement, names: readonly string[]): Statement => once(own, `as-before ${names.join()}`, () => {
  const put = <V>(value: V): V => {
    if (typeof value !== "object" || value === null) return value;
    if (Array.isArray(value)) return value.map(put) as V;
    const expr = value as unknown as Expr;
    if (expr.is === "name" && expr.name === "as-before") return names.map((name): Expr => ({ is: "name", at: expr.at, name })).reduce(or) as V;
    return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, key === "at" ? part : put(part)])) as V;
  };
  return withParts(own, own.body, put(own.clauses), own.name);
});

/** A line that goes with steps, some of which stand under several names: it goes with each of them. */
export const withSteps = (own: Statement, steps: readonly Word[]): Statement =>
  once(own, `with ${steps.map((one) => one.text).join()}`, () => withParts(own, own.body, { ...own.clauses, withSteps: steps }, own.name, own.below === undefined ? {} : { below: own.below }));
