// What stands in the fields of a quantity question, and whether it can be given as an answer. A draft is
// never thrown away for a mistake.
import type { AskView } from "../../core/view.ts";
import { convert, unitsFor } from "./other-units.ts";
import { english } from "../ui/words/words.ts";
import type { Say } from "../ui/words/words.ts";
import { readNumber, writeInches, writeNumber } from "./typed-number.ts";
import type { Draft } from "../client/storage/stored-work.ts";

export type QuantityAnswer = Extract<AskView["answer"], { readonly is: "quantity" }>;
export type Judged =
  | { readonly answer: string; readonly value: number | undefined }
  | { readonly says: string; readonly instead?: Draft };

/** What shows that a unit was typed. */
const SIGNS = /\p{L}|[°º%"'′″’”“]/u;
const PLUS_MINUS = /±|\+ ?\/ ?-/;

/**
 * The answer that a draft stands for, as the book's language writes it; or why it cannot be one, with a
 * repair where one is likely.
 */
export function judge(draft: Draft, asked: QuantityAnswer, say: Say = english): Judged {
  const [number = "", around] = draft.number.split(PLUS_MINUS);
  // Both were typed into the one field: `80±5`.
  if (around !== undefined && draft.tolerance === "" && !SIGNS.test(draft.number))
    return judge({ ...draft, number, tolerance: around }, asked, say);
  const tolerance = judgeTolerance(draft, say);
  if ("says" in tolerance) return tolerance;
  if (SIGNS.test(draft.number) || around !== undefined) {
    // The unit was typed as well (`5 ft 3 inch`): the engine reads it as it stands.
    return { answer: draft.number.trim() + tolerance.text, value: undefined };
  }
  const typed = readNumber(draft.number, say);
  if ("says" in typed) return typed;
  const low = leading(asked.low);
  const high = leading(asked.high);
  const inBook = convert(typed.value, draft.unit, asked.unit);
  if (inBook !== undefined && low !== undefined && high !== undefined && !between(inBook, low, high)) {
    return outside(draft, asked, { typed: typed.value, inBook, low, high }, say);
  }
  return { answer: withUnit(typed.text, draft.unit) + tolerance.text, value: inBook };
}

/** A draft to begin with: what was answered before, else empty in `unit`. */
export function draftOf(answer: string | undefined, unit: string): Draft {
  if (answer === undefined || answer === "unknown") return { number: "", unit, tolerance: "" };
  const [main = "", around = ""] = answer.split(/±|\+\/-/);
  const read = /^\s*(-?[\d.,]+(?:\s+\d+\/\d+|\/\d+)?)\s*(\D.*?)?\s*$/u.exec(main);
  if (read === null || /\d/.test((read[2] ?? "").replace(/[a-z]+[23]/g, "")))
    return { number: main.trim(), unit, tolerance: "" };
  return {
    number: read[1] ?? "",
    unit: read[2] ?? unit,
    tolerance: /^\s*([\d.,\s/]*\d)/.exec(around)?.[1]?.trim() ?? "",
  };
}

/**
 * One step up or down by the step that fits the question, of an inch by one of `parts`; an empty field begins
 * at the low end.
 */
export function stepped(draft: Draft, asked: QuantityAnswer, ways: 1 | -1, parts = 16): Draft {
  const by = draft.unit === "inch" ? 1 / parts : stepOf(draft.unit, asked);
  const typed = readNumber(draft.number);
  // Both ends drawn in to whole steps, so that no press leaves the range.
  const low = Math.ceil((convert(leading(asked.low) ?? 0, asked.unit, draft.unit) ?? 0) / by - 1e-9) * by;
  const high = Math.floor((convert(leading(asked.high) ?? 0, asked.unit, draft.unit) ?? 0) / by + 1e-9) * by;
  const steps = "says" in typed ? 0 : typed.value / by;
  const to =
    "says" in typed ? low : (ways === 1 ? Math.floor(steps + 1e-9) + 1 : Math.ceil(steps - 1e-9) - 1) * by;
  const next = Math.min(Math.max(to, low), high);
  return { ...draft, number: draft.unit === "inch" ? writeInches(next, parts) : writeNumber(next, 9) };
}

/**
 * How far one press of the step buttons goes, in `unit`: the resolution asked for, a sixteenth of an inch, or
 * a round hundredth of the range.
 */
export function stepOf(unit: string, asked: QuantityAnswer): number {
  if (unit === "inch") return 1 / 16;
  const resolution = leading(asked.resolution);
  if (unit === asked.unit && resolution !== undefined && resolution > 0) return resolution;
  const low = convert(leading(asked.low) ?? 0, asked.unit, unit) ?? 0;
  const high = convert(leading(asked.high) ?? 100, asked.unit, unit) ?? 100;
  const span = Math.abs(high - low);
  return span > 0 ? Math.min(10 ** Math.round(Math.log10(span / 100)), 100) : 1;
}

/** The number at the start of `0.5 mm` or `0.5`; undefined if there is none. */
export function leading(text: string | undefined): number | undefined {
  const found = /^\s*(-?(?:\d+\s+)?\d+\/\d+|-?\d*\.?\d+)/.exec(text ?? "");
  const typed = found === null ? undefined : readNumber(found[1] ?? "");
  return typed === undefined || "says" in typed ? undefined : typed.value;
}

/** `3.2 mm`; a bare number where there is no unit. */
export const withUnit = (number: string, unit: string): string =>
  unit === "" || unit === "count" ? number : `${number} ${unit}`;

function judgeTolerance(draft: Draft, say: Say): { readonly text: string } | { readonly says: string } {
  if (draft.tolerance.trim() === "") return { text: "" };
  const typed = readNumber(draft.tolerance, say);
  if ("says" in typed) return { says: say("typed.after", { says: typed.says }) };
  if (typed.value < 0) return { says: say("typed.below-zero") };
  return { text: ` ± ${withUnit(typed.text, draft.unit)}` };
}

interface OutOfRange {
  /** As typed, in the unit of the draft. */
  readonly typed: number;
  /** The same in the book's unit, as are the ends of the range. */
  readonly inBook: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Says on which side the value falls outside; offers the same digits in another unit where exactly that falls
 * inside.
 */
function outside(
  draft: Draft,
  asked: QuantityAnswer,
  { typed: value, inBook, low, high }: OutOfRange,
  say: Say,
): Judged {
  const typed = withUnit(writeNumber(value, 6), draft.unit);
  const same = draft.unit === asked.unit ? "" : ` (${withUnit(writeNumber(inBook, 5), asked.unit)})`;
  const fitting = unitsFor(asked.unit).filter((unit) => {
    const other = unit === draft.unit ? undefined : convert(value, unit, asked.unit);
    return other !== undefined && between(other, low, high);
  });
  const unit = fitting.length === 1 ? fitting[0] : undefined;
  return {
    says:
      inBook < low
        ? say("typed.too-small", { typed: typed + same, end: withUnit(writeNumber(low), asked.unit) })
        : say("typed.too-large", { typed: typed + same, end: withUnit(writeNumber(high), asked.unit) }),
    instead: unit === undefined ? undefined : { ...draft, unit },
  };
}

/** Ends included, and forgiving by the relative 1e-9 by which the book's language compares. */
function between(value: number, low: number, high: number): boolean {
  const room = 1e-9 * Math.max(Math.abs(low), Math.abs(high), Math.abs(value));
  return value >= low - room && value <= high + room;
}
