// From answers to a box and back: what each ask of a slice is in a job that someone is working.
import { writeValue } from "../../../core/format.ts";
import type { Answers } from "../../../core/view.ts";
import { MAY_IMPOSSIBLE, MAY_UNKNOWN, NEVER, type Range } from "../../program/intervals/interval-frame.ts";
import { readAnswer } from "../../program/eval/answer.ts";
import type { Evaluation } from "../../program/eval/evaluate.ts";
import { stateOf } from "../../program/eval/frame.ts";
import { type AnswerRange, CANNOT_TELL } from "./box.ts";
import type { Ask, Slice } from "./slice.ts";

/**
 * A range for each ask: a point where it is answered, its tolerance around it if given. Where it is not
 * answered, `blank` says whether it stays so, or may still be answered.
 */
export function rangesOf(
  evaluation: Evaluation,
  slice: Slice,
  withTolerance: boolean,
  blank: "stays" | "may be answered",
): readonly AnswerRange[] {
  const { frame } = evaluation;
  return slice.asks.map((ask) => {
    if (ask.cannotTell >= 0 && frame.num[ask.cannotTell] === 1) return { ...ask.range, cannotTell: "yes" };
    const value = frame.num[ask.answer]!;
    if (value !== value) {
      if (blank === "may be answered") return { ...ask.range, flags: MAY_UNKNOWN };
      const refused = stateOf(frame, ask.answer) === "impossible";
      return { ...ask.range, flags: (refused ? MAY_IMPOSSIBLE : MAY_UNKNOWN) | NEVER };
    }
    const given = evaluation.given.get(ask.name);
    const slack = withTolerance && given?.is === "value" ? (given.slack ?? 0) : 0;
    return slack > 0
      ? { low: Math.max(ask.range.low, value - slack), high: Math.min(ask.range.high, value + slack) }
      : pointOf(ask, value);
  });
}

const pointOf = (ask: Ask, value: number): Range =>
  ask.range.words !== undefined
    ? { low: value, high: value, words: 1 << value }
    : { low: value, high: value };

/**
 * A value as a technician would type it, nothing where it is left blank; with as many digits as are needed to
 * read the very same value again.
 */
export function typed(ask: Ask, value: number): string {
  if (value === CANNOT_TELL) return "unknown";
  if (value !== value) return "";
  const shown = writeValue(value, ask.type, ask.unit);
  if (ask.range.words !== undefined || ask.type.is === "kind" || ask.type.is === "yes-no") return shown;
  if (readsAs(ask, shown, value)) return shown;
  const { factor, zero, symbol } = ask.unit ?? { factor: 1, zero: 0, symbol: "" };
  const texts = [9, 12, 15, 17].map((digits) => {
    const number = Number(((value - zero) / factor).toPrecision(digits));
    return plainly(number) + (symbol === "" ? "" : ` ${symbol}`);
  });
  return texts.find((text) => readsAs(ask, text, value)) ?? texts[1]!;
}

/** Whether a text is read as this value. */
function readsAs(ask: Ask, text: string, value: number): boolean {
  const given = readAnswer(ask.name, ask.block.entry.checked, text);
  return given?.is === "value" && given.value === value;
}

/** A number without an exponent. */
const plainly = (number: number): string =>
  /e/.test(String(number)) ? number.toFixed(20).replace(/0+$/, "").replace(/\.$/, "") : String(number);

export const answersOf = (slice: Slice, values: readonly number[]): Answers =>
  Object.fromEntries(slice.asks.map((ask, i) => [ask.name, typed(ask, values[i]!)]));
