// The rows of a chart as operations: the row that applies, its values, and interpolation between rows.
import type { Side } from "../../../core/box.ts";
import type { Span } from "../../../core/span.ts";
import type { CheckedChart } from "../../language/check/rule.ts";
import { type EmitRule, type Emitter, pushOperation } from "./emitter.ts";
import { type InterpolationGroup, Opcode, type PickTable } from "./op.ts";

/** A chart to be read: by the values of which registers, and which of its value columns. */
export interface ChartRead {
  readonly name: string;
  readonly chart: CheckedChart;
  /** The registers of the conditions. */
  readonly conditions: readonly number[];
  /** The value columns to read, each with the register that it goes to. */
  readonly outputs: readonly ColumnOutput[];
  readonly at: Span;
}

interface ColumnOutput {
  readonly column: number;
  readonly register: number;
}

/**
 * Emits the rows of a chart of which one row applies at a time. `emitRule` is handed in, since a cell is an
 * expression again.
 */
export function emitChartRows(emitter: Emitter, emitRule: EmitRule, read: ChartRead): void {
  const { name, chart, conditions, outputs, at } = read;
  const interpolates = chart.mode === "straight" || chart.mode === "curve";
  const misses = interpolates && (chart.between.length === 0 || chart.between.length > 2);
  if (chart.rows.length === 0 || misses) {
    for (const { register } of outputs) emitter.nothing.push({ register, reason: { code: "chart-finding" } });
    return;
  }
  if (interpolates) {
    emitInterpolation(emitter, emitRule, read);
    return;
  }
  const picked = emitPick(emitter, wholeTable(name, chart, conditions), at);
  for (const { column, register } of outputs) {
    const cells = Int32Array.from(chart.rows.map((row) => emitRule(emitter, row.values[column]!)));
    pushOperation(emitter, {
      opcode: Opcode.rowValue,
      out: register,
      in0: picked,
      in1: -1,
      in2: -1,
      payload: { values: cells },
      at,
    });
  }
}

function emitPick(emitter: Emitter, payload: PickTable, at: Span): number {
  const out = emitter.registers.next++;
  pushOperation(emitter, { opcode: Opcode.pick, out, in0: -1, in1: -1, in2: -1, payload, at });
  return out;
}

/** Rows with the same cells in all other conditions form a group. Each group is interpolated by itself. */
function emitInterpolation(emitter: Emitter, emitRule: EmitRule, read: ChartRead): void {
  const { name, chart, conditions, outputs, at } = read;
  const others = chart.conditions.flatMap((_, i) => (chart.between.includes(i) ? [] : [i]));
  const grouped = groupsOf(chart, others);
  const pickGroup = () =>
    emitPick(
      emitter,
      pickTable(
        name,
        chart,
        others.map((i) => conditions[i]!),
        others,
        grouped.map((rows) => ({ sides: others.map((i) => rows[0]!.sides[i]!), index: rows[0]!.index })),
      ),
      at,
    );
  const picked = others.length > 0 ? pickGroup() : -1;
  const axes = Int32Array.from(chart.between.map((i) => conditions[i]!));
  for (const { register, column } of outputs) {
    const groups = grouped.map((rows) => emitGroup(emitter, emitRule, chart, rows, column));
    pushOperation(emitter, {
      opcode: Opcode.interpolate,
      out: register,
      in0: picked,
      in1: -1,
      in2: -1,
      payload: { name, curve: chart.mode === "curve", hold: chart.outside === "hold-ends", axes, groups },
      at,
    });
  }
}

type Row = CheckedChart["rows"][number];

function groupsOf(chart: CheckedChart, others: readonly number[]): readonly (readonly Row[])[] {
  const keyOf = (side: Side) =>
    side === "any"
      ? side
      : side.is === "words"
        ? [...side.words].sort()
        : side.stretches.map((s) => [s.from, s.to]);
  const byKey = new Map<string, Row[]>();
  for (const row of chart.rows) {
    const key = JSON.stringify(others.map((i) => keyOf(row.sides[i]!)));
    const group = byKey.get(key);
    if (group === undefined) byKey.set(key, [row]);
    else group.push(row);
  }
  return [...byKey.values()];
}

/** The grid of one group: its points along one or two conditions, and the register of the value at each. */
function emitGroup(
  emitter: Emitter,
  emitRule: EmitRule,
  chart: CheckedChart,
  rows: readonly Row[],
  column: number,
): InterpolationGroup {
  const [along, across] = [chart.between[0]!, chart.between[1]];
  const axis = (of: number) => [...new Set(rows.map((row) => row.points[of]!))].sort((a, b) => a - b);
  const xs = axis(along);
  const ys = across === undefined ? [0] : axis(across);
  const missing = () => {
    const register = emitter.registers.next++;
    emitter.nothing.push({ register, reason: { code: "no-grid-point" } });
    return register;
  };
  const pointOf = (x: number, y: number) => `${x} ${y}`;
  const pointOfRow = (row: Row) =>
    pointOf(row.points[along]!, across === undefined ? 0 : row.points[across]!);
  // Of two rows at one point, which have their finding, the first counts.
  const byPoint = new Map([...rows].reverse().map((row) => [pointOfRow(row), row] as const));
  const values: number[] = [];
  const written: number[] = [];
  for (const x of xs)
    for (const y of ys) {
      const row = byPoint.get(pointOf(x, y));
      values.push(row === undefined ? missing() : emitRule(emitter, row.values[column]!));
      written.push(row?.index ?? -1);
    }
  return {
    xs: Float64Array.from(xs),
    ys: Float64Array.from(ys),
    values: Int32Array.from(values),
    written: Int32Array.from(written),
  };
}

/** All rows and conditions of a chart. */
export const wholeTable = (name: string, chart: CheckedChart, conditions: readonly number[]): PickTable =>
  pickTable(
    name,
    chart,
    conditions,
    chart.conditions.map((_, i) => i),
    chart.rows,
  );

/** Rows of a chart over the conditions at `which` alone; `conditions` are the registers of those. */
function pickTable(
  name: string,
  chart: CheckedChart,
  conditions: readonly number[],
  which: readonly number[],
  rows: readonly Pick<Row, "sides" | "index">[],
): PickTable {
  const width = conditions.length;
  const lows = new Float64Array(rows.length * width).fill(-Infinity);
  const highs = new Float64Array(rows.length * width).fill(Infinity);
  const odd: (Side | undefined)[] = new Array(rows.length * width).fill(undefined);
  let hasOdd = false;
  rows.forEach(({ sides }, r) =>
    sides.forEach((side, c) => {
      const at = r * width + c;
      if (side === "any") return;
      if (side.is === "line" && side.stretches.length === 1) {
        lows[at] = side.stretches[0]!.from;
        highs[at] = side.stretches[0]!.to;
      } else if (side.is === "words" && side.words.size === 1) {
        lows[at] = highs[at] = [...side.words][0]!;
      } else {
        odd[at] = side;
        hasOdd = true;
      }
    }),
  );
  const firstWins = chart.mode === "first-row-wins";
  const sidesOfRows = rows.map(({ sides }) => sides);
  return {
    name,
    conditions: Int32Array.from(conditions),
    domains: which.map((i) => chart.conditions[i]!.domain),
    rows: sidesOfRows,
    lows,
    highs,
    odd,
    hasOdd,
    firstWins,
    mayClash: !firstWins && chart.mode !== "keep-every-row" && canClash(sidesOfRows),
    written: Int32Array.from(rows, ({ index }) => index),
  };
}

/** A longer chart is taken to have rows that clash: then each job looks at all of its rows. */
const MOST_COMPARED = 600;

const canClash = (rows: readonly (readonly Side[])[]): boolean =>
  rows.length > MOST_COMPARED ||
  rows.some((one, r) => {
    for (let other = 0; other < r; other++)
      if (one.every((side, c) => canMeet(side, rows[other]![c]!))) return true;
    return false;
  });

/** Whether one answer can lie in both cells. */
function canMeet(a: Side, b: Side): boolean {
  if (a === "any" || b === "any") return true;
  if (a.is === "words") {
    if (b.is !== "words") return true;
    for (const word of a.words) if (b.words.has(word)) return true;
    return false;
  }
  return (
    b.is === "words" ||
    a.stretches.some((one) => b.stretches.some((two) => one.from <= two.to && two.from <= one.to))
  );
}
