// An axis of a map or a chart: its ends, round numbers along it in the units shown, and the job's own value.
import { unitFor, writeValue } from "../../core/format.ts";
import type { Type } from "../../core/type.ts";
import { type Unit, fromSI, toSI } from "../../core/unit.ts";
import type { DrawnAxis, UnitSystem } from "../../core/view.ts";

export interface AxisOf {
  readonly name: string;
  readonly title: string;
  readonly type: Type;
  readonly unit: Unit | undefined;
  readonly low: number;
  readonly high: number;
  /** The job's value in SI, NaN where it is not known. */
  readonly at: number;
}

export function drawnAxis({ name, title, type, unit, low, high, at }: AxisOf, units: UnitSystem): DrawnAxis {
  const write = (si: number) => ({ si, text: writeValue(si, type, unit, units) });
  return {
    name,
    title,
    low,
    high,
    ticks: roundIn(type, unit, low, high, units).map(write),
    ...(at === at ? { at: write(at) } : {}),
  };
}

/** Five or so round numbers between two ends, round in the unit that is shown. */
function roundIn(type: Type, unit: Unit | undefined, low: number, high: number, units: UnitSystem): number[] {
  const shown = unit === undefined ? undefined : unitFor(unit, units, high);
  const factor = type.is === "share" ? 0.01 : 1;
  const [from, to] =
    shown === undefined ? [low / factor, high / factor] : [fromSI(low, shown), fromSI(high, shown)];
  if (!(to > from)) return [low];
  const least = (to - from) / 6;
  const power = 10 ** Math.floor(Math.log10(least));
  const step = [1, 2, 5, 10].map((n) => n * power).find((one) => one >= least * (1 - 1e-9)) ?? 10 * power;
  const count = Math.floor(to / step + 1e-9) - Math.ceil(from / step - 1e-9);
  return Array.from({ length: Math.max(0, count) + 1 }, (_, i) =>
    Number(((Math.ceil(from / step - 1e-9) + i) * step).toPrecision(12)),
  ).map((value) => (shown === undefined ? value * factor : toSI(value, shown)));
}
