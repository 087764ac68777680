// The interval evaluator: runs the operations of a plan over intervals.
import { Opcode, type Op } from "../plan/op.ts";
import { call, divide, multiply, power, round } from "./arithmetic.ts";
import { ABOVE, BELOW, NEAR, among, band, relation, sameness } from "./compare.ts";
import { candidateRows, candidatesAmong, firstCandidate } from "./candidate-rows.ts";
import { aggregate, list } from "./lists.ts";
import {
  MAY_IMPOSSIBLE,
  MAY_UNKNOWN,
  NEVER,
  type Intervals,
  copy,
  putOutward,
  put,
  truth,
  union,
  wordsOf,
} from "./interval-frame.ts";
import { interpolate, pickRows } from "./chart-rows.ts";

/** Runs operations over intervals. */
export function runIntervals(ops: readonly Op[], intervals: Intervals): void {
  for (const op of ops) {
    intervals.work++;
    intervals.words[op.out] = 0;
    step(op, intervals);
    // An interval that reaches infinity can overflow in the evaluator, which calls that impossible.
    if (!(intervals.low[op.out]! > -Infinity) || !(intervals.high[op.out]! < Infinity))
      if ((intervals.flags[op.out]! & NEVER) === 0) intervals.flags[op.out]! |= MAY_IMPOSSIBLE;
  }
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one flat switch over all operations.
function step(op: Op, intervals: Intervals): void {
  const { in0, in1, in2, out } = op;
  const { low, high, flags } = intervals;
  const two = () => flags[in0]! | flags[in1]!;
  switch (op.opcode) {
    case Opcode.copy:
      copy(intervals, out, in0);
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
    case Opcode.lt: {
      const how = relation(intervals, in0, in1);
      truth(intervals, out, (how & (NEAR | ABOVE)) !== 0, (how & BELOW) !== 0, two());
      return;
    }
    case Opcode.le: {
      const how = relation(intervals, in0, in1);
      truth(intervals, out, (how & ABOVE) !== 0, (how & (BELOW | NEAR)) !== 0, two());
      return;
    }
    case Opcode.eq:
    case Opcode.ne: {
      const how =
        wordsOf(intervals, in0) !== 0 && wordsOf(intervals, in1) !== 0 ? 0 : relation(intervals, in0, in1);
      const same =
        how === 0
          ? sameness(intervals, in0, in1)
          : how === NEAR
            ? "always"
            : (how & NEAR) === 0
              ? "never"
              : "open";
      if (op.opcode === Opcode.eq) truth(intervals, out, same !== "always", same !== "never", two());
      else truth(intervals, out, same !== "never", same !== "always", two());
      return;
    }
    case Opcode.max:
      put(intervals, out, Math.max(low[in0]!, low[in1]!), Math.max(high[in0]!, high[in1]!), two());
      return;
    case Opcode.min:
      put(intervals, out, Math.min(low[in0]!, low[in1]!), Math.min(high[in0]!, high[in1]!), two());
      return;
    case Opcode.and: {
      const no = (p: number) => flags[p] === 0 && high[p] === 0;
      if (no(in0) || no(in1)) {
        put(intervals, out, 0, 0, 0);
        return;
      }
      truth(
        intervals,
        out,
        low[in0] === 0 || low[in1] === 0 || (two() & NEVER) !== 0,
        high[in0]! >= 1 && high[in1]! >= 1,
        (two() & ~NEVER) | neverOf(two(), canBe(intervals, in0, 0) || canBe(intervals, in1, 0)),
      );
      return;
    }
    case Opcode.or: {
      const yes = (p: number) => flags[p] === 0 && low[p] === 1;
      if (yes(in0) || yes(in1)) {
        put(intervals, out, 1, 1, 0);
        return;
      }
      truth(
        intervals,
        out,
        low[in0] === 0 && low[in1] === 0,
        high[in0]! >= 1 || high[in1]! >= 1 || (two() & NEVER) !== 0,
        (two() & ~NEVER) | neverOf(two(), canBe(intervals, in0, 1) || canBe(intervals, in1, 1)),
      );
      return;
    }
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
    case Opcode.rowValue: {
      const rows = intervals.rows.get(in0);
      if (rows === undefined || rows.length === 0) {
        put(intervals, out, -Infinity, Infinity, flags[in0]! | NEVER);
        return;
      }
      union(
        intervals,
        out,
        rows.map((row) => op.payload.values[row]!),
        flags[in0]! & ~NEVER,
      );
      return;
    }
    case Opcode.interpolate:
      interpolate(intervals, op.payload, in0, out);
      return;
    case Opcode.candidateRows:
      candidateRows(intervals, op.payload, out);
      return;
    case Opcode.candidateCount:
      copy(intervals, out, in1);
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

const canBe = (intervals: Intervals, register: number, truth: 0 | 1): boolean =>
  (intervals.flags[register]! & NEVER) === 0 &&
  intervals.low[register]! <= truth &&
  intervals.high[register]! >= truth;

/** `and` and `or` reach a truth without their missing part if the other one settles it. */
const neverOf = (flags: number, settles: boolean): number => (settles ? 0 : flags & NEVER);

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
  // An unknown condition does not matter where both sides are one and the same; an impossible one leaves
  // nothing.
  const unknown = (open & MAY_UNKNOWN) !== 0;
  const choices = [...(canYes || unknown ? [b] : []), ...(canNo || unknown ? [c] : [])];
  if (choices.length === 0) {
    put(intervals, d, -Infinity, Infinity, open | NEVER);
    return;
  }
  union(intervals, d, choices, open);
}
