// Numbers as people type them at a panel, with what to say where one cannot be read; and as they are written.
import { readTypedNumber } from "../../core/typed-number.ts";
import { english } from "../ui/words/words.ts";
import type { Say } from "../ui/words/words.ts";

export type Typed = { readonly value: number; readonly text: string } | { readonly says: string };

/**
 * The number, and the text in which the book's language writes it; or a sentence that says what to type
 * instead.
 */
export function readNumber(typed: string, say: Say = english): Typed {
  if (typed.trim() === "") return { says: say("typed.first") };
  const read = readTypedNumber(typed);
  switch (read.is) {
    case "number":
      return { value: read.value, text: read.text };
    case "two-ways":
      return { says: say("typed.two-ways", { ...read, text: typed.trim() }) };
    case "over-zero":
      return { says: say("typed.zero-below") };
    case "none":
      return { says: say("typed.not", { text: typed.trim() }) };
  }
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
