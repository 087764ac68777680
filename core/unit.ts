// Units, each as an exact factor to SI. Factors are definitions, not measurements: the international
// yard and pound of 1959 and the US liquid gallon of 231 cubic inches (NIST SP 811, NIST Handbook 44
// Appendix C), so 1 inch is 0.0254 m and 1 floz is 29.5735295625 mL exactly.
import {
  AMOUNT,
  AREA,
  type Dimension,
  LENGTH,
  MASS,
  MONEY,
  ONE,
  TIME,
  VOLUME,
  WARMTH,
  over,
} from "./dimension.ts";

/** Which family a unit belongs to; `both` units are shown as they are in either. */
type Family = "metric" | "us" | "both";

export interface Unit {
  /** As it is written: `mm`, `g/m2`, `°C`, `% by mass`. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** SI value of one of it. */
  readonly factor: number;
  /** SI value (kelvin) of its zero: only for temperatures as points on a scale. */
  readonly zero: number;
  readonly family: Family;
  /** What a number in this unit is, beyond its dimension. */
  readonly sense: "amount" | "temperature" | "share" | "share by mass" | "share by volume" | "count";
}

const INCH = 0.0254;
const FOOT = 0.3048;
const YARD = 0.9144;
const POUND = 0.45359237;
const GALLON = 231 * INCH ** 3;

const pressure: Dimension = [-1, 1, -2, 0, 0, 0];
const force: Dimension = [1, 1, -2, 0, 0, 0];
const energy: Dimension = [2, 1, -2, 0, 0, 0];
const power: Dimension = [2, 1, -3, 0, 0, 0];
const rate: Dimension = [0, 0, -1, 0, 0, 0];

type Entry = readonly [symbols: string, dimension: Dimension, factor: number, family: Family];

const ENTRIES: readonly Entry[] = [
  ["m", LENGTH, 1, "metric"],
  ["cm", LENGTH, 0.01, "metric"],
  ["mm", LENGTH, 0.001, "metric"],
  ["um µm μm", LENGTH, 1e-6, "metric"],
  ["km", LENGTH, 1000, "metric"],
  ["inch inches", LENGTH, INCH, "us"],
  ["ft", LENGTH, FOOT, "us"],
  ["yd", LENGTH, YARD, "us"],
  ["mil", LENGTH, INCH / 1000, "us"],
  ["m2 m²", AREA, 1, "metric"],
  ["cm2 cm²", AREA, 1e-4, "metric"],
  ["mm2 mm²", AREA, 1e-6, "metric"],
  ["inch2", AREA, INCH ** 2, "us"],
  ["ft2", AREA, FOOT ** 2, "us"],
  ["yd2", AREA, YARD ** 2, "us"],
  ["m3 m³", VOLUME, 1, "metric"],
  ["cm3 cm³", VOLUME, 1e-6, "metric"],
  ["mm3 mm³", VOLUME, 1e-9, "metric"],
  ["L", VOLUME, 1e-3, "metric"],
  ["mL ml", VOLUME, 1e-6, "metric"],
  ["uL µL μL", VOLUME, 1e-9, "metric"],
  ["inch3", VOLUME, INCH ** 3, "us"],
  ["ft3", VOLUME, FOOT ** 3, "us"],
  ["gal", VOLUME, GALLON, "us"],
  ["quart", VOLUME, GALLON / 4, "us"],
  ["pint", VOLUME, GALLON / 8, "us"],
  ["cup", VOLUME, GALLON / 16, "us"],
  ["floz", VOLUME, GALLON / 128, "us"],
  ["tbsp", VOLUME, GALLON / 256, "us"],
  ["tsp", VOLUME, GALLON / 768, "us"],
  ["kg", MASS, 1, "metric"],
  ["g", MASS, 1e-3, "metric"],
  ["mg", MASS, 1e-6, "metric"],
  ["t", MASS, 1000, "metric"],
  ["lb", MASS, POUND, "us"],
  ["oz", MASS, POUND / 16, "us"],
  ["s", TIME, 1, "both"],
  ["min", TIME, 60, "both"],
  ["h", TIME, 3600, "both"],
  ["day days", TIME, 86400, "both"],
  ["mol", AMOUNT, 1, "both"],
  ["N", force, 1, "metric"],
  ["kN", force, 1000, "metric"],
  ["lbf", force, POUND * 9.80665, "us"],
  ["Pa", pressure, 1, "metric"],
  ["hPa", pressure, 100, "metric"],
  ["kPa", pressure, 1000, "metric"],
  ["MPa", pressure, 1e6, "metric"],
  ["bar", pressure, 1e5, "metric"],
  ["psi", pressure, (POUND * 9.80665) / INCH ** 2, "us"],
  // The conventional inch of mercury: 13595.1 kg/m3 and standard gravity (NIST SP 811, B.8).
  ["inHg", pressure, 13595.1 * 9.80665 * INCH, "us"],
  ["J", energy, 1, "metric"],
  ["kJ", energy, 1000, "metric"],
  ["W", power, 1, "metric"],
  ["kW", power, 1000, "metric"],
  // Of 550 foot-pounds-force a second, which is 746 W to three digits (NIST SP 811, B.8).
  ["hp", power, 550 * FOOT * POUND * 9.80665, "us"],
  ["rpm", rate, 1 / 60, "both"],
  ["deg", ONE, Math.PI / 180, "both"],
  ["rad", ONE, 1, "both"],
];

const UNITS = new Map<string, Unit>();
for (const [symbols, dimension, factor, family] of ENTRIES) {
  for (const symbol of symbols.split(" "))
    UNITS.set(symbol, { symbol, dimension, factor, zero: 0, family, sense: "amount" });
}
UNITS.set("%", { symbol: "%", dimension: ONE, factor: 0.01, zero: 0, family: "both", sense: "share" });
UNITS.set("count", { symbol: "count", dimension: ONE, factor: 1, zero: 0, family: "both", sense: "count" });
const scale = (symbols: string, symbol: string, factor: number, zero: number, family: Family) => {
  for (const written of symbols.split(" "))
    UNITS.set(written, { symbol, dimension: WARMTH, factor, zero, family, sense: "temperature" });
};
scale("°C degC", "°C", 1, 273.15, "metric");
scale("°F degF", "°F", 5 / 9, 459.67 * (5 / 9), "us");
scale("K", "K", 1, 0, "both");

/** ISO 4217 codes of currencies in which a shop may reckon. */
const CURRENCIES = new Set(
  [
    "AED ARS AUD BRL CAD CHF CLP CNY COP CZK DKK EGP EUR GBP HKD HUF IDR ILS INR ISK",
    "JPY KES KRW MAD MXN MYR NGN NOK NZD PEN PHP PLN RON SAR SEK SGD THB TRY TWD UAH",
    "USD UYU VND ZAR",
  ].flatMap((line) => line.split(" ")),
);

export const isCurrency = (symbol: string): boolean => CURRENCIES.has(symbol);

/** One simple unit by its symbol, or undefined. */
export function simpleUnit(symbol: string): Unit | undefined {
  const known = UNITS.get(symbol);
  if (known !== undefined) return known;
  if (isCurrency(symbol))
    return { symbol, dimension: MONEY, factor: 1, zero: 0, family: "both", sense: "amount" };
  return undefined;
}

export interface WrittenUnit {
  readonly text: string;
  readonly apart: boolean;
  readonly by?: "mass" | "volume";
}

/**
 * A unit as written: `g/m2`, `°C`, `°C apart`, `% by mass`. In a unit with a slash every temperature is one
 * apart. Returns the first part that is no unit where it cannot be read.
 */
export function readUnit({ text, apart, by }: WrittenUnit): Unit | { readonly unknown: string } {
  const key = `${text}|${apart}|${by ?? ""}`;
  const kept = READ.get(key);
  if (kept !== undefined) return kept;
  const unit = readUnitAnew(text, apart, by);
  if ("symbol" in unit && READ.size < 2000) READ.set(key, unit);
  return unit;
}

const READ = new Map<string, Unit>();

function readUnitAnew(
  text: string,
  apart: boolean,
  by: "mass" | "volume" | undefined,
): Unit | { readonly unknown: string } {
  const parts = text.split("/");
  if (parts.length === 1) {
    const unit = simpleUnit(text);
    if (unit === undefined) return { unknown: text };
    if (unit.sense === "temperature" && apart)
      return { ...unit, symbol: `${unit.symbol} apart`, zero: 0, sense: "amount" };
    if (unit.sense === "share" && by !== undefined)
      return { ...unit, symbol: `% by ${by}`, sense: by === "mass" ? "share by mass" : "share by volume" };
    return apart || by !== undefined ? { unknown: `${text} ${apart ? "apart" : `by ${by}`}` } : unit;
  }
  let dimension = ONE;
  let factor = 1;
  let family: Family = "both";
  for (const [i, part] of parts.entries()) {
    const unit = simpleUnit(part);
    if (unit === undefined) return { unknown: part };
    dimension = i === 0 ? unit.dimension : over(dimension, unit.dimension);
    factor = i === 0 ? unit.factor : factor / unit.factor;
    if (unit.family !== "both") family = unit.family;
  }
  return { symbol: text, dimension, factor, zero: 0, family, sense: "amount" };
}

export const toSI = (value: number, unit: Unit): number => value * unit.factor + unit.zero;
export const fromSI = (value: number, unit: Unit): number => (value - unit.zero) / unit.factor;

/**
 * A value in one unit as a value in another of the same dimension. The way of a temperature through kelvin
 * leaves an error in the last digits, so it is rounded to 1e-9 of a degree: 32 °F is 0 °C.
 */
export const convertUnit = (value: number, from: Unit, to: Unit): number =>
  from.zero === to.zero
    ? value * (from.factor / to.factor)
    : Number(fromSI(toSI(value, from), to).toFixed(9)) + 0;

/** All simple unit symbols, for completion and near misses. */
export const unitSymbols = (): readonly string[] => [...UNITS.keys()];

/** Units of money of one dimension differ by their code, not by a factor. */
export const currencyOf = (unit: WrittenUnit): string | undefined => unit.text.split("/").find(isCurrency);
