// A chart over one number as a line to draw, with the job's own point on it. Its operations are run with that
// number moved along; the other conditions stand as they do in the job.
import { allows } from "../../core/box.ts";
import { writeValue } from "../../core/format.ts";
import type { DrawnChart, UnitSystem } from "../../core/view.ts";
import { type Job, evaluationOf } from "../api/book.ts";
import type { CheckedChart } from "../language/check/chart.ts";
import { copyFrame } from "../program/eval/frame.ts";
import { runOperations } from "../program/eval/run-operations.ts";
import { drawnAxis } from "./drawn-axis.ts";
import { titleOf } from "./titled.ts";

/**
 * `name` may be `chart.column`. Undefined where the book has no such chart, or it is not over a number, or
 * nothing of it can be drawn yet.
 */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function chartDrawn(job: Job, name: string, units: UnitSystem = "book"): DrawnChart | undefined {
  const evaluation = evaluationOf(job);
  const { checked, registers, byId } = evaluation.plan;
  const [base, column] = name.split(".");
  const entry = checked.entries[checked.byName.get(base!) ?? -1];
  const chart = entry?.checked.chart;
  const block = entry && byId.get(entry.id);
  if (entry === undefined || chart === undefined || block === undefined) return undefined;
  const which = column === undefined ? 0 : chart.outs.findIndex((out) => out.name === column);
  const along = chart.between[0] ?? chart.conditions.findIndex((one) => one.domain.is === "line");
  const condition = chart.conditions[along];
  const value = block.values[which];
  const place = condition && registers.byName.get(condition.name);
  if (condition === undefined || value === undefined || place === undefined) return undefined;

  const frame = copyFrame(evaluation.frame);
  const at = (x: number): number => {
    frame.num[place] = x;
    frame.work = 0;
    runOperations(block.ops, frame);
    return frame.num[value.register]!;
  };
  const others = chart.conditions.flatMap((one, i) =>
    i === along ? [] : [{ one, i, value: evaluation.frame.num[registers.byName.get(one.name) ?? 0]! }],
  );
  const rows = chart.rows.filter((row) =>
    others.every(
      ({ i, value: held }) => chart.between.includes(i) || held !== held || allows(row.sides[i]!, held),
    ),
  );
  const lines = chart.between.includes(along)
    ? goneBetween(
        chart,
        rows.map((row) => row.points[along]!),
        at,
      )
    : levels(
        rows.map((row) => row.sides[along]!),
        condition.domain.is === "line" ? condition.domain : { low: 0, high: 1 },
        at,
      );
  const all = lines.flat();
  if (all.length < 2) return undefined;
  const points =
    chart.between.length !== 1
      ? []
      : [...new Set(rows.map((row) => row.points[along]!))].flatMap((x) => {
          const y = at(x);
          return y === y
            ? [
                {
                  x,
                  y,
                  says: `${writeValue(x, condition.type, condition.unit, units)}: ${writeValue(y, value.type, value.unit, units)}`,
                },
              ]
            : [];
        });
  const own = evaluation.frame.num[place]!;
  const ys = all.map((one) => one.y);
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  const room = (high - low || Math.abs(high) || 1) * 0.08;
  return {
    lines,
    points,
    title: titleOf(entry),
    across: drawnAxis(
      {
        name: condition.name,
        title: titleAt(checked.entries[checked.byName.get(condition.name) ?? -1]) ?? condition.name,
        type: condition.type,
        unit: condition.unit,
        low: all.reduce((a, { x }) => Math.min(a, x), Infinity),
        high: all.reduce((a, { x }) => Math.max(a, x), -Infinity),
        at: own,
      },
      units,
    ),
    up: drawnAxis(
      {
        name,
        title: titleOf(entry),
        type: value.type,
        unit: value.unit,
        low: low >= 0 ? Math.max(0, low - room) : low - room,
        high: high + room,
        at: evaluation.frame.num[value.register]!,
      },
      units,
    ),
    held: others.flatMap(({ one, value: held }) =>
      held === held ? [`${one.name} ${writeValue(held, one.type, one.unit, units)}`] : [],
    ),
  };
}

const titleAt = (entry: Parameters<typeof titleOf>[0] | undefined): string | undefined =>
  entry && titleOf(entry);

type Stretch = DrawnChart["lines"][number];

/** Straight from point to point, or finely along a curve. */
function goneBetween(
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
