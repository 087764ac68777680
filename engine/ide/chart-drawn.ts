// A chart over one number as a line to draw, with the job's own point on it. Its operations run with that
// number moved along; the other conditions stay as in the job.
import { allows } from "../../core/box.ts";
import { writeValue } from "../../core/format.ts";
import type { DrawnChart, UnitSystem } from "../../core/view.ts";
import { type Job, evaluationOf } from "../api/book.ts";
import type { Entry } from "../language/check/book.ts";
import type { CheckedChart } from "../language/check/chart.ts";
import { type Frame, copyFrame } from "../program/eval/frame.ts";
import { runOperations } from "../program/eval/run-operations.ts";
import type { Block, Value } from "../program/plan/plan.ts";
import { drawnAxis } from "./drawn-axis.ts";
import { titleOf } from "./titled.ts";

/**
 * `name` may be `chart.column`. Undefined where the book has no such chart, or it is not over a number, or
 * nothing of it can be drawn yet.
 */
export function chartDrawn(job: Job, name: string, units: UnitSystem = "book"): DrawnChart | undefined {
  const drawing = drawingOf(job, name);
  if (drawing === undefined) return undefined;
  const { entry, chart, along, condition, value, frame } = drawing;
  const { checked, registers } = evaluationOf(job).plan;
  const others = chart.conditions.flatMap((one, i) =>
    i === along ? [] : [{ one, i, value: frame.num[registers.byName.get(one.name) ?? 0]! }],
  );
  const rows = chart.rows.filter((row) =>
    others.every(
      ({ i, value: held }) => chart.between.includes(i) || held !== held || allows(row.sides[i]!, held),
    ),
  );
  const at = valueAlong(drawing);
  const lines = linesOf(drawing, rows, at);
  const all = lines.flat();
  if (all.length < 2) return undefined;
  const [left, right] = endsOf(all.map(({ x }) => x));
  const [low, high] = endsOf(all.map(({ y }) => y));
  const room = (high - low || Math.abs(high) || 1) * 0.08;
  const title = titleOf(entry);
  return {
    lines,
    points: pointsOf(drawing, rows, at, units),
    title,
    across: drawnAxis(
      {
        name: condition.name,
        title: titleAt(checked.entries[checked.byName.get(condition.name) ?? -1]) ?? condition.name,
        type: condition.type,
        unit: condition.unit,
        low: left,
        high: right,
        at: frame.num[drawing.register]!,
      },
      units,
    ),
    up: drawnAxis(
      {
        name,
        title,
        type: value.type,
        unit: value.unit,
        low: low >= 0 ? Math.max(0, low - room) : low - room,
        high: high + room,
        at: frame.num[value.register]!,
      },
      units,
    ),
    held: others.flatMap(({ one, value: held }) =>
      held === held ? [`${one.name} ${writeValue(held, one.type, one.unit, units)}`] : [],
    ),
  };
}

/** What is drawn: a value of a chart along one of its conditions. */
interface Drawing {
  readonly entry: Entry;
  readonly chart: CheckedChart;
  readonly block: Block;
  readonly value: Value;
  /** Which condition the line runs along, and its register. */
  readonly along: number;
  readonly condition: CheckedChart["conditions"][number];
  readonly register: number;
  /** The job's own frame. */
  readonly frame: Frame;
}

function drawingOf(job: Job, name: string): Drawing | undefined {
  const { plan, frame } = evaluationOf(job);
  const { checked, registers, byId } = plan;
  const [base, column] = name.split(".");
  const entry = checked.entries[checked.byName.get(base!) ?? -1];
  const chart = entry?.checked.chart;
  const block = entry && byId.get(entry.id);
  if (entry === undefined || chart === undefined || block === undefined) return undefined;
  const which = column === undefined ? 0 : chart.outs.findIndex((out) => out.name === column);
  const along = chart.between[0] ?? chart.conditions.findIndex((one) => one.domain.is === "line");
  const condition = chart.conditions[along];
  const value = block.values[which];
  const register = condition && registers.byName.get(condition.name);
  if (condition === undefined || value === undefined || register === undefined) return undefined;
  return { entry, chart, block, value, along, condition, register, frame };
}

/** The chart's value for any number along the line, NaN where it has none. */
function valueAlong({ block, value, register, frame }: Drawing): (x: number) => number {
  const copy = copyFrame(frame);
  return (x) => {
    copy.num[register] = x;
    copy.work = 0;
    runOperations(block.ops, copy);
    return copy.num[value.register]!;
  };
}

function linesOf(
  { chart, along, condition }: Drawing,
  rows: CheckedChart["rows"],
  at: (x: number) => number,
): readonly Stretch[] {
  if (chart.between.includes(along))
    return interpolated(
      chart,
      rows.map((row) => row.points[along]!),
      at,
    );
  const range = condition.domain.is === "line" ? condition.domain : { low: 0, high: 1 };
  return levels(
    rows.map((row) => row.sides[along]!),
    range,
    at,
  );
}

/** The points of a chart that is interpolated along one number. */
function pointsOf(
  { chart, along, condition, value }: Drawing,
  rows: CheckedChart["rows"],
  at: (x: number) => number,
  units: UnitSystem,
): DrawnChart["points"] {
  if (chart.between.length !== 1) return [];
  return [...new Set(rows.map((row) => row.points[along]!))].flatMap((x) => {
    const y = at(x);
    if (y !== y) return [];
    const [where, what] = [
      writeValue(x, condition.type, condition.unit, units),
      writeValue(y, value.type, value.unit, units),
    ];
    return [{ x, y, says: `${where}: ${what}` }];
  });
}

const endsOf = (numbers: readonly number[]): readonly [number, number] => [
  numbers.reduce((a, x) => Math.min(a, x), Infinity),
  numbers.reduce((a, x) => Math.max(a, x), -Infinity),
];

const titleAt = (entry: Parameters<typeof titleOf>[0] | undefined): string | undefined =>
  entry && titleOf(entry);

type Stretch = DrawnChart["lines"][number];

/** Straight from point to point, or finely along a curve. */
function interpolated(
  chart: CheckedChart,
  points: readonly number[],
  at: (x: number) => number,
): readonly Stretch[] {
  const xs = [...new Set(points)].sort((a, b) => a - b);
  const steps = chart.mode === "curve" ? 16 : 1;
  const fine = xs.flatMap((x, i) =>
    i + 1 < xs.length ? Array.from({ length: steps }, (_, s) => x + ((xs[i + 1]! - x) * s) / steps) : [x],
  );
  return known(fine, at);
}

/** One stretch for each band: level, or followed where its cell is a rule of the number itself. */
function levels(
  sides: readonly CheckedChart["rows"][number]["sides"][number][],
  { low, high }: { readonly low: number; readonly high: number },
  at: (x: number) => number,
): readonly Stretch[] {
  const ends = [
    ...new Set(
      [
        low,
        high,
        ...sides.flatMap((side) =>
          side === "any" || side.is === "words" ? [] : side.stretches.flatMap((one) => [one.low, one.high]),
        ),
      ].filter(Number.isFinite),
    ),
  ].sort((a, b) => a - b);
  return ends.flatMap((from, i) => {
    const to = ends[i + 1];
    if (to === undefined || !(to > from)) return [];
    const inner = (to - from) * 1e-6;
    const points = Array.from({ length: 9 }, (_, s) => from + inner + ((to - from - 2 * inner) * s) / 8);
    return known(points, at).map((piece) =>
      piece.every((one) => one.y === piece[0]!.y)
        ? [
            { x: from, y: piece[0]!.y },
            { x: to, y: piece[0]!.y },
          ]
        : piece,
    );
  });
}

/** The points that have a value, parted where one has none. */
function known(xs: readonly number[], at: (x: number) => number): readonly Stretch[] {
  const pieces: { x: number; y: number }[][] = [[]];
  for (const x of xs) {
    const y = at(x);
    if (y === y) pieces.at(-1)!.push({ x, y });
    else if (pieces.at(-1)!.length > 0) pieces.push([]);
  }
  return pieces.filter((piece) => piece.length > 1);
}
