// The rows of a chart that can apply in a box, and what a chart that interpolates can give there.
import type { Side } from "../../../core/box.ts";
import { findHole } from "../../../core/find-hole.ts";
import type { InterpolationGroup, InterpolationTable, PickTable } from "../plan/op.ts";
import { curveAt, straightAt } from "../eval/interpolate.ts";
import { nearly } from "./compare.ts";
import {
  MAY_IMPOSSIBLE,
  NEVER,
  type Intervals,
  type OpenRows,
  bits,
  narrowToNear,
  put,
  reachNear,
  union,
  wordsOf,
} from "./interval-frame.ts";

/** How much of what a register can hold lies in a cell. */
export const meets = (side: Side, intervals: Intervals, register: number): "no" | "some" | "all" => {
  if (side === "any") return "all";
  if (side.is === "words") {
    const mask = wordsOf(intervals, register);
    if (mask === 0) return "some";
    let [inside, outside] = [false, false];
    for (let word = 0; word < 31; word++)
      if (mask & (1 << word)) {
        if (side.words.has(word)) inside = true;
        else outside = true;
      }
    return inside ? (outside ? "some" : "all") : "no";
  }
  const [low, high] = [intervals.low[register]!, intervals.high[register]!];
  let met = false;
  for (const one of side.stretches) {
    if (low >= one.from && high <= one.to) return "all";
    if (low <= one.to && high >= one.from) met = true;
  }
  return met ? "some" : "no";
};

export function pickRows(intervals: Intervals, table: PickTable, d: number): void {
  let flags = 0;
  for (const register of table.conditions) flags |= intervals.flags[register]! & ~NEVER;
  const rows: number[] = [];
  const unmet: number[] = [];
  let certain = 0;
  for (const [r, sides] of table.rows.entries()) {
    const fit = fits(intervals, table, sides);
    if (fit === "only while open") unmet.push(r);
    if (fit === "no" || fit === "only while open") continue;
    rows.push(r);
    if (fit === "all") {
      certain++;
      if (table.firstWins || (flags === 0 && !table.mayClash)) break;
    }
  }
  intervals.rows.set(d, rows);
  if (flags !== 0) intervals.openRows.set(d, openRowsOf(intervals, table, rows, unmet));
  else intervals.openRows.delete(d);
  if (rows.length === 0) {
    put(intervals, d, -Infinity, Infinity, flags | MAY_IMPOSSIBLE | NEVER);
    return;
  }
  const hole = certain === 0 && mayHaveHole(intervals, table, rows);
  // Without a condition's value a row is sure only if it asks nothing of that condition.
  const settles = rows.some((r) =>
    table.rows[r]!.every((side, c) => side === "any" || !isOpen(intervals, table.conditions[c]!)),
  );
  // Two rows that apply at once have no value.
  const mayClash = table.mayClash && rows.length > 1;
  const clashes = mayClash && certain > 1 && flags === 0;
  const state = (hole || mayClash ? MAY_IMPOSSIBLE : 0) | (settles && !clashes ? 0 : NEVER);
  put(intervals, d, rows[0]!, rows.at(-1)!, flags | state);
}

/** A condition surely without a value. */
const isOpen = (intervals: Intervals, register: number): boolean =>
  (intervals.flags[register]! & NEVER) !== 0;

/** Whether a row can apply; "only while open": only in jobs that leave one of its conditions open. */
function fits(
  intervals: Intervals,
  table: PickTable,
  sides: readonly Side[],
): "no" | "only while open" | "some" | "all" {
  let fit: "only while open" | "some" | "all" = "all";
  for (let c = 0; c < sides.length; c++) {
    const register = table.conditions[c]!;
    const one =
      isOpen(intervals, register) && sides[c] !== "any" ? "some" : meets(sides[c]!, intervals, register);
    if (one === "no" && intervals.flags[register] === 0) return "no";
    if (one === "no") fit = "only while open";
    else if (one === "some" && fit === "all") fit = "some";
  }
  return fit;
}

/** Whether a job of the box may have no row. Where the search gives up, it may. */
function mayHaveHole(intervals: Intervals, table: PickTable, rows: readonly number[]): boolean {
  return (
    findHole(
      table.domains.map((domain, c) =>
        isOpen(intervals, table.conditions[c]!)
          ? { is: "words", count: 1 }
          : within(domain.is === "words" ? domain.count : undefined, intervals, table.conditions[c]!),
      ),
      rows.map((r) =>
        table.rows[r]!.map((side, c) =>
          isOpen(intervals, table.conditions[c]!) ? "any" : renamed(side, intervals, table.conditions[c]!),
        ),
      ),
      4000,
    ).is !== "none"
  );
}

function openRowsOf(
  intervals: Intervals,
  table: PickTable,
  rows: readonly number[],
  unmet: readonly number[],
): OpenRows {
  const always = rows.filter((r) =>
    table.rows[r]!.every((side, c) => {
      const register = table.conditions[c]!;
      return isOpen(intervals, register) || meets(side, intervals, register) === "all";
    }),
  );
  return { unmet, always };
}

/**
 * The value of a chart. Where its row is not known, it has one only if all rows that can still apply agree,
 * nearly: then it is the value of one of them, near to that of each.
 */
export function rowValue(intervals: Intervals, values: Int32Array, picked: number, d: number): void {
  const rows = intervals.rows.get(picked);
  const flags = intervals.flags[picked]!;
  if (rows === undefined || rows.length === 0) {
    put(intervals, d, -Infinity, Infinity, flags | NEVER);
    return;
  }
  const open = intervals.openRows.get(picked);
  const places = rows.map((row) => values[row]!);
  union(intervals, d, places, flags & ~NEVER);
  if (open === undefined || (intervals.flags[d]! & NEVER) !== 0) return;
  for (const row of open.unmet) if (!isOpen(intervals, values[row]!)) reachNear(intervals, d, values[row]!);
  if ((flags & NEVER) === 0) return;
  for (const row of open.always) narrowToNear(intervals, d, values[row]!);
}

/** What a condition can hold as a space of its own. Only its possible words count, numbered from zero. */
function within(
  count: number | undefined,
  intervals: Intervals,
  register: number,
): { is: "line"; low: number; high: number } | { is: "words"; count: number } {
  if (count === undefined)
    return { is: "line", low: intervals.low[register]!, high: intervals.high[register]! };
  const mask = wordsOf(intervals, register);
  return { is: "words", count: mask === 0 ? count : bits(mask).length };
}

function renamed(side: Side, intervals: Intervals, register: number): Side {
  if (side === "any" || side.is === "line") return side;
  const mask = wordsOf(intervals, register);
  if (mask === 0) return side;
  return { is: "words", words: new Set(bits(mask).flatMap((word, i) => (side.words.has(word) ? [i] : []))) };
}

/** A chart that interpolates, over one or two conditions: what its value can be within the box. */
export function interpolate(
  intervals: Intervals,
  table: InterpolationTable,
  picked: number,
  d: number,
): void {
  let flags = 0;
  for (const axis of table.axes) flags |= intervals.flags[axis]!;
  if (picked >= 0) flags |= intervals.flags[picked]!;
  if ((flags & NEVER) !== 0) {
    put(intervals, d, -Infinity, Infinity, flags);
    return;
  }
  const groups = picked < 0 ? [0] : (intervals.rows.get(picked) ?? []);
  const ends = { low: Infinity, high: -Infinity };
  let off = false;
  for (const g of groups) {
    const group = table.groups[g]!;
    const x = clip(group.xs, intervals.low[table.axes[0]!]!, intervals.high[table.axes[0]!]!);
    const y =
      table.axes.length > 1
        ? clip(group.ys, intervals.low[table.axes[1]!]!, intervals.high[table.axes[1]!]!)
        : { low: 0, high: 0, off: false, never: false };
    if (!table.hold && (x.off || y.off)) off = true;
    if (!table.hold && (x.never || y.never)) continue;
    for (const at of group.values) flags |= intervals.flags[at]!;
    if (group.ys.length === 1) widenAlongLine(intervals, group, table.curve, x, ends);
    else if (!table.curve) widenAlongPlane(intervals, group, x, y, ends);
    else
      for (const at of group.values) {
        ends.low = Math.min(ends.low, intervals.low[at]!);
        ends.high = Math.max(ends.high, intervals.high[at]!);
      }
  }
  if (ends.low > ends.high) {
    put(intervals, d, -Infinity, Infinity, flags | (off || groups.length === 0 ? MAY_IMPOSSIBLE : 0) | NEVER);
    return;
  }
  const slack = roundingOf(intervals, table, groups, ends);
  put(
    intervals,
    d,
    ends.low - slack - 5e-324,
    ends.high + slack + 5e-324,
    (flags & ~NEVER) | (off ? MAY_IMPOSSIBLE : 0),
  );
}

/** The smallest and the largest value found so far. */
interface Ends {
  low: number;
  high: number;
}

/** Widens the ends to all that a line or a curve through the group's points reaches between two ends of x. */
function widenAlongLine(
  intervals: Intervals,
  group: InterpolationGroup,
  curve: boolean,
  x: Clipped,
  ends: Ends,
): void {
  const line = curve ? curveAt : straightAt;
  const known = (at: number) => intervals.low[at]! === intervals.high[at]!;
  const rises = !curve || [...group.values].every(known);
  const lows = Array.from(group.values, (at) => intervals.low[at]!);
  const highs = Array.from(group.values, (at) => intervals.high[at]!);
  // Between two neighbours either line only rises or only falls, so ends and points in between hold the
  // extremes.
  const stops = [x.low, x.high, ...group.xs].filter((at) => at >= x.low && at <= x.high);
  for (const at of stops) {
    const low = rises ? line(group.xs, lows, at) : Math.min(...near(group.xs, lows, at));
    const high = rises ? line(group.xs, highs, at) : Math.max(...near(group.xs, highs, at));
    ends.low = Math.min(ends.low, low);
    ends.high = Math.max(ends.high, high);
  }
}

/** The same over two conditions. A surface bent between four points has its extremes at the corners. */
function widenAlongPlane(
  intervals: Intervals,
  group: InterpolationGroup,
  x: Clipped,
  y: Clipped,
  ends: Ends,
): void {
  const width = group.ys.length;
  const xs = [x.low, x.high, ...group.xs].filter((at) => at >= x.low && at <= x.high);
  const ys = [y.low, y.high, ...group.ys].filter((at) => at >= y.low && at <= y.high);
  const plane = (from: Float64Array, at: number, on: number) => {
    const row = (i: number) => Array.from({ length: width }, (_, j) => from[group.values[i * width + j]!]!);
    const along = Array.from(group.xs, (_, i) => straightAt(group.ys, row(i), on));
    return straightAt(group.xs, along, at);
  };
  for (const at of xs)
    for (const on of ys) {
      ends.low = Math.min(ends.low, plane(intervals.low, at, on));
      ends.high = Math.max(ends.high, plane(intervals.high, at, on));
    }
}

/** What rounding can lose: it is of the size of the points, however near to zero the value itself is. */
function roundingOf(
  intervals: Intervals,
  table: InterpolationTable,
  groups: readonly number[],
  ends: Ends,
): number {
  let size = Math.max(Math.abs(ends.low), Math.abs(ends.high));
  for (const g of groups)
    for (const at of table.groups[g]!.values)
      size = Math.max(size, Math.abs(intervals.low[at]!), Math.abs(intervals.high[at]!));
  return Number.isFinite(size) ? size * 4e-15 : 0;
}

const near = (xs: Float64Array, values: readonly number[], at: number): readonly number[] => {
  const i = Math.max(
    0,
    xs.findIndex((x, j) => j === xs.length - 1 || (x <= at && at <= xs[j + 1]!)),
  );
  return [values[i]!, values[Math.min(i + 1, values.length - 1)]!];
};

/** The part of a range that lies within the points, and whether some or all of it lies outside. */
interface Clipped extends Ends {
  readonly off: boolean;
  readonly never: boolean;
}

function clip(points: Float64Array, low: number, high: number): Clipped {
  const [first, last] = [points[0]!, points[points.length - 1]!];
  const fits = (x: number) => (x >= first || nearly(x, first)) && (x <= last || nearly(x, last));
  return {
    low: Math.min(Math.max(low, first), last),
    high: Math.max(Math.min(high, last), first),
    off: !fits(low) || !fits(high),
    never: (high < first && !nearly(high, first)) || (low > last && !nearly(low, last)),
  };
}
