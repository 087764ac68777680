// Answers tried by chance, the same ones every time: words at random, numbers mostly where a rule turns, as
// they would be measured.
import { bits } from "../../program/intervals/interval-frame.ts";
import type { Ask } from "./slice.ts";

/**
 * A value for an ask, in SI: with chance `nearness` at or one step beside one of `cuts`, else anywhere in its
 * range; on its resolution.
 */
export function sampleValue(
  ask: Ask,
  cuts: readonly number[],
  nearness: number,
  chance: () => number,
): number {
  if (ask.range.words !== undefined) {
    const words = bits(ask.range.words);
    return words[Math.floor(chance() * words.length)]!;
  }
  const near =
    cuts.length > 0 && chance() < nearness
      ? cuts[Math.floor(chance() * cuts.length)]! + (Math.floor(chance() * 3) - 1) * ask.resolution
      : ask.range.low + chance() * (ask.range.high - ask.range.low);
  const unit = ask.unit?.factor ?? 1;
  const zero = ask.unit?.zero ?? 0;
  const step = ask.resolution / unit;
  const value = Number((Math.round((near - zero) / unit / step) * step).toPrecision(12)) * unit + zero;
  return Math.min(ask.range.high, Math.max(ask.range.low, value));
}
