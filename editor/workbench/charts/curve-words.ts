// A curve in words, for somebody who does not see it: where it begins and ends, where
// it turns, and where it has nothing to say.
import type { ChartView } from "../../../core/view.ts";
import { gapsBetween, reachOf, written, type Point } from "./geometry.ts";

export type Curve = NonNullable<ChartView["curve"]>;

export interface PlottedJob {
  readonly name: string;
  readonly x: number;
  readonly y: number;
  readonly chosen?: boolean;
}

/** One short sentence for each thing to see, in the order of x. */
export function curveInWords(curve: Curve, mode: ChartView["mode"], jobs: readonly PlottedJob[]): string {
  const sentences = [`${curve.y} over ${curve.x}.`];
  const points = [...curve.points].sort((a, b) => a.x - b.x);
  if (points.length > 0)
    sentences.push(
      `Rows: ${points.map((point) => `${xOf(curve, point.x)} gives ${yOf(curve, point.y)}`).join("; ")}.`,
    );
  if (mode === "straight" || mode === "curve") sentences.push(...turns(curve, points));
  const reach = reachOf(curve.line.flatMap((piece) => piece.map((point) => point.x)));
  for (const gap of gapsBetween(curve.line, reach))
    sentences.push(`A hole from ${xOf(curve, gap.low)} to ${xOf(curve, gap.high)}.`);
  for (const job of jobs) sentences.push(`${job.name} stands at ${xOf(curve, job.x)}, ${yOf(curve, job.y)}.`);
  return sentences.join(" ");
}

function turns(curve: Curve, points: readonly Point[]): string[] {
  const first = points[0],
    last = points.at(-1);
  if (first === undefined || last === undefined || points.length < 2) return [];
  const rises = points.slice(1).map((point, i) => Math.sign(point.y - points[i]!.y));
  const ups = rises.includes(1),
    downs = rises.includes(-1);
  if (ups && downs) {
    const top = points.reduce((a, b) => (b.y > a.y ? b : a));
    const low = points.reduce((a, b) => (b.y < a.y ? b : a));
    return [`It is highest at ${xOf(curve, top.x)} and lowest at ${xOf(curve, low.x)}.`];
  }
  if (!ups && !downs) return ["It stays level."];
  return [`It ${ups ? "rises" : "falls"} all the way.`];
}

export const xOf = (curve: Curve, value: number): string => withUnit(value, curve.xUnit);
export const yOf = (curve: Curve, value: number): string => withUnit(value, curve.yUnit);
const withUnit = (value: number, unit: string): string =>
  unit === "" ? written(value) : `${written(value)} ${unit}`;
