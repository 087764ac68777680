// Steps, cautions and stops that a layer replaces under a condition: the line underneath stays in force
// elsewhere, so the combined book has both, and the one underneath applies only where none above it
// does.
import type { Expr, Statement, Word } from "../syntax/tree.ts";
import { once, withParts } from "./rewrite.ts";

const and = (left: Expr | undefined, right: Expr): Expr =>
  left === undefined ? right : { is: "binary", at: left.at, op: "and", opAt: left.at, left, right };
const or = (left: Expr, right: Expr): Expr => ({
  is: "binary",
  at: left.at,
  op: "or",
  opAt: left.at,
  left,
  right,
});

const placeFor = (raw: Statement): Expr["at"] => raw.clauses.when?.at ?? raw.name?.at ?? { start: 0, end: 4 };

/** The line under the name `to`, applying where none of the lines `over` it (by their keys) does. */
export const lineUnder = (raw: Statement, to: string, over: readonly string[]): Statement =>
  once(raw, `under ${to} ${over.join()}`, () => {
    const at = placeFor(raw);
    const when = over.reduce<Expr | undefined>(
      (so, key) => and(so, { is: "not", at, of: { is: "name", at, name: key } }),
      raw.clauses.when,
    );
    return withParts(
      raw,
      raw.body,
      { ...raw.clauses, ...(when ? { when } : {}) },
      { ...raw.name!, text: to },
    );
  });

/** The condition of a line as a value of its own, for a line above that says `as-before`. */
export const conditionOf = (raw: Statement, to: string): Statement =>
  once(raw, `condition ${to}`, () => {
    const at = placeFor(raw);
    const withSteps = raw.clauses.withSteps
      ?.map((step): Expr => ({ is: "name", at, name: `step ${step.text}` }))
      .reduce(or);
    const rule =
      raw.clauses.when !== undefined && withSteps !== undefined
        ? and(raw.clauses.when, withSteps)
        : (raw.clauses.when ?? withSteps ?? { is: "truth", at, value: true });
    return withParts(
      { ...raw, faults: [], ruleAt: at },
      { keyword: "figure", declared: { of: { at, text: "yes-no" } }, rule },
      {},
      { at: raw.name!.at, text: to },
    );
  });

/** Every expression of a value that `by` answers for, put in its place. */
function put<V>(value: V, by: (expr: Expr) => Expr | undefined): V {
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map((one) => put(one, by)) as V;
  const swapped = by(value as unknown as Expr);
  if (swapped !== undefined) return swapped as V;
  return Object.fromEntries(
    Object.entries(value).map(([key, part]) => [key, key === "at" ? part : put(part, by)]),
  ) as V;
}

/** A line whose conditions name the condition underneath: yes where any of the values `names` is. */
export const withCondition = (own: Statement, names: readonly string[]): Statement =>
  once(own, `as-before ${names.join()}`, () =>
    withParts(
      own,
      own.body,
      put(own.clauses, (expr) =>
        expr.is === "name" && expr.name === "as-before"
          ? names.map((name): Expr => ({ is: "name", at: expr.at, name })).reduce(or)
          : undefined,
      ),
      own.name,
    ),
  );

/** A condition on steps, some of which have several names: any of them will do. */
export const alsoUnder = (own: Statement, names: ReadonlyMap<string, readonly string[]>): Statement =>
  once(own, `also ${[...names].join()}`, () =>
    withParts(
      own,
      put(own.body, (expr) => {
        const more =
          expr.is === "name" && expr.name.startsWith("step ") ? names.get(expr.name.slice(5)) : undefined;
        return more === undefined
          ? undefined
          : [expr, ...more.map((name): Expr => ({ is: "name", at: expr.at, name: `step ${name}` }))].reduce(
              or,
            );
      }),
      own.clauses,
      own.name,
    ),
  );

/** A line that goes with steps, some of which have several names: it goes with each of them. */
export const withSteps = (own: Statement, steps: readonly Word[]): Statement =>
  once(own, `with ${steps.map((one) => one.text).join()}`, () =>
    withParts(
      own,
      own.body,
      { ...own.clauses, withSteps: steps },
      own.name,
      own.below === undefined ? {} : { below: own.below },
    ),
  );

/**
 * A line that says nothing of when: it applies where one of the conditions `names` is yes, as what it
 * replaces did.
 */
export const appliesAs = (own: Statement, names: readonly string[]): Statement =>
  once(own, `applies as ${names.join()}`, () => {
    const at = own.instead ?? own.name!.at;
    return withParts(
      own,
      own.body,
      { ...own.clauses, when: names.map((name): Expr => ({ is: "name", at, name })).reduce(or) },
      own.name,
    );
  });
