// Single operations of the plan, each with its values reading, its spans reading and what it is exactly, and
// the law that holds the three together. Each can be given a broken spans reading in place of the real one.
import { CLOSE, ROUND_CLOSE, type RoundWay } from "../../../../core/number.ts";
import { Opcode, type Op } from "../../../../engine/program/plan/op.ts";
import { type Frame, IMPOSSIBLE } from "../../../../engine/program/eval/frame.ts";
import { runIntervals } from "../../../../engine/program/intervals/run.ts";
import {
  MAY_IMPOSSIBLE,
  NEVER,
  type Intervals,
  putRange,
} from "../../../../engine/program/intervals/interval-frame.ts";
import { runOperations } from "../../../../engine/program/eval/run-operations.ts";
import type { Chance } from "../../../support/chance.ts";
import {
  type Fraction,
  abs,
  compare,
  exactly,
  floor,
  larger,
  minus,
  over,
  plus,
  times,
  toThe,
  whole,
} from "./fraction.ts";

export interface Interval {
  readonly low: number;
  readonly high: number;
  readonly flags: number;
}

export type SpanOf = (parts: readonly Interval[]) => Interval;

export interface Operation {
  readonly name: string;
  readonly parts: number;
  readonly value: (...x: readonly number[]) => number;
  readonly span: SpanOf;
  /**
   * All outcomes that are right for these very numbers; none where there is no outcome. Left out where it is
   * not rational.
   */
  readonly exact?: (...x: readonly Fraction[]) => readonly Fraction[];
  /** The ends of the span are near to what the exact outcomes at the corners are. */
  readonly tight: boolean;
  readonly draw?: (by: Chance) => readonly Interval[];
}

const AT = { start: 0, end: 0 };
const op = (k: number, x?: unknown): Op =>
  ({ opcode: k, out: 4, in0: 1, in1: 2, in2: 3, payload: x, at: AT }) as Op;
const reading = (one: Op, parts: number): Op =>
  ({ ...one, in1: parts > 1 ? 2 : -1, in2: parts > 2 ? 3 : -1 }) as Op;

export function frameOf(values: readonly number[]): Frame {
  const num = new Float64Array(64).fill(Number.NaN);
  values.forEach((value, i) => {
    num[i + 1] = value;
  });
  return {
    num,
    state: new Uint8Array(64).fill(1),
    cause: new Int32Array(64),
    reasons: new Map(),
    possibleRows: new Map(),
    lists: [],
    candidateRows: [],
    work: 0,
  };
}

export function spansOf(parts: readonly Interval[]): Intervals {
  const intervals: Intervals = {
    low: new Float64Array(64).fill(-Infinity),
    high: new Float64Array(64).fill(Infinity),
    words: new Int32Array(64),
    flags: new Uint8Array(64).fill(5),
    rows: new Map(),
    openRows: new Map(),
    lists: [],
    candidateRows: [],
    relations: new Map(),
    twins: new Map(),
    sharper: undefined,
    safe: undefined,
    empty: false,
    work: 0,
  };
  parts.forEach((part, i) => putRange(intervals, i + 1, part));
  return intervals;
}

// biome-ignore lint/complexity/useMaxParams: each call is one row of the table below.
function operation(
  name: string,
  parts: number,
  form: Op,
  exact: Operation["exact"],
  tight: boolean,
  draw?: Operation["draw"],
): Operation {
  const one = reading(form, parts);
  return {
    name,
    parts,
    tight,
    ...(exact ? { exact } : {}),
    ...(draw ? { draw } : {}),
    value: (...x) => {
      const frame = frameOf(x);
      runOperations([one], frame);
      const v = frame.num[4]!;
      if (v !== v && frame.state[4] !== IMPOSSIBLE) throw new Error(`${name} of ${x.join()} is open`);
      return v;
    },
    span: (ranges) => {
      const intervals = spansOf(ranges);
      runIntervals([one], intervals);
      return { low: intervals.low[4]!, high: intervals.high[4]!, flags: intervals.flags[4]! };
    },
  };
}

const STEPS = [1, 5, 0.1, 0.3, 0.003175, 0.001, 7] as const;
const wayOf = { up: "up", down: "down", near: "near" } as const;

export const OPERATIONS: readonly Operation[] = [
  operation("+", 2, op(Opcode.add), (x, y) => [plus(x!, y!)], true),
  operation("-", 2, op(Opcode.sub), (x, y) => [minus(x!, y!)], true),
  operation("*", 2, op(Opcode.mul), (x, y) => [times(x!, y!)], true),
  operation("/", 2, op(Opcode.div), (x, y) => (y!.top === 0n ? [] : [over(x!, y!)]), true),
  operation("negative", 1, op(Opcode.neg), (x) => [minus(whole(0n), x!)], true),
  operation("largest", 2, op(Opcode.max), (x, y) => [larger(x!, y!)], true),
  operation(
    "smallest",
    2,
    op(Opcode.min),
    (x, y) => [minus(whole(0n), larger(minus(whole(0n), x!), minus(whole(0n), y!)))],
    true,
  ),
  ...[0, 1, 2, 3, 4, 7, -1, -2, -3].map((power) =>
    operation(
      `^ ${power}`,
      2,
      op(Opcode.pow),
      (x) => (x!.top === 0n && power < 0 ? [] : [toThe(x!, power)]),
      power >= 0,
      (by) => [mild(by), point(power)],
    ),
  ),
  operation("absolute", 1, op(Opcode.fn, "abs"), (x) => [abs(x!)], true),
  ...(["sqrt", "exp", "ln", "log10", "sin", "cos", "tan", "atan"] as const).map((name) =>
    operation(name, 1, op(Opcode.fn, name), undefined, false, (by) => [
      by.odds(0.5) ? mild(by) : interval(by),
    ]),
  ),
  operation("^ any", 2, op(Opcode.pow), undefined, false, (by) => [mild(by), mild(by)]),
  ...Object.values(wayOf).map((way) =>
    operation(
      `rounded ${way}`,
      2,
      op(Opcode.round, { way, base: 0 }),
      (x, step) => rounded(x!, step!, way),
      false,
      (by) => {
        const step = by.pick(STEPS);
        return [nearMultiples(by, step), point(step)];
      },
    ),
  ),
  ...Object.values(wayOf).map((way) =>
    operation(
      `rounded ${way} to what varies`,
      2,
      op(Opcode.round, { way, base: 0 }),
      (x, step) => (step!.top <= 0n ? [] : rounded(x!, step!, way)),
      false,
      (by) => [mild(by), mild(by)],
    ),
  ),
  operation(
    "<",
    2,
    op(Opcode.lt),
    (x, y) => compared(x!, y!).map((how) => whole(how < 0 ? 1n : 0n)),
    false,
    close,
  ),
  operation(
    "<=",
    2,
    op(Opcode.le),
    (x, y) => compared(x!, y!).map((how) => whole(how <= 0 ? 1n : 0n)),
    false,
    close,
  ),
  operation(
    "is",
    2,
    op(Opcode.eq),
    (x, y) => compared(x!, y!).map((how) => whole(how === 0 ? 1n : 0n)),
    false,
    close,
  ),
  operation(
    "is not",
    2,
    op(Opcode.ne),
    (x, y) => compared(x!, y!).map((how) => whole(how !== 0 ? 1n : 0n)),
    false,
    close,
  ),
  ...[true, false].flatMap((lowIn) =>
    [true, false].map((highIn) =>
      operation(
        `is ${lowIn ? "" : "over "}a to ${highIn ? "" : "under "}b`,
        3,
        op(Opcode.band, { lowIn, highIn }),
        (x, a, b) => {
          const [from, to] = [compared(a!, x!), compared(x!, b!)];
          return from.flatMap((p) =>
            to.map((q) => whole((lowIn ? p <= 0 : p < 0) && (highIn ? q <= 0 : q < 0) ? 1n : 0n)),
          );
        },
        false,
        (by) => [...close(by), close(by)[0]!],
      ),
    ),
  ),
];

/** As comparisons see it, with the tolerance; both ways at the very edge of the tolerance. */
function compared(x: Fraction, y: Fraction): readonly number[] {
  const apart = abs(minus(x, y));
  const size = larger(abs(x), abs(y));
  const sign = compare(x, y);
  const inside = (share: number) => compare(apart, times(exactly(share), size)) <= 0;
  if (sign === 0 || inside(CLOSE * (1 - 1e-6))) return [0];
  return inside(CLOSE * (1 + 1e-6)) ? [0, sign] : [sign];
}

/** As rounding sees it: a number within a relative 1e-10 of a multiple is that multiple. */
function rounded(x: Fraction, step: Fraction, way: RoundWay): readonly Fraction[] {
  const count = over(x, step);
  const half = over(whole(1n), whole(2n));
  const near = floor(plus(count, half));
  const apart = abs(minus(count, whole(near)));
  const size = larger(whole(1n), abs(count));
  const inside = (share: number) => compare(apart, times(exactly(share), size)) <= 0;
  const moved =
    way === "up"
      ? -floor(minus(whole(0n), count))
      : way === "down"
        ? floor(count)
        : count.top < 0n
          ? -floor(plus(abs(count), half))
          : floor(plus(count, half));
  // At a half, and just below one, either side is right within the tolerance.
  const halves =
    way !== "near"
      ? []
      : [
          floor(plus(count, plus(half, exactly(2 * ROUND_CLOSE)))),
          floor(plus(count, minus(half, exactly(2 * ROUND_CLOSE)))),
        ];
  const atHalf = way === "near" && halves[0] !== halves[1] ? halves : [];
  const all = inside(ROUND_CLOSE * (1 - 1e-3))
    ? [near]
    : inside(ROUND_CLOSE * (1 + 1e-3))
      ? [near, moved, ...atHalf]
      : [moved, ...atHalf];
  return all.map((n) => times(whole(n), step));
}

const point = (x: number): Interval => ({ low: x, high: x, flags: 0 });
const NUMBERS = [
  0,
  -0,
  1,
  -1,
  0.1,
  -0.1,
  1 / 3,
  1e-9,
  -1e-9,
  1e-300,
  -1e-300,
  1e160,
  -1e160,
  2 ** 53,
  3.175e-3,
  12,
  100,
  -7.5,
];
const draw = (by: Chance): number =>
  by.odds(0.5) ? by.pick(NUMBERS) : (by.next() - 0.5) * by.pick([1, 10, 1e3, 1e-3]);
const between = (a: number, b: number): Interval => ({ low: Math.min(a, b), high: Math.max(a, b), flags: 0 });

const interval = (by: Chance): Interval => {
  const a = draw(by);
  return by.odds(0.15) ? point(a) : between(a, by.odds(0.3) ? a * (1 + 1e-12) : draw(by));
};
const mild = (by: Chance): Interval => {
  const one = () => (by.odds(0.3) ? by.pick([0, 1, -1, 2, 0.5, -3]) : (by.next() - 0.4) * 12);
  const a = one();
  return by.odds(0.2) ? point(a) : between(a, one());
};

function nearMultiples(by: Chance, step: number): Interval {
  const one = () => {
    const at = (by.whole(41) - 20) * step;
    return (
      at +
      Math.max(1, Math.abs(at)) *
        by.pick([0, 1e-16, -1e-16, 5e-11, -5e-11, 2e-10, -2e-10, 1e-6, -1e-6]) *
        (by.odds(0.5) ? 1 : step) +
      (by.odds(0.3) ? by.next() * step : 0) +
      (by.odds(0.1) ? step / 2 : 0)
    );
  };
  const a = one();
  return by.odds(0.2) ? point(a) : between(a, by.odds(0.4) ? a + step * by.next() : one());
}

/** Numbers that lie at or about the tolerance from one another. */
function close(by: Chance): readonly Interval[] {
  const base = by.pick([1, -1, 12, 1e-6, 100, -3.175e-3, 0]);
  const one = () =>
    base *
    (1 + by.pick([0, 1e-16, 5e-10, -5e-10, 9.99e-10, -9.99e-10, 1.01e-9, -1.01e-9, 3e-9, -3e-9, 0.1, -0.1]));
  const make = () => {
    const a = one();
    return by.odds(0.3) ? point(a) : between(a, one());
  };
  return [make(), make()];
}

const within = (by: Chance, { low, high }: Interval): number =>
  by.pick([
    low,
    high,
    Math.min(high, Math.max(low, low + (high - low) * by.next())),
    ...(low <= 0 && high >= 0 ? [0] : []),
  ]);

/**
 * The first numbers for which the operation does not lie in its span, is not what it is exactly, or (where
 * promised) has a span much too wide.
 */
export function operationLaw(
  by: Chance,
  one: Operation,
  tries: number,
  span: SpanOf = one.span,
): string | undefined {
  for (let i = 0; i < tries; i++) {
    const parts = one.draw?.(by) ?? Array.from({ length: one.parts }, () => interval(by));
    const got = span(parts);
    const ranges = parts.map(({ low, high }) => `${low} to ${high}`).join(" and ");
    const told = `${one.name} of ${ranges}: span ${got.low} to ${got.high}, flags ${got.flags}`;
    let [least, most] = [Infinity, -Infinity];
    const corners =
      parts.length > 2
        ? []
        : parts.reduce<number[][]>(
            (all, { low, high }) =>
              all.flatMap((some) => [
                [...some, low],
                [...some, high],
              ]),
            [[]],
          );
    for (const x of [...corners, ...Array.from({ length: 8 }, () => parts.map((part) => within(by, part)))]) {
      const value = one.value(...x);
      if (value !== value) {
        if ((got.flags & MAY_IMPOSSIBLE) === 0) return `${told}; at ${x.join(" and ")} there is no value`;
        continue;
      }
      if ((got.flags & NEVER) !== 0) return `${told}; at ${x.join(" and ")} it is ${value}`;
      if (!(value >= got.low && value <= got.high)) return `${told}; at ${x.join(" and ")} it is ${value}`;
      [least, most] = [Math.min(least, value), Math.max(most, value)];
      if (one.exact === undefined) continue;
      const right = one.exact(...x.map(exactly));
      if (right.length === 0)
        return `${told}; at ${x.join(" and ")} it is ${value}, and there is no right value`;
      if (!right.some((each) => nearTo(value, each)))
        return `${told}; at ${x.join(" and ")} it is ${value}, which is not right`;
      // The exact outcome too, where it is the only right one and no rounding chooses.
      if (
        right.length === 1 &&
        one.tight &&
        (compare(right[0]!, exactlyOr(got.low, -1)) < 0 || compare(right[0]!, exactlyOr(got.high, 1)) > 0)
      )
        return `${told}; at ${x.join(" and ")} the exact outcome lies outside`;
    }
    const size = Math.max(Math.abs(least), Math.abs(most));
    const settled =
      one.tight &&
      parts.length === corners[0]?.length &&
      Number.isFinite(size) &&
      (got.flags & MAY_IMPOSSIBLE) === 0 &&
      size < 1e300;
    if (
      settled &&
      one.name !== "absolute" &&
      !one.name.startsWith("^") &&
      (got.low < least - size * 1e-14 - 1e-322 || got.high > most + size * 1e-14 + 1e-322)
    )
      return `${told}; all that was met lies in ${least} to ${most}`;
  }
  return undefined;
}

const FAR = exactly(Number.MAX_VALUE);
const exactlyOr = (x: number, sign: 1 | -1): Fraction =>
  Number.isFinite(x) ? exactly(x) : times(whole(BigInt(sign) * 4n ** 4000n), FAR);
const nearTo = (value: number, right: Fraction): boolean =>
  compare(abs(minus(exactly(value), right)), plus(times(exactly(1e-14), abs(right)), exactly(1e-322))) <= 0;
