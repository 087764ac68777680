// The checks bite: with a rounding turned, a band end moved or one operation's span broken, the very laws
// that hold of the program fail.
import { expect, test } from "vitest";
import { stretch, type Domain, type Side } from "../../../../core/box.ts";
import { findHole } from "../../../../core/find-hole.ts";
import { readBook } from "../../../../engine/index.ts";
import { Opcode, type Op } from "../../../../engine/program/plan/op.ts";
import { runIntervals } from "../../../../engine/program/intervals/run.ts";
import { MAY_IMPOSSIBLE, MAY_UNKNOWN, NEVER } from "../../../../engine/program/intervals/interval-frame.ts";
import { chance } from "../../../support/chance.ts";
import { randomBook } from "../../../support/random-book.ts";
import { type LawOptions, boxLaw } from "../support/box-law.ts";
import { type Interval, OPERATIONS, type SpanOf, operationLaw } from "../support/operations.ts";

const named = (name: string) => OPERATIONS.find((one) => one.name === name)!;

/** For each operation a span that is wrong in one small way. */
const BROKEN: readonly (readonly [name: string, what: string, (real: SpanOf) => SpanOf])[] = [
  [
    "+",
    "ends not moved outward",
    () =>
      ([a, b]) => ({ low: a!.low + b!.low, high: a!.high + b!.high, flags: 0 }),
  ],
  [
    "-",
    "low taken from low",
    () =>
      ([a, b]) => ({
        low: Math.min(a!.low - b!.low, a!.high - b!.high),
        high: Math.max(a!.low - b!.low, a!.high - b!.high),
        flags: 0,
      }),
  ],
  [
    "*",
    "signs forgotten",
    () =>
      ([a, b]) => ({ low: a!.low * b!.low, high: a!.high * b!.high, flags: MAY_IMPOSSIBLE }),
  ],
  [
    "/",
    "a divisor about nought not seen",
    () =>
      ([a, b]) => {
        const all = [a!.low / b!.low, a!.low / b!.high, a!.high / b!.low, a!.high / b!.high].filter(
          (x) => x === x,
        );
        return { low: Math.min(...all), high: Math.max(...all), flags: MAY_IMPOSSIBLE };
      },
  ],
  ["/", "nought over nought not called impossible", (real) => (parts) => ({ ...real(parts), flags: 0 })],
  [
    "^ 2",
    "the trough of a square not seen",
    () =>
      ([a, b]) => {
        const all = [a!.low ** b!.low, a!.high ** b!.low];
        return { low: Math.min(...all), high: Math.max(...all) * (1 + 1e-14), flags: 0 };
      },
  ],
  ["^ 3", "an odd power taken for even", (real) => (parts) => ({ ...real(parts), low: 0 })],
  [
    "negative",
    "ends not turned",
    () =>
      ([a]) => ({ low: -a!.low, high: -a!.high, flags: 0 }),
  ],
  [
    "absolute",
    "nought in between not seen",
    () =>
      ([a]) => ({
        low: Math.min(Math.abs(a!.low), Math.abs(a!.high)),
        high: Math.max(Math.abs(a!.low), Math.abs(a!.high)),
        flags: 0,
      }),
  ],
  [
    "sqrt",
    "the root of a negative number not called impossible",
    (real) => (parts) => ({ ...real(parts), flags: 0 }),
  ],
  [
    "sin",
    "the crest not seen",
    () =>
      ([a]) => ({
        low: Math.min(Math.sin(a!.low), Math.sin(a!.high)) - 1e-12,
        high: Math.max(Math.sin(a!.low), Math.sin(a!.high)) + 1e-12,
        flags: 0,
      }),
  ],
  [
    "tan",
    "a pole not seen",
    () =>
      ([a]) => ({ low: Math.tan(a!.low) - 1e-9, high: Math.tan(a!.high) + 1e-9, flags: 0 }),
  ],
  [
    "largest",
    "the smaller of the two tops",
    () =>
      ([a, b]) => ({ low: Math.max(a!.low, b!.low), high: Math.min(a!.high, b!.high), flags: 0 }),
  ],
  [
    "rounded up",
    "rounded down",
    () =>
      ([a, step]) => ({
        low: Math.floor(a!.low / step!.low) * step!.low,
        high: Math.floor(a!.high / step!.low) * step!.low,
        flags: 0,
      }),
  ],
  [
    "rounded up",
    "without the tolerance of 1e-10",
    () =>
      ([a, step]) => ({
        low: Math.ceil(a!.low / step!.low) * step!.low,
        high: Math.ceil(a!.high / step!.low) * step!.low,
        flags: 0,
      }),
  ],
  [
    "rounded down",
    "without the tolerance of 1e-10",
    () =>
      ([a, step]) => ({
        low: Math.floor(a!.low / step!.low) * step!.low,
        high: Math.floor(a!.high / step!.low) * step!.low,
        flags: 0,
      }),
  ],
  [
    "rounded near",
    "halves toward nought",
    () =>
      ([a, step]) => {
        const to = (x: number) => Math.sign(x) * Math.ceil(Math.abs(x) / step!.low - 0.5) * step!.low;
        return { low: to(a!.low), high: to(a!.high), flags: 0 };
      },
  ],
  [
    "<",
    "without the tolerance of 1e-9",
    () =>
      ([a, b]) =>
        truth(!(a!.high < b!.low), a!.low < b!.high),
  ],
  ["<=", "taken for <", () => named("<").span],
  [
    "is",
    "equal only where exactly so",
    () =>
      ([a, b]) =>
        truth(
          !(a!.low === a!.high && b!.low === b!.high && a!.low === b!.low),
          a!.low <= b!.high && b!.low <= a!.high,
        ),
  ],
  ["is a to under b", "its upper end taken in", () => named("is a to b").span],
  ["is over a to b", "its lower end taken in", () => named("is a to b").span],
];
const truth = (canNo: boolean, canYes: boolean): Interval => ({
  low: canNo ? 0 : 1,
  high: canYes ? 1 : 0,
  flags: 0,
});

test.each(BROKEN)("the law of %s fails with %s", (name, _what, broken) => {
  const one = named(name);
  expect(operationLaw(chance(11), one, 300)).toBeUndefined();
  expect(operationLaw(chance(11), one, 1200, broken(one.span))).toBeDefined();
});

// ───────────── the law of boxes, with one operation of the plan broken ─────────────

/** Runs a box with what an operation gives changed behind it. */
const spoiling =
  (spoil: (op: Op, spans: Parameters<typeof runIntervals>[1]) => void): LawOptions["spansOf"] =>
  (runner, box) => {
    runner.box({ ...box });
    const { spans: intervals, slice } = runner;
    intervals.empty = false;
    for (const op of slice.ops) {
      runIntervals([op], intervals);
      spoil(op, intervals);
    }
    return intervals;
  };

function lawWith(spansOf: LawOptions["spansOf"], books: number): string | undefined {
  for (let seed = 5000; seed < 5000 + books; seed++) {
    const says = boxLaw(chance(seed), readBook(randomBook(chance(seed), 10, true).text), {
      boxes: 6,
      jobs: 8,
      ...(spansOf ? { spansOf } : {}),
    });
    if (says !== undefined) return says;
  }
  return undefined;
}

test.each<readonly [string, Parameters<typeof spoiling>[0]]>([
  [
    "an alternative forgotten",
    (op, s) => {
      if (
        op.opcode === Opcode.select &&
        s.low[op.in0] !== s.high[op.in0] &&
        s.flags[op.in2] === 0 &&
        s.flags[op.in1] === 0
      ) {
        s.low[op.out] = s.low[op.in1]!;
        s.high[op.out] = s.high[op.in1]!;
      }
    },
  ],
  [
    "a chart's last row forgotten",
    (op, s) => {
      const rows = op.opcode === Opcode.pick ? s.rows.get(op.out) : undefined;
      if (rows !== undefined && rows.length > 1) {
        s.rows.set(op.out, rows.slice(0, -1));
        s.high[op.out] = rows.at(-2)!;
      }
    },
  ],
  [
    "a chart's hole forgotten",
    (op, s) => {
      if (op.opcode === Opcode.pick) s.flags[op.out]! &= ~MAY_IMPOSSIBLE;
    },
  ],
  [
    "the end of a chart's points forgotten",
    (op, s) => {
      if (op.opcode === Opcode.interpolate) s.flags[op.out]! &= ~MAY_IMPOSSIBLE;
    },
  ],
  [
    "an open answer forgotten",
    (op, s) => {
      if (op.opcode === Opcode.add) s.flags[op.out]! &= ~(MAY_UNKNOWN | NEVER);
    },
  ],
  [
    "a list taken to its first row only",
    (op, s) => {
      if (op.opcode === Opcode.aggregate && op.payload.what === "sum") {
        const rows = s.lists[op.in0];
        if (rows !== undefined && rows.most > 1) {
          s.low[op.out] = rows.low[op.payload.column]![0]!;
          s.high[op.out] = rows.high[op.payload.column]![0]!;
        }
      }
    },
  ],
  [
    "a rounding turned",
    (op, s) => {
      if (op.opcode === Opcode.round && op.payload.way === "up" && s.low[op.in1] === s.high[op.in1]) {
        s.low[op.out] = s.low[op.out]! - s.low[op.in1]!;
        s.high[op.out] = s.high[op.out]! - s.low[op.in1]!;
      }
    },
  ],
])("the law of boxes fails with %s", (_what, spoil) => expect(lawWith(spoiling(spoil), 120)).toBeDefined());

test("run operation by operation and not spoiled, it holds", () =>
  expect(
    lawWith(
      spoiling(() => {}),
      40,
    ),
  ).toBeUndefined());

test("a band end moved by the smallest step is a hole or an overlap", () => {
  const space: Domain[] = [{ is: "line", low: 0, high: 100 }];
  const rows = (lowIn: boolean, highIn: boolean): Side[][] => [
    [{ is: "line", stretches: [stretch(-Infinity, true, 25, highIn)] }],
    [{ is: "line", stretches: [stretch(25, lowIn, Infinity, true)] }],
  ];
  expect(findHole(space, rows(true, false)).is).toBe("none");
  expect(findHole(space, rows(false, true)).is).toBe("none");
  expect(findHole(space, rows(false, false))).toEqual({
    is: "found",
    what: [{ is: "line", low: 25, lowIn: true, high: 25, highIn: true }],
  });
});
