// A chart that keeps every row: its candidate rows within a box, and what is read from them.
import type { CandidateTable, Op } from "../plan/op.ts";
import { sameness } from "./compare.ts";
import { MAY_IMPOSSIBLE, NEVER, type Intervals, copy, put, truth, union } from "./interval-frame.ts";
import { meets } from "./chart-rows.ts";

export function candidateRows(intervals: Intervals, table: CandidateTable, d: number): void {
  const { conditions, rows } = table.pick;
  const left = new Uint8Array(rows.length);
  let [least, most] = [0, 0];
  rows.forEach((sides, r) => {
    let fit = 2;
    sides.forEach((side, c) => {
      const register = conditions[c]!;
      // An open answer rules nothing out; one that may be open makes its ruling uncertain.
      const one = (intervals.flags[register]! & NEVER) !== 0 ? "all" : meets(side, intervals, register);
      const here = one === "no" ? (intervals.flags[register] !== 0 ? 1 : 0) : one === "some" ? 1 : 2;
      fit = Math.min(fit, here);
    });
    left[r] = fit;
    if (fit === 2) least++;
    if (fit > 0) most++;
  });
  intervals.candidateRows[table.slot] = { left, values: table.values };
  if (most === 0) put(intervals, d, -Infinity, Infinity, MAY_IMPOSSIBLE | NEVER);
  else put(intervals, d, Math.min(1, most), most, least === 0 ? MAY_IMPOSSIBLE : 0);
}

/** The count of the different values of the candidate rows: 0 where the answers leave none. */
export function candidateCount(intervals: Intervals, { in0: slot, in1: chart, out }: Op): void {
  const rows = intervals.candidateRows[slot];
  if (rows === undefined) {
    copy(intervals, out, chart);
    return;
  }
  const most = rows.left.reduce((sum, fit) => sum + (fit > 0 ? 1 : 0), 0);
  const least = rows.left.includes(2) ? 1 : 0;
  put(intervals, out, least, most, 0);
}

export function firstCandidate(intervals: Intervals, slot: number, chart: number, d: number): void {
  const kept = intervals.candidateRows[slot];
  if (kept === undefined || (intervals.flags[chart]! & NEVER) !== 0) {
    put(intervals, d, -Infinity, Infinity, intervals.flags[chart]! | NEVER);
    return;
  }
  const order = [...kept.left.keys()]
    .filter((r) => kept.left[r]! > 0)
    .sort((a, b) => intervals.low[kept.values[a]!]! - intervals.low[kept.values[b]!]!);
  const values: number[] = [];
  let ceiling = Infinity;
  for (const r of order) {
    const at = kept.values[r]!;
    if (intervals.low[at]! > ceiling) break;
    values.push(at);
    if (kept.left[r] === 2) ceiling = Math.min(ceiling, intervals.high[at]!);
  }
  union(intervals, d, values, intervals.flags[chart]!);
}

export function candidatesAmong(
  intervals: Intervals,
  slot: number,
  chart: number,
  of: number,
  d: number,
): void {
  const kept = intervals.candidateRows[slot];
  const flags = intervals.flags[chart]! | intervals.flags[of]!;
  if (kept === undefined || flags & NEVER) {
    truth(intervals, d, true, true, flags);
    return;
  }
  let [can, must] = [false, false];
  kept.left.forEach((fit, r) => {
    if (fit === 0) return;
    const same = sameness(intervals, kept.values[r]!, of);
    if (same !== "never") can = true;
    if (same === "always" && fit === 2) must = true;
  });
  truth(intervals, d, !must, can, flags);
}
