// The rows of a chart as operations: the row that fits, its values, and what is gone between.
import type { Side } from "../../../core/box.ts";
import type { Span } from "../../../core/span.ts";
import type { CheckedChart } from "../../language/check/rule.ts";
import { type EmitRule, type Emitter, pushOperation } from "./emitter.ts";
import { type InterpolationGroup, Opcode, type PickTable } from "./op.ts";

/** A value of a chart, and where it goes. */
export interface Wanted {
  readonly column: number;
  readonly place: number;
}

/**
 * The rows of a chart that has one row at a time, read by the values at `conditions`; `lay` is handed in,
 * since a cell is an expression again.
 */
// biome-ignore lint/complexity/useMaxParams: still to come apart.
export function emitChartRows(
  emitter: Emitter,
  lay: EmitRule,
  name: string,
  chart: CheckedChart,
  conditions: readonly number[],
  wanted: readonly Wanted[],
  at: Span,
): void {
  const isBetween = chart.mode === "straight" || chart.mode === "curve";
  if (chart.rows.length === 0 || (isBetween && (chart.between.length === 0 || chart.between.length > 2))) {
    for (const { place } of wanted)
      emitter.nothing.push({ register: place, reason: { code: "chart-finding" } });
    return;
  }
  if (isBetween) {
    layBetween(emitter, lay, name, chart, conditions, wanted, at);
    return;
  }
  const picked = emitter.registers.next++;
  pushOperation(emitter, {
    opcode: Opcode.pick,
    out: picked,
    in0: -1,
    in1: -1,
    in2: -1,
    payload: wholeTable(name, chart, conditions),
    at,
  });
  for (const { column, place: register } of wanted) {
    const cells = Int32Array.from(chart.rows.map((row) => lay(emitter, row.values[column]!)));
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

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
// biome-ignore lint/complexity/useMaxParams: still to come apart.
function layBetween(
  maker: Emitter,
  lay: EmitRule,
  name: string,
  chart: CheckedChart,
  conditions: readonly number[],
  wanted: readonly Wanted[],
  at: Span,
): void {
  const others = chart.conditions.flatMap((_, i) => (chart.between.includes(i) ? [] : [i]));
  const byKey = new Map<string, CheckedChart["rows"][number][]>();
  for (const row of chart.rows) {
    const key = JSON.stringify(
      others.map((i) => {
        const one = row.sides[i]!;
        return one === "any"
          ? one
          : one.is === "words"
            ? [...one.words].sort()
            : one.stretches.map((s) => [s.from, s.to]);
      }),
    );
    const group = byKey.get(key);
    if (group === undefined) byKey.set(key, [row]);
    else group.push(row);
  }
  const grouped = [...byKey.values()];
  let picked = -1;
  if (others.length > 0) {
    picked = maker.registers.next++;
    pushOperation(maker, {
      opcode: Opcode.pick,
      out: picked,
      in0: -1,
      in1: -1,
      in2: -1,
      payload: pickTable(
        name,
        chart,
        others.map((i) => conditions[i]!),
        others,
        grouped.map((rows) => others.map((i) => rows[0]!.sides[i]!)),
        grouped.map((rows) => rows[0]!.index),
      ),
      at,
    });
  }
  const axes = Int32Array.from(chart.between.map((i) => conditions[i]!));
  wanted.forEach(({ place: register, column: out }) => {
    const groups = grouped.map((rows): InterpolationGroup => {
      const axis = (of: number) => [...new Set(rows.map((row) => row.points[of]!))].sort((a, b) => a - b);
      const xs = axis(chart.between[0]!);
      const ys = chart.between[1] === undefined ? [0] : axis(chart.between[1]);
      const none = () => {
        const hole = maker.registers.next++;
        maker.nothing.push({ register: hole, reason: { code: "no-grid-point" } });
        return hole;
      };
      const cells: number[] = [];
      const written: number[] = [];
      const pointOf = (x: number, y: number) => `${x} ${y}`;
      // Of two rows on one point, which have their finding, the first counts.
      const byPoint = new Map(
        rows
          .map(
            (one) =>
              [
                pointOf(
                  one.points[chart.between[0]!]!,
                  chart.between[1] === undefined ? 0 : one.points[chart.between[1]]!,
                ),
                one,
              ] as const,
          )
          .reverse(),
      );
      for (const x of xs)
        for (const y of ys) {
          const row = byPoint.get(pointOf(x, y));
          cells.push(row === undefined ? none() : lay(maker, row.values[out]!));
          written.push(row?.index ?? -1);
        }
      return {
        xs: Float64Array.from(xs),
        ys: Float64Array.from(ys),
        values: Int32Array.from(cells),
        written: Int32Array.from(written),
      };
    });
    pushOperation(maker, {
      opcode: Opcode.interpolate,
      out: register,
      in0: picked,
      in1: -1,
      in2: -1,
      payload: { name, curve: chart.mode === "curve", hold: chart.outside === "hold-ends", axes, groups },
      at,
    });
  });
}

/** All rows and conditions of a chart. */
export const wholeTable = (name: string, chart: CheckedChart, conditions: readonly number[]): PickTable =>
  pickTable(
    name,
    chart,
    conditions,
    chart.conditions.map((_, i) => i),
    chart.rows.map((row) => row.sides),
    chart.rows.map((row) => row.index),
  );

/** Rows of a chart over the conditions at `which` alone. */
// biome-ignore lint/complexity/useMaxParams: still to come apart.
function pickTable(
  name: string,
  chart: CheckedChart,
  conditions: readonly number[],
  which: readonly number[],
  rows: readonly (readonly Side[])[],
  written: readonly number[],
): PickTable {
  const width = conditions.length;
  const lows = new Float64Array(rows.length * width).fill(-Infinity);
  const highs = new Float64Array(rows.length * width).fill(Infinity);
  const odd: (Side | undefined)[] = new Array(rows.length * width).fill(undefined);
  let hasOdd = false;
  rows.forEach((sides, r) =>
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
  return {
    name,
    conditions: Int32Array.from(conditions),
    domains: which.map((i) => chart.conditions[i]!.domain),
    rows,
    lows,
    highs,
    odd,
    hasOdd,
    firstWins: chart.mode === "first-row-wins",
    written: Int32Array.from(written),
  };
}
