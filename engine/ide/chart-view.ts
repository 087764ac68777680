// A chart as a screen shows it: its grid, what is missing and what clashes, and its curve where it is over
// one number.
import { fromSI } from "../../core/unit.ts";
import { type Type, typeName } from "../../core/type.ts";
import type { Unit } from "../../core/unit.ts";
import type { ChartColumn, ChartView } from "../../core/view.ts";
import { placed } from "../language/syntax/split.ts";
import type { CheckedChart } from "../language/check/chart.ts";
import type { Book } from "../api/book.ts";
import { internalsOf } from "../api/book.ts";
import { curveAt, straightAt } from "../program/eval/interpolate.ts";
import { addChartRow } from "./edits.ts";

export function chartOf(book: Book, name: string): ChartView | undefined {
  const { checked } = internalsOf(book);
  const entry = checked.entries[checked.byName.get(name) ?? -1];
  if (entry === undefined || entry.statement.body.keyword !== "chart") return undefined;
  const { body } = entry.statement;
  const { chart } = entry.checked;
  const at = (span: Parameters<typeof placed>[1]) => placed(entry.piece, span);
  const option = (word: string) => body.options.some((one) => one.option === word);
  const mode: ChartView["mode"] = option("straight")
    ? "straight"
    : option("curve")
      ? "curve"
      : option("first-row-wins")
        ? "first-row-wins"
        : option("keep-every-row")
          ? "keep-every-row"
          : "rows";
  const columns = body.header.map((cell): ChartColumn => {
    const condition = chart?.conditions.find((one) => one.name === cell.text);
    if (condition !== undefined) return column(cell.text, "condition", condition.type, condition.unit);
    const isCondition = body.conditions.some((one) => one.text === cell.text);
    const place = chart?.order.indexOf(body.header.indexOf(cell)) ?? -1;
    const out = chart?.outs[place - (chart?.conditions.length ?? 0)];
    return out === undefined
      ? { name: cell.text, role: isCondition ? "condition" : "value", unit: "", type: "" }
      : column(cell.text, "value", out.type, out.unit);
  });
  const curve = chart === undefined ? undefined : curveOf(chart);
  return {
    name,
    at: entry.piece.at,
    mode,
    outside: option("hold ends") ? "hold-ends" : "nothing",
    columns,
    rows: body.rows.map((row) => ({
      at: at(row.at),
      cells: row.cells.map((cell) => ({ at: at(cell.at), text: cell.text })),
    })),
    holes: (chart?.holes ?? []).map((hole) => ({
      witness: hole.witness,
      ...(hole.cells.length > 0
        ? {
            repair: {
              says: `Add a row for ${hole.witness}`,
              edits: addChartRow(book, name, body.rows.length - 1, hole.cells),
            },
          }
        : {}),
    })),
    clashes: chart?.clashes ?? [],
    ...(curve ? { curve } : {}),
  };
}

function column(name: string, role: ChartColumn["role"], type: Type, unit: Unit | undefined): ChartColumn {
  const words = type.is === "kind" ? type.words : type.is === "yes-no" ? ["yes", "no"] : undefined;
  return {
    name,
    role,
    unit: unit?.symbol ?? (type.is === "share" ? (type.by === "plain" ? "%" : `% by ${type.by}`) : ""),
    type: typeName(type),
    ...(words ? { words } : {}),
  };
}

/** Points and line of a chart over one number that goes between them, in the columns' own units. */
function curveOf(chart: CheckedChart): ChartView["curve"] | undefined {
  const [condition] = chart.conditions;
  const [out] = chart.outs;
  if (
    chart.conditions.length !== 1 ||
    chart.between.length !== 1 ||
    condition === undefined ||
    out === undefined
  )
    return undefined;
  const inUnit = (value: number, type: Type, unit: Unit | undefined) =>
    type.is === "share" ? value * 100 : unit === undefined ? value : fromSI(value, unit);
  const points = chart.rows
    .flatMap((row) => {
      const [x] = row.points;
      const [y] = row.values;
      return x === undefined || y?.does !== "constant" ? [] : [{ x, y: y.value, row: row.index }];
    })
    .sort((a, b) => a.x - b.x);
  if (points.length < 2 || points.length !== chart.rows.length) return undefined;
  const xs = points.map((one) => one.x);
  const ys = points.map((one) => one.y);
  const at = chart.mode === "curve" ? curveAt : straightAt;
  const steps = chart.mode === "curve" ? 24 : 1;
  const line: { x: number; y: number }[] = [];
  for (let i = 0; i + 1 < xs.length; i++) {
    for (let s = i === 0 ? 0 : 1; s <= steps; s++) {
      const x = s === steps ? xs[i + 1]! : xs[i]! + ((xs[i + 1]! - xs[i]!) * s) / steps;
      line.push({
        x: inUnit(x, condition.type, condition.unit),
        y: inUnit(at(xs, ys, x), out.type, out.unit),
      });
    }
  }
  return {
    x: condition.name,
    xUnit: condition.unit?.symbol ?? "",
    y: out.name,
    yUnit:
      out.unit?.symbol ??
      (out.type.is === "share" ? (out.type.by === "plain" ? "%" : `% by ${out.type.by}`) : ""),
    points: points.map((one) => ({
      x: inUnit(one.x, condition.type, condition.unit),
      y: inUnit(one.y, out.type, out.unit),
      row: one.row,
    })),
    line: [line],
  };
}
