// Whether one condition can only hold where another does. Decided by the shape of both: equal parts, `and`
// and `or`, yes-no figures taken apart, and conditions on one value compared as parts of its range. Anything
// else counts as not implied.
import type { Domain, Side } from "../../../core/box.ts";
import { findHole } from "../../../core/find-hole.ts";
import { type Look, look } from "./cases.ts";
import type { Rule } from "./rule.ts";
import type { Signature } from "./scope.ts";

/** What a name in a condition means. */
export interface Names {
  readonly signature: (name: string) => Signature | undefined;
  /** The rule of a figure; undefined for everything else. */
  readonly ruleOf: (name: string) => Rule | undefined;
}

/**
 * Steps of the comparison, after which a condition counts as not implied: of each part of it by itself, which
 * is quick and enough for most, and of its parts together.
 */
const MOST_STEPS = { apart: 10_000, together: 400 };
const DEEPEST = 100;

export function implies(names: Names, when: Rule, other: Rule): boolean {
  const given = conjuncts(when);
  return (
    holds({ names, together: false, left: MOST_STEPS.apart, depth: 0 }, given, other) ||
    holds({ names, together: true, left: MOST_STEPS.together, depth: 0 }, given, other)
  );
}

interface Search {
  readonly names: Names;
  readonly together: boolean;
  left: number;
  /** How many conditions are taken apart one inside the other. */
  depth: number;
}

/** Whether `other` holds wherever all of `given` do. */
function holds(search: Search, given: readonly Rule[], other: Rule): boolean {
  if (--search.left < 0) return false;
  if (other.does === "and") return holds(search, given, other.left) && holds(search, given, other.right);
  if (other.does === "constant" && other.value === 1) return true;
  if (given.some((one) => same(one, other) || weaker(one, other))) return true;
  if (covered(search.names, given, other)) return true;
  if (given.some((one) => holdsApart(search, one, [], other))) return true;
  if (other.does === "or" && (holds(search, given, other.left) || holds(search, given, other.right)))
    return true;
  const meaning = meaningOf(search.names, other);
  if (meaning !== undefined && deeper(search, given, meaning)) return true;
  return (
    search.together &&
    given.length > 1 &&
    given.some((one, i) => holdsApart(search, one, [...given.slice(0, i), ...given.slice(i + 1)], other))
  );
}

/** The same with `one` taken apart: an `or` into its sides, a yes-no figure into its rule. */
function holdsApart(search: Search, one: Rule, rest: readonly Rule[], other: Rule): boolean {
  const its = one.does === "or" ? undefined : meaningOf(search.names, one);
  const sides = one.does === "or" ? [one.left, one.right] : its === undefined ? [] : [its];
  return sides.length > 0 && sides.every((part) => deeper(search, [...conjuncts(part), ...rest], other));
}

function deeper(search: Search, given: readonly Rule[], other: Rule): boolean {
  if (search.depth >= DEEPEST) return false;
  search.depth++;
  const found = holds(search, given, other);
  search.depth--;
  return found;
}

/** Parts that all hold where the rule does. */
export const conjuncts = (rule: Rule): readonly Rule[] =>
  rule.does === "and" ? [...conjuncts(rule.left), ...conjuncts(rule.right)] : [rule];

const disjuncts = (rule: Rule): readonly Rule[] =>
  rule.does === "or" ? [...disjuncts(rule.left), ...disjuncts(rule.right)] : [rule];

const meaningOf = (names: Names, rule: Rule): Rule | undefined =>
  rule.does === "value" && rule.column === undefined && rule.type.is === "yes-no"
    ? names.ruleOf(rule.name)
    : undefined;

/** Equal but for their places and for the units that amounts are written in. */
const same = (a: Rule, b: Rule): boolean => a.does === b.does && keyOf(a) === keyOf(b);

const keys = new WeakMap<Rule, string>();

function keyOf(rule: Rule): string {
  const known = keys.get(rule);
  if (known !== undefined) return known;
  const key = JSON.stringify(rule, (name, part: unknown) =>
    name === "at" || name === "unit" || name === "table" || name === "body" ? undefined : part,
  );
  keys.set(rule, key);
  return key;
}

/** `a <= b` holds where `a < b` or `a is b` does. */
const weaker = (given: Rule, other: Rule): boolean =>
  other.does === "compare" &&
  given.does === "compare" &&
  other.op === "<=" &&
  (given.op === "<" || given.op === "is") &&
  same({ ...given, op: "<=" }, other);

/** Whether what is given of one value leaves only what the other condition allows of it. */
function covered(names: Names, given: readonly Rule[], other: Rule): boolean {
  const parts = disjuncts(other).map(look);
  const [first] = parts;
  if (first === undefined || parts.some((part) => part?.name !== first.name)) return false;
  const outside = given.flatMap((one): Side[] => {
    const part = look({ does: "not", at: one.at, type: one.type, of: one });
    return part?.name === first.name ? [part.side] : [];
  });
  if (outside.length === 0) return false;
  const rows = [...parts.map((part) => part!.side), ...outside].map((side) => [side]);
  return findHole([domainOf(names, first)], rows).is === "none";
}

function domainOf(names: Names, { name, type }: Look): Domain {
  if (type.is === "kind") return { is: "words", count: type.words.length };
  if (type.is === "yes-no") return { is: "words", count: 2 };
  const range = names.signature(name)?.range;
  return { is: "line", low: range?.low ?? -Infinity, high: range?.high ?? Infinity };
}
