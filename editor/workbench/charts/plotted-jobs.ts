// Between a job or a moved point and a chart's curve: a job's values in the units of the
// curve, and a moved point as the cells to be written.
import { fromSI, readUnit, toSI, type Unit } from "../../../core/unit.ts";
import type { ChartView, JobView, Shown } from "../../../core/view.ts";
import type { Curve, PlottedJob } from "./curve-words.ts";
import { written } from "./geometry.ts";

/**
 * The jobs that have a known value both for the curve's number and for the chart, in the curve's units; the
 * others are left out.
 */
export function plottedJobs(
  chart: ChartView,
  jobs: readonly { readonly name: string; readonly view: JobView; readonly chosen?: boolean }[],
): PlottedJob[] {
  const curve = chart.curve;
  if (curve === undefined) return [];
  return jobs.flatMap(({ name, view, chosen }) => {
    const x = inUnit(
      view.values.find((one) => one.name === curve.x),
      curve.xUnit,
    );
    const y = inUnit(
      view.values.find((one) => one.name === curve.y) ?? view.values.find((one) => one.name === chart.name),
      curve.yUnit,
    );
    return x === undefined || y === undefined ? [] : [{ name, x, y, chosen }];
  });
}

function inUnit(shown: Shown | undefined, unit: string): number | undefined {
  if (shown === undefined || shown.state !== "known" || typeof shown.value !== "number") return undefined;
  const from = shown.unit ?? "";
  if (from === unit) return shown.value;
  const has = unitOf(from),
    wants = unitOf(unit);
  return has === undefined || wants === undefined ? undefined : fromSI(toSI(shown.value, has), wants);
}

function unitOf(text: string): Unit | undefined {
  const by = text.endsWith(" by mass")
    ? ("mass" as const)
    : text.endsWith(" by volume")
      ? ("volume" as const)
      : undefined;
  const apart = text.endsWith(" apart");
  const unit = readUnit({ text: text.split(" ")[0] ?? "", apart, by });
  return "symbol" in unit ? unit : undefined;
}

/**
 * The cells to write so that the row's point stands at x and y; only those that change. A unit written in the
 * old cell is written again.
 */
export function pointAsCells(
  chart: ChartView,
  row: number,
  x: number,
  y: number,
): { readonly column: number; readonly text: string }[] {
  const curve = chart.curve;
  const was = curve?.points.find((point) => point.row === row);
  if (curve === undefined || was === undefined) return [];
  const cells: { column: number; text: string }[] = [];
  if (x !== was.x) cells.push(...cellFor(chart, row, columnOf(chart, curve, "condition"), x, curve.xUnit));
  if (y !== was.y) cells.push(...cellFor(chart, row, columnOf(chart, curve, "value"), y, curve.yUnit));
  return cells;
}

function columnOf(chart: ChartView, curve: Curve, role: "condition" | "value"): number {
  const name = role === "condition" ? curve.x : curve.y;
  const named = chart.columns.findIndex((column) => column.role === role && column.name === name);
  return named >= 0 ? named : chart.columns.findIndex((column) => column.role === role);
}

function cellFor(
  chart: ChartView,
  row: number,
  column: number,
  value: number,
  unit: string,
): { column: number; text: string }[] {
  const old = chart.rows[row]?.cells[column]?.text;
  if (old === undefined) return [];
  return [
    { column, text: unit !== "" && /[^\d\s./-]/.test(old) ? `${written(value)} ${unit}` : written(value) },
  ];
}
