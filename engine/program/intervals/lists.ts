// Lists: their rows evaluated one by one as far as that is reasonable, and the aggregates over them.
import { MAX_LIST_ROWS, type Op, type Opcode } from "../plan/op.ts";
import { nearly } from "./compare.ts";
import {
  MAY_IMPOSSIBLE,
  MAY_UNKNOWN,
  NEVER,
  type Intervals,
  type ListInterval,
  put,
} from "./interval-frame.ts";

/** Rows of a list are evaluated one by one up to here; those beyond are taken together. */
const ROWS_FOLLOWED = 400;

type ListOp = Extract<Op, { opcode: typeof Opcode.list }>;
type AggregateOp = Extract<Op, { opcode: typeof Opcode.aggregate }>;

/** `run` evaluates operations over intervals: the rows of a list are operations again. */
export function list(
  intervals: Intervals,
  { in0, in1, out, payload: body }: ListOp,
  run: (ops: readonly Op[], intervals: Intervals) => void,
): void {
  const flags = intervals.flags[in0]! | intervals.flags[in1]!;
  if (flags & NEVER) {
    put(intervals, out, -Infinity, Infinity, flags);
    intervals.lists[body.slot] = undefined;
    return;
  }
  const [first, firstHigh] = [intervals.low[in0]!, intervals.high[in0]!];
  const [lastLow, last] = [intervals.low[in1]!, intervals.high[in1]!];
  const whole = (x: number) => nearly(x, Math.round(x));
  const broken = !(first === firstHigh && whole(first) && (lastLow === last ? whole(last) : true));
  const start = Math.round(first);
  const least = Math.max(0, Math.round(lastLow) - Math.round(firstHigh) + 1);
  const most = Math.max(0, Math.min(MAX_LIST_ROWS, Math.round(last) - start + 1));
  const tooLong = Math.round(last) - start + 1 > MAX_LIST_ROWS;
  const followed = Math.min(most, ROWS_FOLLOWED);
  // The memory of the run before serves again where it is large enough.
  const old = intervals.lists[body.slot];
  const room = (ends: readonly Float64Array[] | undefined) =>
    ends !== undefined && ends.length === body.columns.length && (ends[0]?.length ?? 0) > followed
      ? ends
      : [...body.columns].map(() => new Float64Array(followed + 1));
  const [low, high] = [room(old?.low), room(old?.high)];
  const columnFlags = [...body.columns].map(() => 0);
  const runRow = (i: number, lowest: number, highest: number, isFirst: 0 | 1 | 2) => {
    put(intervals, body.counter, lowest, highest, 0);
    if (body.first >= 0) put(intervals, body.first, isFirst, isFirst, 0);
    run(body.ops, intervals);
    body.columns.forEach((register, column) => {
      low[column]![i] = intervals.low[register]!;
      high[column]![i] = intervals.high[register]!;
      columnFlags[column]! |= intervals.flags[register]!;
    });
  };
  for (let i = 0; i < followed; i++) runRow(i, start + i, Math.round(firstHigh) + i, i === 0 ? 1 : 0);
  if (most > followed) runRow(followed, start + followed, Math.round(firstHigh) + most, 2);
  intervals.lists[body.slot] = { least, most, low, high, flags: columnFlags };
  put(intervals, out, least, most, flags | (tooLong || broken ? MAY_IMPOSSIBLE : 0));
}

export function aggregate(intervals: Intervals, { in0, in1, out, payload }: AggregateOp): void {
  const { what, column } = payload;
  const rows = intervals.lists[in0];
  const flags = intervals.flags[in1]!;
  if (rows === undefined || flags & NEVER) {
    put(intervals, out, -Infinity, Infinity, flags | NEVER);
    return;
  }
  if (what === "count") {
    put(intervals, out, intervals.low[in1]!, intervals.high[in1]!, flags);
    return;
  }
  const all =
    flags |
    (rows.flags[column]! & ~NEVER) |
    (rows.flags[column]! & NEVER ? MAY_IMPOSSIBLE | MAY_UNKNOWN : 0) |
    (rows.least === 0 && what !== "sum" ? MAY_IMPOSSIBLE : 0);
  if (what === "sum") {
    const [low, high] = sumOf(rows, column);
    const slack = Math.max(1, rows.most) * 2.3e-16;
    put(intervals, out, low - Math.abs(low) * slack - 1e-300, high + Math.abs(high) * slack + 1e-300, all);
    if (low >= 0 && intervals.low[out]! < 0) intervals.low[out] = 0;
    return;
  }
  if (rows.most === 0) {
    put(intervals, out, -Infinity, Infinity, all | NEVER);
    return;
  }
  const [low, high] = extremeOf(rows, column, what);
  put(intervals, out, low, high, all);
}

/** The ends of a sum. A row that may be missing counts where it moves the end outward. */
function sumOf(rows: ListInterval, column: number): readonly [number, number] {
  const { least, most } = rows;
  const [lows, highs] = [rows.low[column]!, rows.high[column]!];
  const followed = Math.min(most, ROWS_FOLLOWED);
  let [low, high] = [0, 0];
  for (let i = 0; i < followed; i++) {
    low += i < least ? lows[i]! : Math.min(0, lows[i]!);
    high += i < least ? highs[i]! : Math.max(0, highs[i]!);
  }
  if (most > followed) {
    const [extraLeast, extraMost] = [Math.max(0, least - followed), most - followed];
    low += Math.min(lows[followed]! * extraLeast, lows[followed]! * extraMost);
    high += Math.max(highs[followed]! * extraLeast, highs[followed]! * extraMost);
  }
  return [low, high];
}

/** The ends of the largest, smallest, first or last value of a list that has rows. */
function extremeOf(
  rows: ListInterval,
  column: number,
  what: Exclude<AggregateOp["payload"]["what"], "sum" | "count">,
): readonly [number, number] {
  const { least, most } = rows;
  const count = most > ROWS_FOLLOWED ? ROWS_FOLLOWED + 1 : most;
  const lows = [...rows.low[column]!.subarray(0, count)];
  const highs = [...rows.high[column]!.subarray(0, count)];
  // Where there is a value there is a first row.
  const sure = (values: readonly number[]) => values.slice(0, Math.max(1, Math.min(least, count)));
  switch (what) {
    case "largest":
      return [Math.max(...sure(lows)), Math.max(...highs)];
    case "smallest":
      return [Math.min(...lows), Math.min(...sure(highs))];
    case "first":
      return [lows[0]!, highs[0]!];
    case "last": {
      const from = Math.max(0, Math.min(least, count) - 1);
      return [Math.min(...lows.slice(from)), Math.max(...highs.slice(from))];
    }
  }
}
