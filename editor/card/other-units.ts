// For each unit that a question may be asked in, the unit of the other system that a tape or a scale in the
// shop may show. Factors are exact by definition (inch, avoirdupois pound, US gallon); the engine converts
// again and has the last word.
import type { UnitSystem } from "../../core/view.ts";

interface Pair {
  readonly metric: string;
  readonly us: string;
  /** So many metric units in one US unit. */
  readonly factor: number;
  /** US reading at zero metric: 32 for °F. */
  readonly zero?: number;
}

const pairs: readonly Pair[] = [
  { metric: "mm", us: "inch", factor: 25.4 },
  { metric: "cm", us: "inch", factor: 2.54 },
  { metric: "m", us: "ft", factor: 0.3048 },
  { metric: "um", us: "mil", factor: 25.4 },
  { metric: "cm2", us: "inch2", factor: 6.4516 },
  { metric: "mm2", us: "inch2", factor: 645.16 },
  { metric: "m2", us: "ft2", factor: 0.09290304 },
  { metric: "g", us: "oz", factor: 28.349523125 },
  { metric: "kg", us: "lb", factor: 0.45359237 },
  { metric: "mL", us: "floz", factor: 29.5735295625 },
  { metric: "L", us: "gal", factor: 3.785411784 },
  { metric: "g/m2", us: "oz/yd2", factor: 28.349523125 / 0.83612736 },
  { metric: "°C", us: "°F", factor: 1 / 1.8, zero: 32 },
  { metric: "kPa", us: "psi", factor: 6.894757293168361 },
  { metric: "bar", us: "psi", factor: 0.06894757293168361 },
  { metric: "m/min", us: "ft/min", factor: 0.3048 },
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
  for (const pair of pairs) {
    const zero = pair.zero ?? 0;
    if (pair.metric === plain(from) && pair.us === plain(to)) return value / pair.factor + zero;
    if (pair.us === plain(from) && pair.metric === plain(to)) return (value - zero) * pair.factor;
  }
  return undefined;
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
