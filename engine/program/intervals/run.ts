// The interval evaluator: runs the operations of a plan over intervals.
import { Opcode, type Op, extraReads } from "../plan/op.ts";
import { call, divide, multiply, power, round } from "./arithmetic.ts";
import { ABOVE, BELOW, NEAR, among, band, relation, sameness } from "./compare.ts";
import { candidateCount, candidateRows, candidatesAmong, firstCandidate } from "./candidate-rows.ts";
import { aggregate, list } from "./lists.ts";
import {
  MAY_IMPOSSIBLE,
  MAY_UNKNOWN,
  NEVER,
  type Intervals,
  copy,
  narrowToNear,
  putOutward,
  put,
  reachNear,
  truth,
  union,
  wordsOf,
} from "./interval-frame.ts";
import { interpolate, pickRows, rowValue } from "./chart-rows.ts";

/** Runs operations over intervals. */
export function runIntervals(ops: readonly Op[], intervals: Intervals): void {
  for (const op of ops) {
    intervals.work++;
    intervals.words[op.out] = 0;
    step(op, intervals);
    // An interval that reaches infinity can overflow in the evaluator, which calls that impossible.
    if (!(intervals.low[op.out]! > -Infinity) || !(intervals.high[op.out]! < Infinity))
      if ((intervals.flags[op.out]! & NEVER) === 0) intervals.flags[op.out]! |= MAY_IMPOSSIBLE;
    if (intervals.safe !== undefined && intervals.safe[op.out] === 1 && !readsImpossible(op, intervals))
      intervals.flags[op.out]! &= ~MAY_IMPOSSIBLE;
  }
}

const readsImpossible = (op: Op, { flags }: Intervals): boolean =>
  [op.in0, op.in1, op.in2, ...extraReads(op)].some((at) => at >= 0 && (flags[at]! & MAY_IMPOSSIBLE) !== 0);

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one flat switch over all operations.
function step(op: Op, intervals: Intervals): void {
  const { in0, in1, in2, out } = op;
  const { low, high, flags } = intervals;
  const two = () => flags[in0]! | flags[in1]!;
  switch (op.opcode) {
    case Opcode.copy:
      copy(intervals, out, in0);
      if (in1 >= 0) intervals.flags[out]! |= flags[in1]!;
      return;
    case Opcode.add:
      putOutward(intervals, out, low[in0]! + low[in1]!, high[in0]! + high[in1]!, two());
      return;
    case Opcode.sub: {
      if (in0 === in1) {
        put(intervals, out, 0, 0, flags[in0]!);
        return;
      }
      putOutward(intervals, out, low[in0]! - high[in1]!, high[in0]! - low[in1]!, two());
      return;
    }
    case Opcode.mul:
      multiply(intervals, op);
      return;
    case Opcode.div:
      divide(intervals, op);
      return;
    case Opcode.pow:
      power(intervals, op);
      return;
    case Opcode.neg:
      put(intervals, out, -high[in0]!, -low[in0]!, flags[in0]!);
      return;
    case Opcode.fn:
      call(intervals, op);
      return;
    case Opcode.round:
      round(intervals, op);
      return;
    case Opcode.lt:
    case Opcode.le:
    case Opcode.eq:
    case Opcode.ne:
      compare(intervals, op);
      return;
    case Opcode.max:
      put(intervals, out, Math.max(low[in0]!, low[in1]!), Math.max(high[in0]!, high[in1]!), two());
      return;
    case Opcode.min:
      put(intervals, out, Math.min(low[in0]!, low[in1]!), Math.min(high[in0]!, high[in1]!), two());
      return;
    case Opcode.and:
      joined(intervals, op, 0);
      return;
    case Opcode.or:
      joined(intervals, op, 1);
      return;
    case Opcode.not:
      put(intervals, out, 1 - high[in0]!, 1 - low[in0]!, flags[in0]!);
      return;
    case Opcode.known:
      truth(intervals, out, flags[in0] !== 0, (flags[in0]! & NEVER) === 0, 0);
      return;
    case Opcode.select:
      select(intervals, in0, in1, in2, out);
      return;
    case Opcode.band:
      band(intervals, op);
      return;
    case Opcode.words:
      among(intervals, op);
      return;
    case Opcode.pick:
      pickRows(intervals, op.payload, out);
      return;
    case Opcode.rowValue:
      rowValue(intervals, op.payload.values, in0, out);
      return;
    case Opcode.interpolate:
      interpolate(intervals, op.payload, in0, out);
      return;
    case Opcode.candidateRows:
      candidateRows(intervals, op.payload, out);
      return;
    case Opcode.candidateCount:
      candidateCount(intervals, op);
      return;
    case Opcode.firstCandidate:
      firstCandidate(intervals, in0, in1, out);
      return;
    case Opcode.candidatesAmong:
      candidatesAmong(intervals, in0, in1, in2, out);
      return;
    case Opcode.list:
      list(intervals, op, runIntervals);
      return;
    case Opcode.rowAbove: {
      if (intervals.low[in1] === 0) copy(intervals, out, in0);
      else
        put(
          intervals,
          out,
          -Infinity,
          Infinity,
          intervals.low[in1] === 1 ? MAY_IMPOSSIBLE | NEVER : MAY_UNKNOWN | MAY_IMPOSSIBLE,
        );
      return;
    }
    case Opcode.aggregate:
      aggregate(intervals, op);
      return;
  }
}

function compare(intervals: Intervals, op: Op): void {
  const { in0, in1, out, opcode } = op;
  const flags = intervals.flags[in0]! | intervals.flags[in1]!;
  const worded = wordsOf(intervals, in0) !== 0 && wordsOf(intervals, in1) !== 0;
  if ((opcode === Opcode.eq || opcode === Opcode.ne) && worded) {
    const same = sameness(intervals, in0, in1);
    const [canNo, canYes] = [same !== "always", same !== "never"];
    truth(
      intervals,
      out,
      opcode === Opcode.eq ? canNo : canYes,
      opcode === Opcode.eq ? canYes : canNo,
      flags,
    );
    return;
  }
  const how = relation(intervals, in0, in1, opcode === Opcode.eq || opcode === Opcode.ne);
  const yes =
    opcode === Opcode.lt
      ? BELOW
      : opcode === Opcode.le
        ? BELOW | NEAR
        : opcode === Opcode.eq
          ? NEAR
          : BELOW | ABOVE;
  // Nothing is left of how two numbers can compare: in no job of the box both have one.
  if (how === 0) put(intervals, out, -Infinity, Infinity, flags | NEVER);
  else truth(intervals, out, (how & ~yes) !== 0, (how & yes) !== 0, flags);
}

const canBe = (intervals: Intervals, register: number, truth: 0 | 1): boolean =>
  (intervals.flags[register]! & NEVER) === 0 &&
  intervals.low[register]! <= truth &&
  intervals.high[register]! >= truth;

/** `and` and `or`: a part that comes out as `settles` settles it, whatever the other part is. */
function joined(intervals: Intervals, { in0, in1, out }: Op, settles: 0 | 1): void {
  const surely = (register: number) =>
    intervals.flags[register] === 0 &&
    intervals.low[register] === settles &&
    intervals.high[register] === settles;
  if (surely(in0) || surely(in1)) {
    put(intervals, out, settles, settles, 0);
    return;
  }
  const flags = (intervals.flags[in0]! | intervals.flags[in1]!) & ~NEVER;
  const can = canBe(intervals, in0, settles) || canBe(intervals, in1, settles);
  const other = settles === 1 ? 0 : 1;
  const canOther = canBe(intervals, in0, other) && canBe(intervals, in1, other);
  if (!can && !canOther) put(intervals, out, -Infinity, Infinity, flags | NEVER);
  else truth(intervals, out, settles === 0 ? can : canOther, settles === 1 ? can : canOther, flags);
}

function select(intervals: Intervals, a: number, b: number, c: number, d: number): void {
  const canYes = (intervals.flags[a]! & NEVER) === 0 && intervals.high[a]! >= 1;
  const canNo = (intervals.flags[a]! & NEVER) === 0 && intervals.low[a]! <= 0;
  const open = intervals.flags[a]! & ~NEVER;
  if (canYes && !canNo && open === 0) {
    copy(intervals, d, b);
    return;
  }
  if (canNo && !canYes && open === 0) {
    copy(intervals, d, c);
    return;
  }
  const unknown = (open & MAY_UNKNOWN) !== 0;
  if (canYes || canNo) {
    union(intervals, d, [...(canYes ? [b] : []), ...(canNo ? [c] : [])], open);
    // With an unknown condition it is the first value, where that is near to the other.
    if (unknown && !canYes && ((intervals.flags[d]! | intervals.flags[b]!) & NEVER) === 0)
      reachNear(intervals, d, b);
    return;
  }
  if (!unknown) {
    put(intervals, d, -Infinity, Infinity, open | NEVER);
    return;
  }
  union(intervals, d, [b], open | (intervals.flags[c]! & MAY_IMPOSSIBLE));
  narrowToNear(intervals, d, c);
}
