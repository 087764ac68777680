// How two registers can compare, as numbers, as words and by assumption, and whether one lies in a band or a
// set of words.
import { nearly as nearlyFinite } from "../../../core/number.ts";
import type { Opcode, Op } from "../plan/op.ts";
import { NEVER, type Intervals, truth, wordsOf } from "./interval-frame.ts";

/** How one register can compare with another, as bits. */
export const BELOW = 1;
export const NEAR = 2;
export const ABOVE = 4;

/** One number for two registers, whichever comes first. */
export const pairKey = (a: number, b: number): number => (a < b ? a * 2 ** 24 + b : b * 2 ** 24 + a);

// Ends may be infinite here, and the tolerance of an infinite number is infinite: an infinite end is near to
// itself only.
export const nearly = (a: number, b: number): boolean =>
  a === b || (Number.isFinite(a) && Number.isFinite(b) && nearlyFinite(a, b));

const below = (a: number, b: number): boolean => a < b && !nearly(a, b);
const atMost = (a: number, b: number): boolean => a <= b || nearly(a, b);

/** Whether two registers hold the same value, by words where both hold words. */
export function sameness(intervals: Intervals, a: number, b: number): "always" | "never" | "open" {
  if (a === b) return "always";
  const [x, y] = [wordsOf(intervals, a), wordsOf(intervals, b)];
  if (x !== 0 && y !== 0) {
    if ((x & y) === 0) return "never";
    if (x === y && (x & (x - 1)) === 0) return "always";
    return "open";
  }
  const [lowA, highA, lowB, highB] = [
    intervals.low[a]!,
    intervals.high[a]!,
    intervals.low[b]!,
    intervals.high[b]!,
  ];
  if (below(highA, lowB) || below(highB, lowA)) return "never";
  return nearly(lowA, highB) && nearly(highA, lowB) ? "always" : "open";
}

/**
 * How the first register can compare with the second: what their intervals allow, less what is assumed.
 * `exactly`: also whether they can be anything but equal.
 */
export function relation(intervals: Intervals, a: number, b: number, exactly = false): number {
  if (a === b) return NEAR;
  const [lowA, highA, lowB, highB] = [
    intervals.low[a]!,
    intervals.high[a]!,
    intervals.low[b]!,
    intervals.high[b]!,
  ];
  let can =
    (below(lowA, highB) ? BELOW : 0) |
    (below(highA, lowB) || below(highB, lowA) ? 0 : NEAR) |
    (below(lowB, highA) ? ABOVE : 0);
  if (intervals.sharper !== undefined && (can & (BELOW | ABOVE)) === (BELOW | ABOVE)) {
    if (intervals.sharper(a, b)) can &= ~ABOVE;
    if ((exactly || (can & ABOVE) !== 0) && intervals.sharper(b, a)) can &= ~BELOW;
  }
  if (intervals.relations.size === 0) return can;
  const [one, two] = [intervals.twins.get(a) ?? a, intervals.twins.get(b) ?? b];
  const assumed = intervals.relations.get(pairKey(one, two));
  if (assumed === undefined) return can;
  const turned =
    one < two ? assumed : (assumed & NEAR) | (assumed & BELOW ? ABOVE : 0) | (assumed & ABOVE ? BELOW : 0);
  const both = can & turned;
  if (both !== 0) return both;
  // Nothing is left: no job with two numbers here. Where both surely have one, that is no job at all.
  if (intervals.flags[a] !== 0 || intervals.flags[b] !== 0) return 0;
  intervals.empty = true;
  return can;
}

/** Whether a number lies between its ends. */
export function band(
  intervals: Intervals,
  { in0, in1, in2, out, payload }: Extract<Op, { opcode: typeof Opcode.band }>,
): void {
  const { low, high, flags } = intervals;
  let can = true;
  let must = true;
  if (in1 >= 0) {
    can &&= payload.lowIn ? atMost(low[in1]!, high[in0]!) : below(low[in1]!, high[in0]!);
    must &&= payload.lowIn ? atMost(high[in1]!, low[in0]!) : below(high[in1]!, low[in0]!);
  }
  if (in2 >= 0) {
    can &&= payload.highIn ? atMost(low[in0]!, high[in2]!) : below(low[in0]!, high[in2]!);
    must &&= payload.highIn ? atMost(high[in0]!, low[in2]!) : below(high[in0]!, low[in2]!);
  }
  // One end alone can say no, whether the other has a value or not.
  truth(
    intervals,
    out,
    !must,
    can,
    flags[in0]! | (((in1 >= 0 ? flags[in1]! : 0) | (in2 >= 0 ? flags[in2]! : 0)) & ~NEVER),
  );
}

/** Whether a word is one of a set. */
export function among(
  intervals: Intervals,
  { in0, out, payload }: Extract<Op, { opcode: typeof Opcode.words }>,
): void {
  const mask = wordsOf(intervals, in0);
  if (mask === 0) {
    truth(intervals, out, true, true, intervals.flags[in0]!);
    return;
  }
  let [yes, no] = [false, false];
  for (let word = 0; word < 31; word++)
    if (mask & (1 << word)) {
      if (payload.words[word] === 1) yes = true;
      else no = true;
    }
  truth(intervals, out, no, yes, intervals.flags[in0]!);
}
