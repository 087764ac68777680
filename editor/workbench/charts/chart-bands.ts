// The conditions of a chart's rows as sets: which words a cell takes in, and from where to where a band goes.
// Exact, from the cells as written, with the dials that they name; a cell that is no band gives nothing, and
// then no map is drawn.
import { fromSI, readUnit, toSI } from "../../../core/unit.ts";
import type { Unit } from "../../../core/unit.ts";

/**
 * In the column's unit; `lowIn` and `highIn`: whether the end itself belongs to it. Open ends are infinite.
 */
export interface Band {
  readonly low: number;
  readonly high: number;
  readonly lowIn: boolean;
  readonly highIn: boolean;
}

/**
 * The words that a cell of a kind takes in, of all words of the column; undefined if one is not among them.
 */
export function wordsIn(cell: string, words: readonly string[]): readonly string[] | undefined {
  if (cell.trim() === "any") return words;
  const own = cell.split(",").map((word) => word.trim());
  return own.every((word) => words.includes(word)) ? words.filter((word) => own.includes(word)) : undefined;
}

/** `dial` gives a dial's value in the wanted unit; undefined for a name that is none. */
export function bandIn(
  cell: string,
  unit: string,
  dial: (name: string, unit: string) => number | undefined,
): Band | undefined {
  const text = cell.trim().replace(/\s+/g, " ");
  if (text === "any") return { low: -Infinity, high: Infinity, lowIn: false, highIn: false };
  for (const [form, make] of forms) {
    const found = form.exec(text);
    if (!found) continue;
    const ends = found.slice(1).map((end) => end.trim());
    // A unit may stand once, at the last end.
    const shared = unitAt(ends.at(-1) ?? "");
    const values = ends.map((end) => amountIn(end, shared ?? unit, unit, dial));
    return values.every((value) => value !== undefined) ? make(values as number[]) : undefined;
  }
  return undefined;
}

// The more words a form has, the earlier it is tried: "over A to under B" would also read as "A to B".
const forms: readonly (readonly [RegExp, (ends: readonly number[]) => Band])[] = [
  [/^over (.+) to under (.+)$/, ([low, high]) => ({ low: low!, high: high!, lowIn: false, highIn: false })],
  [/^over (.+) to (.+)$/, ([low, high]) => ({ low: low!, high: high!, lowIn: false, highIn: true })],
  [/^(.+) to under (.+)$/, ([low, high]) => ({ low: low!, high: high!, lowIn: true, highIn: false })],
  [/^up to (.+)$/, ([high]) => ({ low: -Infinity, high: high!, lowIn: false, highIn: true })],
  [/^under (.+)$/, ([high]) => ({ low: -Infinity, high: high!, lowIn: false, highIn: false })],
  [/^over (.+)$/, ([low]) => ({ low: low!, high: Infinity, lowIn: false, highIn: false })],
  [/^(.+) and over$/, ([low]) => ({ low: low!, high: Infinity, lowIn: true, highIn: false })],
  [/^(.+) to (.+)$/, ([low, high]) => ({ low: low!, high: high!, lowIn: true, highIn: true })],
  [/^(.+)$/, ([at]) => ({ low: at!, high: at!, lowIn: true, highIn: true })],
];

const number = /^(-?\d+ \d+\/\d+|-?\d+\/\d+|-?\d+(?:\.\d+)?)(?:\s*([^\d\s/.].*))?$/;

/** A number with or without a unit, or a dial's name, in the wanted unit. A bare number is in `bare`. */
export function amountIn(
  text: string,
  bare: string,
  wanted: string,
  dial: (name: string, unit: string) => number | undefined,
): number | undefined {
  const found = number.exec(text);
  if (!found) return dial(text, wanted);
  return converted(fraction(found[1]!), found[2] ?? bare, wanted);
}

const unitAt = (end: string): string | undefined => number.exec(end)?.[2];

function fraction(text: string): number {
  const [whole, rest] = text.split(" ");
  const part = (one: string): number => {
    const [over, under] = one.split("/").map(Number);
    return under === undefined ? over! : over! / under;
  };
  const first = part(whole!);
  return rest === undefined ? first : first + Math.sign(first || 1) * part(rest);
}

/** To fifteen digits, so that 1 inch and 25.4 mm are one end. */
export function converted(value: number, from: string, to: string): number | undefined {
  if (from === to) return value;
  const [has, wants] = [unitOf(from), unitOf(to)];
  return has === undefined || wants === undefined
    ? undefined
    : Number(fromSI(toSI(value, has), wants).toPrecision(15));
}

function unitOf(text: string): Unit | undefined {
  const by = text.endsWith(" by mass")
    ? ("mass" as const)
    : text.endsWith(" by volume")
      ? ("volume" as const)
      : undefined;
  const unit = readUnit({ text: text.split(" ")[0] ?? "", apart: text.endsWith(" apart"), by });
  return "symbol" in unit ? unit : undefined;
}
