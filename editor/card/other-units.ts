// For each unit that a question may be asked in, the unit of the other system that a tape or a scale in the
// shop may show. The engine converts again and has the last word.
import { convertUnit, readUnit } from "../../core/unit.ts";
import type { UnitSystem } from "../../core/view.ts";

interface Pair {
  readonly metric: string;
  readonly us: string;
}

const pairs: readonly Pair[] = [
  { metric: "mm", us: "inch" },
  { metric: "cm", us: "inch" },
  { metric: "m", us: "ft" },
  { metric: "um", us: "mil" },
  { metric: "cm2", us: "inch2" },
  { metric: "mm2", us: "inch2" },
  { metric: "m2", us: "ft2" },
  { metric: "g", us: "oz" },
  { metric: "kg", us: "lb" },
  { metric: "mL", us: "floz" },
  { metric: "L", us: "gal" },
  { metric: "g/m2", us: "oz/yd2" },
  { metric: "°C", us: "°F" },
  { metric: "kPa", us: "psi" },
  { metric: "bar", us: "psi" },
  { metric: "m/min", us: "ft/min" },
  { metric: "kW", us: "hp" },
];

/** The units in which a question may be answered: the book's own first. */
export function unitsFor(bookUnit: string): readonly string[] {
  const pair = pairOf(bookUnit);
  if (pair === undefined) return [bookUnit];
  return [bookUnit, pair.metric === plain(bookUnit) ? pair.us : pair.metric];
}

/** The unit in which a question is asked first when the screen shows this system. */
export function unitIn(bookUnit: string, system: UnitSystem): string {
  const pair = pairOf(bookUnit);
  if (pair === undefined) return bookUnit;
  switch (system) {
    case "book":
      return bookUnit;
    case "metric":
      return pair.metric === plain(bookUnit) ? bookUnit : pair.metric;
    case "us":
      return pair.us === plain(bookUnit) ? bookUnit : pair.us;
  }
}

/**
 * `value` in another of the units that `unitsFor` gives; undefined if there is no way from one to the other.
 */
export function convert(value: number, from: string, to: string): number | undefined {
  if (plain(from) === plain(to)) return value;
  if (!pairs.some(({ metric, us }) => [metric, us].includes(plain(from)) && [metric, us].includes(plain(to))))
    return undefined;
  const [one, other] = [readUnit({ text: from, apart: false }), readUnit({ text: to, apart: false })];
  return "unknown" in one || "unknown" in other ? undefined : convertUnit(value, one, other);
}

const pairOf = (unit: string): Pair | undefined =>
  pairs.find((pair) => pair.metric === plain(unit) || pair.us === plain(unit));

/** The one spelling for units that have two. */
function plain(unit: string): string {
  switch (unit) {
    case "degC":
      return "°C";
    case "degF":
      return "°F";
    default:
      return unit;
  }
}
