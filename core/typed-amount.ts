// An amount as people type it (`5' 3 1/2"`, `2 hrs 30`, `80±5 sq ft`), rewritten as the book's language
// writes it. Numbers and units are each read in one place, so every entry reads an amount alike.
import { spelledUnit } from "./spelled-unit.ts";
import { readTypedNumber } from "./typed-number.ts";

export type Rewritten =
  | { readonly is: "text"; readonly text: string }
  /** The whole with a comma read as one of two things. */
  | { readonly is: "two-ways"; readonly whole: string; readonly decimal: string }
  /** What stands where a unit should: no spelling of any. */
  | { readonly is: "no-unit"; readonly number: string; readonly unit: string }
  | { readonly is: "none" };

const NONE: Rewritten = { is: "none" };
const PART =
  /([-+]?(?:(?:\d+[ -])?\d+ ?\/ ?\d+|\d[\d.,]*|[.,]\d+)) ?((?:\p{L}[23](?![\d\p{L}])|[^\d,])*)[ ,]*/uy;
const PLUS_MINUS = / ?(?:±|\+ ?\/ ?-|\+-|plus or minus) ?/;

/** `typed` has its signs plain already. */
export function rewriteAmount(typed: string): Rewritten {
  const sides = typed.split(PLUS_MINUS).map(rewriteSide);
  const odd = sides.find((side) => side.is === "no-unit" || side.is === "none");
  if (odd !== undefined || sides.length > 2) return odd ?? NONE;
  const joined = (of: "whole" | "decimal") =>
    sides
      .map((side) => (side.is === "text" ? side.text : side.is === "two-ways" ? side[of] : ""))
      .join(" ± ");
  return sides.some((side) => side.is === "two-ways")
    ? { is: "two-ways", whole: joined("whole"), decimal: joined("decimal") }
    : { is: "text", text: joined("whole") };
}

/** A part without a unit behind feet or hours is in the smaller one, as long as it is less than a larger. */
const SMALLER: Readonly<Record<string, readonly [unit: string, most: number]>> = {
  ft: ["inch", 12],
  h: ["min", 60],
};

function rewriteSide(typed: string): Rewritten {
  const text = typed.trim();
  const whole: string[] = [];
  const decimal: string[] = [];
  let before: string | undefined;
  PART.lastIndex = 0;
  while (PART.lastIndex < text.length) {
    const [, digits = "", words = ""] = PART.exec(text) ?? [];
    const number = readTypedNumber(digits);
    if (number.is === "none" || number.is === "over-zero") return NONE;
    const unit = words.trim() === "" ? "" : spelledUnit(words);
    if (unit === undefined) return { is: "no-unit", number: digits, unit: words.trim() };
    const [small, most] = (before !== undefined && unit === "" && SMALLER[before]) || ["", 0];
    if (before !== undefined && unit === "" && !(number.is === "number" && number.value < most)) return NONE;
    before = unit;
    const end = unit || small ? ` ${unit || small}` : "";
    whole.push((number.is === "number" ? number.text : number.whole) + end);
    decimal.push((number.is === "number" ? number.text : number.decimal) + end);
  }
  if (whole.length === 0) return NONE;
  return whole.join() === decimal.join()
    ? { is: "text", text: whole.join(" ") }
    : { is: "two-ways", whole: whole.join(" "), decimal: decimal.join(" ") };
}
