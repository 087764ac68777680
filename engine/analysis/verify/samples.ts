// Answers tried by chance, the same ones every time: words at random, numbers mostly where a rule turns, as
// they would be measured.
import { bits } from "../../program/intervals/interval-frame.ts";
import type { Ask } from "./slice.ts";

/** How often a made-up answer is a usual one, where the book says what is usual. */
const MOSTLY = 0.8;

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
  const usual = ask.usual !== undefined && chance() < MOSTLY ? ask.usual : undefined;
  if (ask.range.words !== undefined) {
    const words = usual?.words ?? bits(ask.range.words);
    return words[Math.floor(chance() * words.length)]!;
  }
  const { low, high } = usual ?? ask.range;
  const turns = usual === undefined ? cuts : cuts.filter((cut) => cut >= low && cut <= high);
  const near =
    turns.length > 0 && chance() < nearness
      ? turns[Math.floor(chance() * turns.length)]! + (Math.floor(chance() * 3) - 1) * ask.resolution
      : low + chance() * (high - low);
  const unit = ask.unit?.factor ?? 1;
  const zero = ask.unit?.zero ?? 0;
  const step = ask.resolution / unit;
  const value = Number((Math.round((near - zero) / unit / step) * step).toPrecision(12)) * unit + zero;
  return Math.min(ask.range.high, Math.max(ask.range.low, value));
}
