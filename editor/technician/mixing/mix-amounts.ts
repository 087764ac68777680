// Amounts as a scale, a syringe or a rule shows them: the units that can be typed at the cup, and how an
// amount is written in all of them. Factors are exact by definition (avoirdupois ounce and pound, US fluid
// ounce, inch).

export type Measure = "mass" | "volume" | "length";

interface Shown {
  readonly unit: string;
  readonly measure: Measure /** SI in one of it. */;
  readonly factor: number;
}

const units: readonly Shown[] = [
  { unit: "g", measure: "mass", factor: 1e-3 },
  { unit: "oz", measure: "mass", factor: 0.028349523125 },
  { unit: "mL", measure: "volume", factor: 1e-6 },
  { unit: "floz", measure: "volume", factor: 29.5735295625e-6 },
  { unit: "mm", measure: "length", factor: 1e-3 },
  { unit: "inch", measure: "length", factor: 0.0254 },
];
const others: Readonly<Record<string, Measure>> = {
  kg: "mass",
  mg: "mass",
  t: "mass",
  lb: "mass",
  L: "volume",
  uL: "volume",
  m3: "volume",
  cm3: "volume",
  mm3: "volume",
  ft3: "volume",
  inch3: "volume",
  gal: "volume",
  quart: "volume",
  pint: "volume",
  cup: "volume",
  tbsp: "volume",
  tsp: "volume",
  m: "length",
  cm: "length",
  ft: "length",
  yd: "length",
};

/** What a unit of the book measures, if it is one that can be weighed, poured or laid along a rule. */
export const measureOf = (unit: string): Measure | undefined =>
  units.find((one) => one.unit === unit)?.measure ?? (Object.hasOwn(others, unit) ? others[unit] : undefined);

/** The units in which an amount of these measures can be typed. */
export const unitsOf = (measures: readonly Measure[]): readonly string[] =>
  units.filter((one) => measures.includes(one.measure)).map((one) => one.unit);

/** The SI amount of so many of a unit that `unitsOf` gives. */
export function amountIn(
  value: number,
  unit: string,
): { readonly amount: number; readonly measure: Measure } | undefined {
  const found = units.find((one) => one.unit === unit);
  return found && { amount: value * found.factor, measure: found.measure };
}

/** Written in each unit of its measure: `["1.95 g", "0.0688 oz"]`. */
export const writeAmount = (amount: number, measure: Measure): readonly string[] =>
  units
    .filter((one) => one.measure === measure)
    .map((one) => `${writeFigure(amount / one.factor)} ${one.unit}`);

/** Three digits that count, never more than a thousandth: what a shop's scale can show. */
function writeFigure(value: number): string {
  const size = Math.abs(value);
  const places = size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3;
  return String(Number(value.toFixed(places)));
}

/** Drops of a usual dropper. Twenty to a millilitre is a convention; real droppers differ. */
export const dropsIn = (volume: number): number => Math.round((volume / 1e-6) * 20);
/** Above this, in cubic metres, nobody counts drops. */
export const mostInDrops = 5e-6;
