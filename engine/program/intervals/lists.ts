// Lists: their rows followed one by one as far as that goes, and what is gathered from them.
import { type K, type ListBody, LONGEST_LIST, type Op } from "../plan/op.ts";
import { nearly } from "./compare.ts";
import { MAY_IMPOSSIBLE, MAY_UNKNOWN, NEVER, type Spans, put } from "./interval-frame.ts";

/** Rows of a list are followed one by one up to here; a longer one is taken by its ends. */
const ROWS_FOLLOWED = 400;

/** `run` is the reading itself, since the rows of a list are operations again. */
export function list(s: Spans, body: ListBody, from: number, to: number, d: number, run: (ops: readonly Op[], s: Spans) => void): void {
  const flags = s.flags[from]! | s.flags[to]!;
  if (flags & NEVER) { put(s, d, -Infinity, Infinity, flags); s.lists[body.slot] = undefined; return; }
  const [first, firstHigh, lastLow, last] = [s.low[from]!, s.high[from]!, s.low[to]!, s.high[to]!];
  const whole = (x: number) => nearly(x, Math.round(x));
  const broken = !(first === firstHigh && whole(first) && (lastLow === last ? whole(last) : true));
  const start = Math.round(first);
  const least = Math.max(0, Math.round(lastLow) - Math.round(firstHigh) + 1);
  const most = Math.max(0, Math.min(LONGEST_LIST, Math.round(last) - start + 1));
  const tooLong = Math.round(last) - start + 1 > LONGEST_LIST;
  const followed = Math.min(most, ROWS_FOLLOWED);
  const low = [...body.columns].map(() => new Float64Array(followed + 1));
  const high = [...body.columns].map(() => new Float64Array(followed + 1));
  const columnFlags = [...body.columns].map(() => 0);
  const note = (i: number) => body.columns.forEach((place, column) => {
    low[column]![i] = s.low[place]!;
    high[column]![i] = s.high[place]!;
    columnFlags[column]! |= s.flags[place]!;
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

export function gather(s: Spans, what: Extract<Op, { k: typeof K.gather }>["x"]["what"], column: number, slot: number, of: number, d: number): void {
  const rows = s.lists[slot];
  const flags = s.flags[of]!;
  if (rows === undefined || flags & NEVER) { put(s, d, -Infinity, Infinity, flags | NEVER); return; }
  if (what === "count") { put(s, d, s.low[of]!, s.high[of]!, flags); return; }
  const { least, most } = rows;
  const low = rows.low[column]!;
  const high = rows.high[column]!;
  const followed = Math.min(most, ROWS_FOLLOWED);
  const all = flags | (rows.flags[column]! & ~NEVER) | (rows.flags[column]! & NEVER ? MAY_IMPOSSIBLE | MAY_UNKNOWN : 0) | (least === 0 && what !== "sum" ? MAY_IMPOSSIBLE : 0);
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
    put(s, d, a - Math.abs(a) * slack - 1e-300, b + Math.abs(b) * slack + 1e-300, all);
    if (a >= 0 && s.low[d]! < 0) s.low[d] = 0;
    return;
  }
  if (most === 0) { put(s, d, -Infinity, Infinity, all | NEVER); return; }
  const count = most > followed ? followed + 1 : followed;
  const lows = Array.from({ length: count }, (_, i) => low[i]!);
  const highs = Array.from({ length: count }, (_, i) => high[i]!);
  const sure = (values: readonly number[]) => values.slice(0, Math.min(least, count));
  switch (what) {
    case "largest": put(s, d, Math.max(...(least > 0 ? sure(lows) : [Math.min(...lows)])), Math.max(...highs), all); return;
    case "smallest": put(s, d, Math.min(...lows), Math.min(...(least > 0 ? sure(highs) : [Math.max(...highs)])), all); return;
    case "first": put(s, d, lows[0]!, highs[0]!, all); return;
    case "last": {
      const from = Math.max(0, Math.min(least, count) - 1);
      put(s, d, Math.min(...lows.slice(from)), Math.max(...highs.slice(from)), all);
      return;
    }
  }
}
