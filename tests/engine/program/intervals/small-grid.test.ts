// Intervals of small whole numbers and of truths against brute force: every combination is evaluated, and the
// ends must be those of the outcomes.
import { expect, test } from "vitest";
import { IMPOSSIBLE, UNKNOWN } from "../../../../engine/program/eval/frame.ts";
import { runOperations } from "../../../../engine/program/eval/run-operations.ts";
import { MAY_IMPOSSIBLE, MAY_UNKNOWN, NEVER } from "../../../../engine/program/intervals/interval-frame.ts";
import { runIntervals } from "../../../../engine/program/intervals/run.ts";
import { Opcode, type Op } from "../../../../engine/program/plan/op.ts";
import { frameOf, spansOf } from "../../analysis/support/operations.ts";

const OUT = 4;
const op = (opcode: number, parts: number, payload?: unknown): Op =>
  ({
    opcode,
    out: OUT,
    in0: 1,
    in1: parts > 1 ? 2 : -1,
    in2: parts > 2 ? 3 : -1,
    payload,
    at: { start: 0, end: 0 },
  }) as Op;

/** All intervals with whole ends from -2 to 2. */
const WHOLE = [-2, -1, 0, 1, 2].flatMap((low) =>
  [-2, -1, 0, 1, 2].flatMap((high) => (low <= high ? [{ low, high, flags: 0 }] : [])),
);
const wholesOf = ({ low, high }: { low: number; high: number }) =>
  Array.from({ length: high - low + 1 }, (_, i) => low + i);

test.each([
  ["+", op(Opcode.add, 2)],
  ["-", op(Opcode.sub, 2)],
  ["*", op(Opcode.mul, 2)],
  ["larger", op(Opcode.max, 2)],
  ["smaller", op(Opcode.min, 2)],
  ["<", op(Opcode.lt, 2)],
  ["<=", op(Opcode.le, 2)],
  ["is", op(Opcode.eq, 2)],
  ["is not", op(Opcode.ne, 2)],
])("the ends of a %s b are those of all its outcomes", (_name, one) => {
  for (const a of WHOLE)
    for (const b of WHOLE) {
      const outcomes = wholesOf(a).flatMap((x) =>
        wholesOf(b).map((y) => {
          const frame = frameOf([x, y]);
          runOperations([one], frame);
          return frame.num[OUT]!;
        }),
      );
      const intervals = spansOf([a, b]);
      runIntervals([one], intervals);
      const about = JSON.stringify([a, b]);
      expect(intervals.low[OUT], about).toBeCloseTo(Math.min(...outcomes), 12);
      expect(intervals.high[OUT], about).toBeCloseTo(Math.max(...outcomes), 12);
      expect(intervals.low[OUT]! <= Math.min(...outcomes), about).toBe(true);
      expect(intervals.high[OUT]! >= Math.max(...outcomes), about).toBe(true);
      expect(intervals.flags[OUT], about).toBe(0);
    }
});

/** What a truth can be: any of no, yes, not answered and impossible, but not nothing at all. */
const TRUTHS = Array.from({ length: 15 }, (_, i) => i + 1).map((bits) => ({
  choices: [0, 1, "unknown", "impossible"].filter((_, i) => bits & (1 << i)),
}));
type Choice = (typeof TRUTHS)[number]["choices"][number];

const intervalOf = (choices: readonly Choice[]) => {
  const numbers = choices.filter((choice) => typeof choice === "number");
  return {
    low: numbers.length > 0 ? Math.min(...numbers) : -Infinity,
    high: numbers.length > 0 ? Math.max(...numbers) : Infinity,
    flags:
      (choices.includes("unknown") ? MAY_UNKNOWN : 0) |
      (choices.includes("impossible") ? MAY_IMPOSSIBLE : 0) |
      (numbers.length === 0 ? NEVER : 0),
  };
};

function evaluate(one: Op, parts: readonly Choice[]): Choice {
  const frame = frameOf(parts.map((part) => (typeof part === "number" ? part : Number.NaN)));
  parts.forEach((part, i) => {
    frame.state[i + 1] = part === "impossible" ? IMPOSSIBLE : UNKNOWN;
    frame.cause[i + 1] = i + 1;
  });
  runOperations([one], frame);
  const value = frame.num[OUT]!;
  if (value === value) return value;
  return frame.state[OUT] === IMPOSSIBLE ? "impossible" : "unknown";
}

const combinations = (sets: readonly (readonly Choice[])[]): Choice[][] =>
  sets.reduce<Choice[][]>((all, set) => all.flatMap((one) => set.map((x) => [...one, x])), [[]]);

test.each([
  ["not", op(Opcode.not, 1), 1, true],
  ["is known", op(Opcode.known, 1), 1, true],
  ["and", op(Opcode.and, 2), 2, false],
  ["or", op(Opcode.or, 2), 2, false],
  ["when", op(Opcode.select, 3), 3, false],
] as const)("every outcome of %s lies within what its interval allows", (_name, one, parts, exact) => {
  const sets = Array.from({ length: parts }).reduce<(typeof TRUTHS)[number][][]>(
    (all) => all.flatMap((some) => TRUTHS.map((each) => [...some, each])),
    [[]],
  );
  for (const some of sets) {
    const outcomes = combinations(some.map(({ choices }) => choices)).map((each) => evaluate(one, each));
    const intervals = spansOf(some.map(({ choices }) => intervalOf(choices)));
    runIntervals([one], intervals);
    const about = JSON.stringify({ some, outcomes });
    const flags = intervals.flags[OUT]!;
    const allowed: Choice[] = [
      ...([0, 1] as const).filter(
        (x) => (flags & NEVER) === 0 && intervals.low[OUT]! <= x && intervals.high[OUT]! >= x,
      ),
      ...(flags & MAY_UNKNOWN ? ["unknown" as const] : []),
      ...(flags & MAY_IMPOSSIBLE ? ["impossible" as const] : []),
    ];
    expect(
      outcomes.filter((outcome) => !allowed.includes(outcome)),
      about,
    ).toEqual([]);
    // Where all operands are certain, so is the outcome.
    if (exact || some.every(({ choices }) => choices.length === 1 && typeof choices[0] === "number"))
      expect(new Set(allowed), about).toEqual(new Set(outcomes));
  }
});

const LIST: Op = {
  opcode: Opcode.list,
  out: OUT,
  in0: 1,
  in1: 2,
  in2: -1,
  at: { start: 0, end: 0 },
  payload: {
    name: "rows",
    counter: 5,
    first: -1,
    // Each row is 2 less than its number.
    ops: [
      { opcode: Opcode.sub, out: 6, in0: 5, in1: 3, in2: -1, payload: undefined, at: { start: 0, end: 0 } },
    ],
    columns: Int32Array.of(6),
    slot: 0,
  },
};

test.each(["sum", "largest", "smallest", "first", "last", "count"] as const)(
  "the %s of a list from 1 to n, for every range of n from 0 to 5",
  (what) => {
    const gather = {
      ...op(Opcode.aggregate, 2, { what, column: 0 }),
      in0: 0,
      in1: OUT,
      out: 7,
    } as Op;
    for (let low = 0; low <= 5; low++)
      for (let high = low; high <= 5; high++) {
        const outcomes = wholesOf({ low, high }).map((n) => {
          const frame = frameOf([1, n, 2]);
          runOperations([LIST, gather], frame);
          return frame.num[7]!;
        });
        const known = outcomes.filter((x) => x === x);
        const intervals = spansOf([
          { low: 1, high: 1, flags: 0 },
          { low, high, flags: 0 },
          { low: 2, high: 2, flags: 0 },
        ]);
        runIntervals([LIST, gather], intervals);
        const about = JSON.stringify({ low, high, outcomes });
        expect((intervals.flags[7]! & MAY_IMPOSSIBLE) !== 0, about).toBe(known.length < outcomes.length);
        expect((intervals.flags[7]! & NEVER) !== 0, about).toBe(known.length === 0);
        if (known.length === 0) continue;
        expect(intervals.low[7]! <= Math.min(...known), about).toBe(true);
        expect(intervals.high[7]! >= Math.max(...known), about).toBe(true);
        // A sum's rows may each be missing by themselves, so its ends may lie further out.
        if (what === "sum" && low !== high) continue;
        expect(intervals.low[7], about).toBeCloseTo(Math.min(...known), 9);
        expect(intervals.high[7], about).toBeCloseTo(Math.max(...known), 9);
      }
  },
);

/** A chart over one whole number by the rows that apply from and to it. */
const rowsOf = (rows: readonly (readonly [number, number])[]) => {
  const sides = rows.map(([low, high]) => [
    { is: "line" as const, stretches: [{ low, lowIn: true, high, highIn: true, from: low, to: high }] },
  ]);
  return {
    name: "rows",
    conditions: Int32Array.of(1),
    domains: [{ is: "line" as const, low: 0, high: 5 }],
    rows: sides,
    lows: Float64Array.from(rows, ([low]) => low),
    highs: Float64Array.from(rows, ([, high]) => high),
    odd: rows.map(() => undefined),
    hasOdd: false,
    firstWins: false,
    mayClash: true,
    written: Int32Array.from(rows, (_, i) => i),
  };
};

test("two rows that apply at once have no value, and intervals allow for it", () => {
  const table = rowsOf([
    [0, 3],
    [3, 5],
  ]);
  const pick = { ...op(Opcode.pick, 1, table), in0: -1 } as Op;
  for (let low = 0; low <= 5; low++)
    for (let high = low; high <= 5; high++) {
      const outcomes = wholesOf({ low, high }).map((x) => evaluate(pick, [x]));
      const intervals = spansOf([{ low, high, flags: 0 }]);
      runIntervals([pick], intervals);
      const about = JSON.stringify({ low, high, outcomes });
      const flags = intervals.flags[OUT]!;
      expect((flags & NEVER) !== 0, about).toBe(outcomes.every((one) => one === "impossible"));
      if (outcomes.includes("impossible")) expect(flags & MAY_IMPOSSIBLE, about).not.toBe(0);
      for (const row of outcomes)
        if (typeof row === "number")
          expect(row >= intervals.low[OUT]! && row <= intervals.high[OUT]!, about).toBe(true);
    }
});

test("the count of a chart that keeps every row is 0 where no row is left", () => {
  const table = rowsOf([
    [0, 2],
    [1, 3],
  ]);
  const rows = { ...op(Opcode.candidateRows, 1, { pick: table, values: Int32Array.of(2, 3), slot: 0 }) };
  const count = { ...op(Opcode.candidateCount, 2), in0: 0, in1: OUT, out: 7 } as Op;
  for (let low = 0; low <= 5; low++)
    for (let high = low; high <= 5; high++) {
      const outcomes = wholesOf({ low, high }).map((x) => {
        const frame = frameOf([x, 0, 1]);
        runOperations([rows as Op, count], frame);
        return frame.num[7]!;
      });
      const intervals = spansOf([
        { low, high, flags: 0 },
        { low: 0, high: 0, flags: 0 },
        { low: 1, high: 1, flags: 0 },
      ]);
      runIntervals([rows as Op, count], intervals);
      const about = JSON.stringify({ low, high, outcomes });
      expect(intervals.flags[7], about).toBe(0);
      expect(
        outcomes.filter((x) => !(x >= intervals.low[7]! && x <= intervals.high[7]!)),
        about,
      ).toEqual([]);
      if (low === high) expect(intervals.low[7] === 0, about).toBe(outcomes[0] === 0);
    }
});
