// Reads and writes numbers as people type them at a panel: `12.5`, `12,5`, `3/8`, `1 3/8`.
import { english } from "../ui/words/words.ts";
import type { Say } from "../ui/words/words.ts";

export type Typed = { readonly value: number; readonly text: string } | { readonly says: string };

/**
 * The number, and the text in which the book's language writes it; or a sentence that says what to type
 * instead.
 */
export function readNumber(typed: string, say: Say = english): Typed {
  const text = typed
    .trim()
    .replace(/\u2212|\u2013/g, "-")
    .replace(/\s*\/\s*/g, "/")
    .replace(/\s+/g, " ");
  if (text === "") return { says: say("typed.first") };
  const whole = /^(-?)(?:(\d+) )?(\d+)\/(\d+)$/.exec(text);
  if (whole) {
    const [, sign, ones = "0", top = "", bottom = ""] = whole;
    if (Number(bottom) === 0) return { says: say("typed.zero-below") };
    const value = Number(ones) + Number(top) / Number(bottom);
    return { value: sign === "-" ? -value : value, text };
  }
  if (/^-?\d{1,3}(,\d{3})+(\.\d+)?$/.test(text)) {
    return {
      says: say("typed.two-ways", { text, whole: text.replaceAll(",", ""), decimal: text.replace(",", ".") }),
    };
  }
  const decimal = text.replace(/^(-?\d*),(\d+)$/, "$1.$2");
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(decimal)) {
    return { says: say("typed.not", { text }) };
  }
  return { value: Number(decimal), text: decimal.replace(/^(-?)\./, "$10.").replace(/\.$/, "") };
}

/** Digits that a person can read back: at most `digits` that count, no trailing zeros. */
export function writeNumber(value: number, digits = 12): string {
  return String(Number(value.toPrecision(digits)));
}

/** A length in inches to the nearest sixteenth: `1 3/8`, `5/16`, `2`. */
export const writeSixteenths = (value: number): string => writeInches(value, 16);

/** A length in inches to the nearest part, `bottom` (a power of two) parts in an inch. */
export function writeInches(value: number, bottom: number): string {
  const parts = Math.round(Math.abs(value) * bottom);
  const sign = value < 0 && parts > 0 ? "-" : "";
  const ones = Math.floor(parts / bottom);
  const part = fractionText(parts % bottom, bottom);
  if (part === "") return `${sign}${ones}`;
  return ones === 0 ? `${sign}${part}` : `${sign}${ones} ${part}`;
}

/** `3/8` for 6 of 16; "" for 0. */
export function fractionText(parts: number, of: number): string {
  if (parts === 0) return "";
  let top = parts;
  let bottom = of;
  while (top % 2 === 0 && bottom > 1) {
    top /= 2;
    bottom /= 2;
  }
  return `${top}/${bottom}`;
}
