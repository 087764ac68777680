// The small helpers that the built pages give the parser's package, against a whole library of the same
// calls: es-toolkit/compat 1.53, which is itself tested against Lodash's own tests.
import fc from "fast-check";
import * as whole from "es-toolkit/compat";
import { readFileSync, readdirSync } from "node:fs";
import { expect, test } from "vitest";
import * as small from "../../../editor/build/small-lodash.ts";

type Calls = Record<string, (...given: unknown[]) => unknown>;
const [ours, theirs] = [small as unknown as Calls, whole as unknown as Calls];

const value = fc.oneof(
  fc.integer({ min: -3, max: 3 }),
  fc.constantFrom("", "a", "bc", null, undefined, true, false),
  fc.record({ name: fc.constantFrom("a", "b", "c") }),
);
const list = fc.array(value, { maxLength: 6 });
const dictionary = fc.dictionary(fc.constantFrom("a", "b", "name", "x1"), value, { noNullPrototype: true });
const many = fc.oneof(list, dictionary, fc.constantFrom(null, undefined));
const isNumber = (one: unknown) => typeof one === "number";
const told = (one: unknown) => String((one as { name?: unknown } | null)?.name ?? one);

/** How the package calls each: what is given, and the function by which. */
const ways: Readonly<Record<string, readonly (readonly [fc.Arbitrary<unknown>, ...unknown[]])[]>> = {
  map: [
    [many, told],
    [list, "name"],
  ],
  flatMap: [[many, (one: unknown) => [one, 1]]],
  filter: [[many, isNumber]],
  reject: [[many, isNumber]],
  find: [[many, isNumber]],
  every: [[many, isNumber]],
  some: [[many, isNumber]],
  groupBy: [
    [many, told],
    [list, "name"],
  ],
  pickBy: [[dictionary, isNumber]],
  reduce: [[many, (sum: string, one: unknown, key: unknown) => `${sum} ${told(one)} ${String(key)}`, "from"]],
  keys: [[many]],
  values: [[many]],
  isEmpty: [[many], [value]],
  has: [
    [many, "name"],
    [many, "a"],
  ],
  includes: [
    [many, 1],
    [list, "a"],
    [fc.string(), "a"],
  ],
  indexOf: [
    [list, 1],
    [list, "a"],
  ],
  compact: [[list]],
  difference: [[list, [1, "a"]]],
  flatten: [[fc.array(fc.oneof(value, list))]],
  uniq: [[list]],
  first: [[list]],
  last: [[list]],
  drop: [[list], [list, 2]],
  dropRight: [[list], [list, 2]],
  clone: [[many], [value]],
  defaults: [[dictionary, { a: 1, b: 2 }]],
  assign: [[dictionary, { a: 1 }]],
  isArray: [[many]],
  isFunction: [[value]],
  isObject: [[value], [many]],
  isRegExp: [[value]],
  isString: [[value]],
  isUndefined: [[value]],
  identity: [[value]],
  upperFirst: [[fc.string()]],
};

test.each(Object.entries(ways))("%s does what the whole library's does", (name, cases) => {
  for (const [given, ...more] of cases) {
    fc.assert(
      fc.property(given, (all) => {
        expect(ours[name]!(structuredClone(all), ...more)).toEqual(
          theirs[name]!(structuredClone(all), ...more),
        );
      }),
    );
  }
});

test("forEach meets the same, and ends at false", () => {
  fc.assert(
    fc.property(many, (all) => {
      const met = (calls: Calls) => {
        const seen: unknown[] = [];
        calls["forEach"]!(all, (one: unknown, key: unknown) => {
          seen.push([key, one]);
          return seen.length < 4;
        });
        return seen;
      };
      expect(met(ours)).toEqual(met(theirs));
    }),
  );
});

test("clone keeps what made the thing, and copies it", () => {
  class Token {
    constructor(readonly name: string) {}
  }
  const token = new Token("one");
  const copy = small.clone(token);
  expect(copy).toBeInstanceOf(Token);
  expect(copy).toEqual(token);
  expect(copy).not.toBe(token);
});

test("every helper that the package asks for is there, and every one that is there is asked for", () => {
  const folder = new URL("../../../node_modules/", import.meta.url);
  const asked = new Set<string>();
  for (const at of ["chevrotain/lib/src/", "@chevrotain/gast/lib/src/", "@chevrotain/cst-dts-gen/lib/src/"]) {
    for (const file of readdirSync(new URL(at, folder), { recursive: true, encoding: "utf8" }).filter((one) =>
      one.endsWith(".js"),
    )) {
      for (const [, names] of readFileSync(new URL(at + file, folder), "utf8").matchAll(
        /import \{([^}]*)\} from "lodash-es"/g,
      )) {
        for (const name of names!.split(",").map((one) => one.trim().split(" as ")[0]!))
          if (name !== "") asked.add(name);
      }
    }
  }
  expect(Object.keys(small).sort()).toEqual([...asked].sort());
  expect(Object.keys(ways).concat("forEach", "noop").sort()).toEqual([...asked].sort());
});
