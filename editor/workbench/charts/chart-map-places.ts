// A chart over two conditions as a map: both conditions as axes cut at the ends of the rows' bands, and for
// each field of the map the rows that take it in. Further conditions are held at one word. No drawing here.
import type { AskView, ChartView, JobView, Row } from "../../../core/view.ts";
import { amountIn, bandIn, converted, wordsIn } from "./chart-bands.ts";
import type { Band } from "./chart-bands.ts";

/**
 * One stretch of an axis in which no row begins or ends: a word, a single value at which a band ends, or what
 * lies between two such.
 */
export type Stretch = { readonly word: string } | { readonly low: number; readonly high: number };

export interface Axis {
  readonly column: number;
  readonly name: string;
  readonly unit: string;
  readonly stretches: readonly Stretch[];
}

export interface ChartMap {
  readonly x: Axis;
  readonly y: Axis;
  /** `[y][x]`: rows that take in the field, in the order of the chart. */
  readonly fields: readonly (readonly (readonly number[])[])[];
  /** Conditions beside the two, each with the words to choose from and the one chosen. */
  readonly held: readonly {
    readonly column: number;
    readonly name: string;
    readonly words: readonly string[];
    readonly word: string;
  }[];
}

/**
 * Undefined where the chart has fewer than two conditions, goes between points, or has a cell that is no band
 * or word. `held`: words by name of the condition.
 */
export function mapOf(
  chart: ChartView,
  rows: readonly Row[],
  asks: readonly AskView[],
  held: Readonly<Record<string, string>>,
): ChartMap | undefined {
  if (chart.mode === "straight" || chart.mode === "curve") return undefined;
  const conditions = chart.columns.flatMap((column, at) =>
    column.role === "condition" ? [{ ...column, at }] : [],
  );
  const numbers = conditions.filter((one) => one.words === undefined);
  const kinds = conditions.filter((one) => one.words !== undefined);
  if (conditions.length < 2 || numbers.length > 2) return undefined;
  // Numbers lie along the map, words stand beside it.
  const [across, up] =
    numbers.length === 2 ? numbers : numbers.length === 1 ? [numbers[0], kinds[0]] : [kinds[1], kinds[0]];
  if (across === undefined || up === undefined) return undefined;
  const dial = dialsOf(rows);
  const others = kinds
    .filter((one) => one !== across && one !== up)
    .map((one) => ({
      column: one.at,
      name: one.name,
      words: one.words ?? [],
      word: one.words?.find((word) => word === held[one.name]) ?? one.words?.[0] ?? "",
    }));
  const live = chart.rows.flatMap((row, at) =>
    others.every((one) => wordsIn(row.cells[one.column]?.text ?? "", one.words)?.includes(one.word))
      ? [at]
      : [],
  );
  const [x, y] = [across, up].map((column) =>
    axisOf(
      chart,
      live,
      column,
      asks.find((ask) => ask.name === column.name),
      dial,
    ),
  );
  if (x === undefined || y === undefined) return undefined;
  return {
    x: x.axis,
    y: y.axis,
    held: others,
    fields: y.axis.stretches.map((_, j) =>
      x.axis.stretches.map((__, i) => live.filter((row) => x.takes(row, i) && y.takes(row, j))),
    ),
  };
}

/** A dial's value in a unit, as its rule gives it: `25 mm, from 15 mm to 40 mm`. */
function dialsOf(rows: readonly Row[]): (name: string, unit: string) => number | undefined {
  const dials = new Map(
    rows.flatMap((row) =>
      row.keyword === "dial" && row.name !== undefined ? [[row.name, row] as const] : [],
    ),
  );
  return (name, unit) => {
    const row = dials.get(name);
    const own = row?.rule.replace(/^=\s*/, "").split(",")[0]?.trim();
    return row === undefined || own === undefined
      ? undefined
      : amountIn(own, row.unit || unit, unit, () => undefined);
  };
}

interface Taking {
  readonly axis: Axis;
  readonly takes: (row: number, stretch: number) => boolean;
}

function axisOf(
  chart: ChartView,
  live: readonly number[],
  column: {
    readonly at: number;
    readonly name: string;
    readonly unit: string;
    readonly words?: readonly string[];
  },
  ask: AskView | undefined,
  dial: (name: string, unit: string) => number | undefined,
): Taking | undefined {
  const textOf = (row: number): string => chart.rows[row]?.cells[column.at]?.text ?? "";
  const base = { column: column.at, name: column.name, unit: column.unit };
  if (column.words !== undefined) {
    const words = column.words;
    const sets = new Map(live.map((row) => [row, wordsIn(textOf(row), words)]));
    if ([...sets.values()].some((set) => set === undefined)) return undefined;
    return {
      axis: { ...base, stretches: words.map((word) => ({ word })) },
      takes: (row, at) => sets.get(row)?.includes(words[at] ?? "") === true,
    };
  }
  const bands = new Map(live.map((row) => [row, bandIn(textOf(row), column.unit, dial)]));
  if ([...bands.values()].some((band) => band === undefined)) return undefined;
  const known = [...bands.values()] as Band[];
  const ends = [...new Set(known.flatMap((band) => [band.low, band.high]).filter(Number.isFinite))].sort(
    (a, b) => a - b,
  );
  const asked =
    ask?.answer.is === "quantity"
      ? [ask.answer.low, ask.answer.high].map((end) =>
          amountIn(end, column.unit, column.unit, () => undefined),
        )
      : [];
  const low = asked[0] ?? (ends[0] === undefined ? 0 : ends[0] - room(ends));
  const high = asked[1] ?? (ends.at(-1) === undefined ? 1 : ends.at(-1)! + room(ends));
  const stretches = stretchesBetween(
    low,
    high,
    ends.filter((end) => end >= low && end <= high),
  );
  return {
    axis: { ...base, stretches },
    takes: (row, at) => {
      const [band, stretch] = [bands.get(row), stretches[at]];
      if (band === undefined || stretch === undefined || "word" in stretch) return false;
      if (stretch.low === stretch.high)
        return (
          (stretch.low > band.low || (band.lowIn && stretch.low === band.low)) &&
          (stretch.low < band.high || (band.highIn && stretch.low === band.high))
        );
      return stretch.low >= band.low && stretch.high <= band.high;
    },
  };
}

/**
 * Every end by itself and what lies between, in order: so a band that leaves its end out is told from one
 * that takes it in.
 */
function stretchesBetween(low: number, high: number, ends: readonly number[]): readonly Stretch[] {
  const cuts = [...new Set([low, ...ends, high])];
  return cuts.flatMap((cut, n) =>
    n === 0
      ? [{ low: cut, high: cut }]
      : [
          { low: cuts[n - 1]!, high: cut },
          { low: cut, high: cut },
        ],
  );
}

const room = (ends: readonly number[]): number =>
  Math.max((ends.at(-1)! - ends[0]!) * 0.25, Math.abs(ends.at(-1)!) * 0.1, 1);

/**
 * Where a job stands along an axis: a stretch, and how far into it from 0 to 1; undefined while its answer is
 * not known or off the map.
 */
export function placeOn(
  axis: Axis,
  view: JobView,
): { readonly stretch: number; readonly part: number } | undefined {
  const shown = view.values.find((one) => one.name === axis.name);
  if (shown?.state !== "known") return undefined;
  if (typeof shown.value === "boolean" || typeof shown.value === "string") {
    const word = typeof shown.value === "boolean" ? (shown.value ? "yes" : "no") : shown.value;
    const stretch = axis.stretches.findIndex((one) => "word" in one && one.word === word);
    return stretch < 0 ? undefined : { stretch, part: 0.5 };
  }
  if (typeof shown.value !== "number") return undefined;
  const value = converted(shown.value, shown.unit ?? "", axis.unit);
  if (value === undefined) return undefined;
  const near = (end: number): boolean =>
    Math.abs(value - end) <= 1e-9 * Math.max(Math.abs(value), Math.abs(end));
  const at = axis.stretches.findIndex((one) => "low" in one && one.low === one.high && near(one.low));
  if (at >= 0) return { stretch: at, part: 0.5 };
  const stretch = axis.stretches.findIndex((one) => "low" in one && value > one.low && value < one.high);
  const found = axis.stretches[stretch];
  return found === undefined || "word" in found
    ? undefined
    : { stretch, part: (value - found.low) / (found.high - found.low) };
}

/** Widths by which stretches are drawn: every band alike, a single end as a line. */
export const weightOf = (stretch: Stretch): number =>
  "word" in stretch || stretch.low !== stretch.high ? 1 : 0;
