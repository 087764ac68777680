// Lists: their rows followed one by one as far as that goes, and what is gathered from them.
import { type Opcode, type ListBody, MAX_LIST_ROWS, type Op } from "../plan/op.ts";
import { nearly } from "./compare.ts";
import { MAY_IMPOSSIBLE, MAY_UNKNOWN, NEVER, type Intervals, put } from "./interval-frame.ts";

/** Rows of a list are followed one by one up to here; a longer one is taken by its ends. */
const ROWS_FOLLOWED = 400;

/** `run` is the reading itself, since the rows of a list are operations again. */
// biome-ignore lint/complexity/useMaxParams: still to come apart.
export function list(
  s: Intervals,
  body: ListBody,
  from: number,
  to: number,
  d: number,
  run: (ops: readonly Op[], intervals: Intervals) => void,
): void {
  const flags = s.flags[from]! | s.flags[to]!;
  if (flags & NEVER) {
    put(s, d, -Infinity, Infinity, flags);
    s.lists[body.slot] = undefined;
    return;
  }
  const [first, firstHigh, lastLow, last] = [s.low[from]!, s.high[from]!, s.low[to]!, s.high[to]!];
  const whole = (x: number) => nearly(x, Math.round(x));
  const broken = !(first === firstHigh && whole(first) && (lastLow === last ? whole(last) : true));
  const start = Math.round(first);
  const least = Math.max(0, Math.round(lastLow) - Math.round(firstHigh) + 1);
  const most = Math.max(0, Math.min(MAX_LIST_ROWS, Math.round(last) - start + 1));
  const tooLong = Math.round(last) - start + 1 > MAX_LIST_ROWS;
  const followed = Math.min(most, ROWS_FOLLOWED);
  const low = [...body.columns].map(() => new Float64Array(followed + 1));
  const high = [...body.columns].map(() => new Float64Array(followed + 1));
  const columnFlags = [...body.columns].map(() => 0);
  const note = (i: number) =>
    body.columns.forEach((register, column) => {
      low[column]![i] = s.low[register]!;
      high[column]![i] = s.high[register]!;
      columnFlags[column]! |= s.flags[register]!;
    });
  for (let i = 0; i < followed; i++) {
    put(s, body.counter, start + i, Math.round(firstHigh) + i, 0);
    if (body.first >= 0) put(s, body.first, i === 0 ? 1 : 0, i === 0 ? 1 : 0, 0);
    run(body.ops, s);
    note(i);
  }
  if (most > followed) {
    // The rows beyond are taken together.
    put(s, body.counter, start + followed, Math.round(firstHigh) + most, 0);
    if (body.first >= 0) put(s, body.first, 2, 2, 0);
    run(body.ops, s);
    note(followed);
  }
  s.lists[body.slot] = { least, most, low, high, flags: columnFlags };
  const uneven = !broken && lastLow === last ? 0 : lastLow !== last ? 0 : MAY_IMPOSSIBLE;
  put(s, d, least, most, flags | uneven | (tooLong || broken ? MAY_IMPOSSIBLE : 0));
}

// biome-ignore lint/complexity/useMaxParams: still to come apart.
export function aggregate(
  intervals: Intervals,
  what: Extract<Op, { opcode: typeof Opcode.aggregate }>["payload"]["what"],
  column: number,
  slot: number,
  of: number,
  d: number,
): void {
  const rows = intervals.lists[slot];
  const flags = intervals.flags[of]!;
  if (rows === undefined || flags & NEVER) {
    put(intervals, d, -Infinity, Infinity, flags | NEVER);
    return;
  }
  if (what === "count") {
    put(intervals, d, intervals.low[of]!, intervals.high[of]!, flags);
    return;
  }
  const { least, most } = rows;
  const low = rows.low[column]!;
  const high = rows.high[column]!;
  const followed = Math.min(most, ROWS_FOLLOWED);
  const all =
    flags |
    (rows.flags[column]! & ~NEVER) |
    (rows.flags[column]! & NEVER ? MAY_IMPOSSIBLE | MAY_UNKNOWN : 0) |
    (least === 0 && what !== "sum" ? MAY_IMPOSSIBLE : 0);
  if (what === "sum") {
    let [a, b] = [0, 0];
    for (let i = 0; i < followed; i++) {
      a += i < least ? low[i]! : Math.min(0, low[i]!);
      b += i < least ? high[i]! : Math.max(0, high[i]!);
    }
    if (most > followed) {
      const [extraLeast, extraMost] = [Math.max(0, least - followed), most - followed];
      a += Math.min(low[followed]! * extraLeast, low[followed]! * extraMost);
      b += Math.max(high[followed]! * extraLeast, high[followed]! * extraMost);
    }
    const slack = Math.max(1, most) * 2.3e-16;
    put(intervals, d, a - Math.abs(a) * slack - 1e-300, b + Math.abs(b) * slack + 1e-300, all);
    if (a >= 0 && intervals.low[d]! < 0) intervals.low[d] = 0;
    return;
  }
  if (most === 0) {
    put(intervals, d, -Infinity, Infinity, all | NEVER);
    return;
  }
  const count = most > followed ? followed + 1 : followed;
  const lows = Array.from({ length: count }, (_, i) => low[i]!);
  const highs = Array.from({ length: count }, (_, i) => high[i]!);
  const sure = (values: readonly number[]) => values.slice(0, Math.min(least, count));
  switch (what) {
    case "largest":
      put(intervals, d, Math.max(...(least > 0 ? sure(lows) : [Math.min(...lows)])), Math.max(...highs), all);
      return;
    case "smallest":
      put(
        intervals,
        d,
        Math.min(...lows),
        Math.min(...(least > 0 ? sure(highs) : [Math.max(...highs)])),
        all,
      );
      return;
    case "first":
      put(intervals, d, lows[0]!, highs[0]!, all);
      return;
    case "last": {
      const from = Math.max(0, Math.min(least, count) - 1);
      put(intervals, d, Math.min(...lows.slice(from)), Math.max(...highs.slice(from)), all);
      return;
    }
  }
}
