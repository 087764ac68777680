// From answers to a box and back: what each ask of a slice is in a job that someone is working.
import { writeValue } from "../../../core/format.ts";
import type { Answers } from "../../../core/view.ts";
import type { Range } from "../../program/intervals/interval-frame.ts";
import type { Evaluation } from "../../program/eval/evaluate.ts";
import type { Ask, Slice } from "./slice.ts";

/**
 * A range for each ask: a point where it is answered, its tolerance around it if given, all of it where it is
 * not.
 */
export function rangesOf(evaluation: Evaluation, slice: Slice, withTolerance: boolean): readonly Range[] {
  return slice.asks.map((ask) => {
    const value = evaluation.frame.num[ask.place]!;
    if (value !== value) return ask.range;
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
 * A value as a technician would type it; with more digits than are shown where they are needed to read the
 * same value again.
 */
export function typed(ask: Ask, value: number): string {
  const shown = writeValue(value, ask.type, ask.unit);
  if (ask.unit === undefined || ask.range.words !== undefined) return shown;
  const number = Number(((value - ask.unit.zero) / ask.unit.factor).toPrecision(12));
  return shown === `${number} ${ask.unit.symbol}` || shown.includes("/")
    ? shown
    : `${number} ${ask.unit.symbol}`;
}

export const answersOf = (slice: Slice, values: readonly number[]): Answers =>
  Object.fromEntries(slice.asks.map((ask, i) => [ask.name, typed(ask, values[i]!)]));
