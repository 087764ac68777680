// How a value is written for a person: in the unit that the book gives it, or moved to metric or
// US units. Only the writing changes; nothing here is read back into a rule.
import {
  type Dimension,
  LENGTH,
  AREA,
  MASS,
  TIME,
  VOLUME,
  WARMTH,
  dimensionKey,
  isPlain,
} from "./dimension.ts";
import { nearly, writeNumber } from "./number.ts";
import type { Type } from "./type.ts";
import { type Unit, fromSI, readUnit } from "./unit.ts";
import type { UnitSystem } from "./view.ts";

/**
 * `value` in SI (a word's place for a kind, 0 or 1 for yes-no). Lists, rows and texts have their own ways.
 */
export function writeValue(
  value: number,
  type: Type,
  unit: Unit | undefined,
  system: UnitSystem = "book",
): string {
  switch (type.is) {
    case "yes-no":
      return value ? "yes" : "no";
    case "kind":
      return type.words[value] ?? "?";
    case "taper":
      return `1:${writeNumber(value)}`;
    case "mix":
      return `${writeMix(value)} by ${type.by}`;
    case "count":
      return writeNumber(value);
    case "share":
      return `${writeNumber(value * 100)} %${type.by === "plain" ? "" : ` by ${type.by}`}`;
    case "temperature": {
      const shown = unitFor(unit ?? unitOf("°C"), system, value);
      return `${writeNumber(fromSI(value, shown))} ${shown.symbol}`;
    }
    case "quantity": {
      if (unit === undefined && isPlain(type.dimension)) return writeNumber(value);
      const shown = unitFor(unit ?? usualUnit(type.dimension, value), system, value);
      if (shown.symbol === "") return writeNumber(value);
      if (shown.symbol === "min" && system !== "book" && Math.abs(value) >= 7200) return writeClock(value);
      const number = writeIn(value, shown);
      // The one unit that is a word, and has a plural.
      return `${number} ${shown.symbol === "day" && number !== "1" ? "days" : shown.symbol}`;
    }
    case "list":
    case "row":
    case "kept":
    case "text":
    case "anything":
      return writeNumber(value);
  }
}

/** The unit that `writeValue` ends up with, and the number in it. */
export function shownIn(
  value: number,
  type: Type,
  unit: Unit | undefined,
  system: UnitSystem = "book",
): { readonly value: number; readonly unit: string | null } {
  switch (type.is) {
    case "temperature": {
      const u = unitFor(unit ?? unitOf("°C"), system, value);
      return { value: tidyFloat(fromSI(value, u)), unit: u.symbol };
    }
    case "share":
      return { value: tidyFloat(value * 100), unit: type.by === "plain" ? "%" : `% by ${type.by}` };
    case "quantity": {
      if (unit === undefined && isPlain(type.dimension)) return { value: tidyFloat(value), unit: null };
      const u = unitFor(unit ?? usualUnit(type.dimension, value), system, value);
      return { value: tidyFloat(fromSI(value, u)), unit: u.symbol || null };
    }
    case "count":
    case "taper":
    case "mix":
    case "yes-no":
    case "kind":
    case "text":
    case "list":
    case "row":
    case "kept":
    case "anything":
      return { value: tidyFloat(value), unit: null };
  }
}

/** The unit for a dimension whose rule names none. */
function usualUnit(dimension: Dimension, value = 1): Unit {
  const size = Math.abs(value);
  const known = USUAL.get(dimensionKey(dimension));
  if (known !== undefined) return unitOf(typeof known === "string" ? known : known(size));
  return { symbol: symbolOf(dimension), dimension, factor: 1, zero: 0, family: "both", sense: "amount" };
}

/** A number in a US length reads as a fraction where it is one to a 64th: 3.175 mm is 1/8 inch. */
function writeIn(value: number, unit: Unit): string {
  const x = fromSI(value, unit);
  if (unit.symbol !== "inch" && unit.symbol !== "ft") return writeNumber(x);
  const parts = Math.round(Math.abs(x) * 64);
  if (!nearly(parts / 64, Math.abs(x)) || parts % 64 === 0)
    return unit.symbol === "inch" ? trimmed(x.toFixed(Math.abs(x) >= 10 ? 2 : 3)) : writeNumber(x);
  let [top, bottom] = [parts % 64, 64];
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  const whole = Math.floor(parts / 64);
  return `${x < 0 ? "-" : ""}${whole > 0 ? `${whole} ` : ""}${top}/${bottom}`;
}

function writeMix(ratio: number): string {
  for (let first = 1; first <= 20; first++) {
    const second = ratio * first;
    if (nearly(second, Math.round(second)) && second >= 0.5 && second <= 20)
      return `${first}:${Math.round(second)}`;
  }
  return `100:${writeNumber(ratio * 100)}`;
}

function writeClock(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return minutes % 60 === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

/** The book's unit, or its neighbour of the other family when a person asks for that family. */
export function unitFor(unit: Unit, system: UnitSystem, value: number): Unit {
  if (system === "book" || unit.family === "both" || unit.family === system) return unit;
  const size = Math.abs(value);
  if (unit.symbol.endsWith("apart")) return readApart(system === "us" ? "°F" : "°C");
  if (unit.sense === "temperature") return unitOf(system === "us" ? "°F" : "°C");
  const swap = (system === "us" ? TO_US : TO_METRIC).get(dimensionKey(unit.dimension));
  if (swap === undefined) return unit;
  return unitOf(typeof swap === "string" ? swap : swap(size));
}

type Choice = string | ((size: number) => string);

const key = dimensionKey;
const DENSITY: Dimension = [-3, 1, 0, 0, 0, 0];
const AREAL: Dimension = [-2, 1, 0, 0, 0, 0];
const PRESSURE: Dimension = [-1, 1, -2, 0, 0, 0];

const USUAL = new Map<string, Choice>([
  [key(LENGTH), (s) => (s >= 10 ? "m" : "mm")],
  [key(AREA), (s) => (s >= 0.1 ? "m2" : s >= 1e-4 ? "cm2" : "mm2")],
  [key(VOLUME), (s) => (s >= 1e-2 ? "L" : s >= 1e-7 ? "mL" : "mm3")],
  [key(MASS), (s) => (s >= 10 ? "kg" : "g")],
  [key(TIME), (s) => (s >= 10800 ? "h" : s >= 60 ? "min" : "s")],
  [key(WARMTH), "°C apart"],
  [key(DENSITY), "g/mL"],
  [key(AREAL), "g/m2"],
  [key(PRESSURE), "kPa"],
  [key([0, 0, -1, 0, 0, 0]), "rpm"],
  [key([1, 0, -1, 0, 0, 0]), "m/min"],
  [key([2, 1, -2, 0, -1, 0]), "kJ/mol"],
]);

const TO_US = new Map<string, Choice>([
  [key(LENGTH), (s) => (s >= 3 ? "ft" : "inch")],
  [key(AREA), (s) => (s >= 1 ? "ft2" : "inch2")],
  [key(VOLUME), (s) => (s >= 0.9e-3 ? "quart" : "floz")],
  [key(MASS), (s) => (s >= 0.5 ? "lb" : "oz")],
  [key(AREAL), "oz/yd2"],
  [key(DENSITY), "lb/gal"],
  [key(PRESSURE), "psi"],
  [key([1, 0, -1, 0, 0, 0]), "ft/min"],
]);

const TO_METRIC = new Map<string, Choice>([
  [key(LENGTH), (s) => (s >= 3 ? "m" : "mm")],
  [key(AREA), (s) => (s >= 0.1 ? "m2" : "cm2")],
  [key(VOLUME), (s) => (s >= 1e-3 ? "L" : "mL")],
  [key(MASS), (s) => (s >= 1 ? "kg" : "g")],
  [key(AREAL), "g/m2"],
  [key(DENSITY), "g/mL"],
  [key(PRESSURE), "kPa"],
  [key([1, 0, -1, 0, 0, 0]), "m/min"],
]);

function unitOf(text: string): Unit {
  const apart = text.endsWith(" apart");
  const unit = readUnit({ text: apart ? text.slice(0, -6) : text, apart });
  if (!("symbol" in unit)) throw new Error(`The unit table lacks ${text}.`);
  return unit;
}

const readApart = (text: string): Unit => unitOf(`${text} apart`);

/** For a dimension that nobody named: SI symbols with their powers, money as "money". */
function symbolOf(dimension: Dimension): string {
  const symbols = ["m", "kg", "s", "K", "mol", "money"];
  const up = dimension.flatMap((p, i) => (p > 0 ? [symbols[i]! + (p === 1 ? "" : String(p))] : []));
  const down = dimension.flatMap((p, i) => (p < 0 ? [symbols[i]! + (p === -1 ? "" : String(-p))] : []));
  if (up.length === 0 && down.length === 0) return "";
  return [up.join("·") || "1", ...down].join("/");
}

/** Floating dust is taken off before a number leaves for a record: 0.30000000000000004 is 0.3. */
const tidyFloat = (x: number): number => (Number.isFinite(x) ? Number(x.toPrecision(13)) : x);
const trimmed = (text: string): string => (text.includes(".") ? text.replace(/\.?0+$/, "") : text);
