// The law of printing: what is read from a printed tree is that tree, but for its places.
import { expect, test } from "vitest";
import { parseStatement } from "../../../engine/language/syntax/parse.ts";
import { printRule } from "../../../engine/language/syntax/print.ts";
import type { Expr } from "../../../engine/language/syntax/tree.ts";
import { chance } from "../../support/chance.ts";
import { randomTree } from "../../support/random-tree.ts";
import { smallestBreak } from "../../support/smallest.ts";
import { withoutPlaces } from "../../support/without-places.ts";

test("reading the print of a tree gives the tree", () => {
  const by = chance(2026);
  const wrong = new Map<string, string>();
  for (let i = 0; i < 8_000; i++) {
    const tree = randomTree(by, 1 + (i % 4));
    const printed = printRule(tree);
    const read = rule(printed);
    if (JSON.stringify(read) !== JSON.stringify(sorted(withoutPlaces(tree))))
      wrong.set(printed, JSON.stringify(read));
  }
  expect(smallestBreak(wrong.keys(), (printed) => wrong.get(printed))).toBeUndefined();
}, 120_000);

test.each([
  ["a + b * c", "a + b * c"],
  ["(a + b) * c", "(a + b) * c"],
  ["(a * b) + c", "a * b + c"],
  ["a - (b - c)", "a - (b - c)"],
  ["(a - b) - c", "a - b - c"],
  ["2 ^ 3 ^ 2", "2 ^ 3 ^ 2"],
  ["(2 ^ 3) ^ 2", "(2 ^ 3) ^ 2"],
  ["-2 ^ 2", "-2 ^ 2"],
  ["(-2) ^ 2", "(-2) ^ 2"],
  ["2 ^ -3", "2 ^ -3"],
  ["- -x", "- -x"],
  ["(a and b) or c", "a and b or c"],
  ["a and (b or c)", "a and (b or c)"],
  ["not (a and b)", "not (a and b)"],
  ["(a run out at t) rounded up to 5 mm", "a run out at t rounded up to 5 mm"],
  ["a run out at (t rounded up to 5 mm)", "a run out at (t rounded up to 5 mm)"],
  ["1 if (d is one of a, b), 2 if c, otherwise 3", "1 if (d is one of a, b), 2 if c, otherwise 3"],
])(
  "%s keeps the brackets it needs: %s",
  (source, printed) => {
    const tree = rule(source);
    expect(printRule(tree as Expr)).toBe(printed);
  },
  120_000,
);

function rule(source: string): unknown {
  const { body, faults } = parseStatement(`figure x = ${source}`);
  if (body.keyword !== "figure" || faults.length > 0) return `unreadable: ${JSON.stringify(faults)}`;
  return sorted(withoutPlaces(body.rule));
}

/** Plain data with its keys in order, so that two of them can be compared as texts. */
function sorted(data: unknown): unknown {
  if (Array.isArray(data)) return data.map(sorted);
  if (typeof data !== "object" || data === null) return Object.is(data, -0) ? "-0" : data;
  return Object.fromEntries(
    Object.entries(data)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, value]) => [key, sorted(value)]),
  );
}
