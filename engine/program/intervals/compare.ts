// How two places can compare, as numbers, as words and as it was assumed, and whether one lies in a band or a set of words.
import { nearly as nearlyFinite } from "../../../core/number.ts";
import type { K, Op } from "../plan/op.ts";
import { NEVER, type Spans, truth, wordsOf } from "./interval-frame.ts";

/** How one place can stand to another, as bits. */
export const BELOW = 1;
export const NEAR = 2;
export const ABOVE = 4;

/** One number for two places, whichever comes first. */
export const pairKey = (a: number, b: number): number => (a < b ? a * 2 ** 24 + b : b * 2 ** 24 + a);

// Ends may be infinite here, and the tolerance of what is infinite is infinite: an end that is open is near to itself only.
export const nearly = (a: number, b: number): boolean => a === b || (Number.isFinite(a) && Number.isFinite(b) && nearlyFinite(a, b));

const below = (a: number, b: number): boolean => a < b && !nearly(a, b);
const atMost = (a: number, b: number): boolean => a <= b || nearly(a, b);

/** Whether two places are one value, by words where both are words. */
export function sameness(s: Spans, a: number, b: number): "always" | "never" | "open" {
  if (a === b) return "always";
  const [x, y] = [wordsOf(s, a), wordsOf(s, b)];
  if (x !== 0 && y !== 0) {
    if ((x & y) === 0) return "never";
    if (x === y && (x & (x - 1)) === 0) return "always";
    return "open";
  }
  const [lowA, highA, lowB, highB] = [s.low[a]!, s.high[a]!, s.low[b]!, s.high[b]!];
  if (below(highA, lowB) || below(highB, lowA)) return "never";
  return nearly(lowA, highB) && nearly(highA, lowB) ? "always" : "open";
}

/** How the first place can compare with the second: what their spans allow, less what is assumed away. */
export function relation(s: Spans, a: number, b: number): number {
  if (a === b) return NEAR;
  const [lowA, highA, lowB, highB] = [s.low[a]!, s.high[a]!, s.low[b]!, s.high[b]!];
  let can = (below(lowA, highB) ? BELOW : 0) | (below(highA, lowB) || below(highB, lowA) ? 0 : NEAR) | (below(lowB, highA) ? ABOVE : 0);
  if (s.sharper !== undefined && (can & (BELOW | ABOVE)) === (BELOW | ABOVE)) {
    if (s.sharper(a, b)) can &= ~ABOVE;
    else if (s.sharper(b, a)) can &= ~BELOW;
  }
  if (s.relations.size === 0) return can;
  const [one, two] = [s.twins.get(a) ?? a, s.twins.get(b) ?? b];
  const assumed = s.relations.get(pairKey(one, two));
  if (assumed === undefined) return can;
  const turned = one < two ? assumed : (assumed & NEAR) | (assumed & BELOW ? ABOVE : 0) | (assumed & ABOVE ? BELOW : 0);
  const both = can & turned;
  if (both !== 0) return both;
  // Nothing is left: no job with two numbers here. Where one may have no number, the assumption says nothing of it.
  if (s.flags[a] === 0 && s.flags[b] === 0) s.empty = true;
  return can;
}

/** Whether a number lies between its ends. */
export function band(s: Spans, { a, b, c, d, x }: Extract<Op, { k: typeof K.band }>): void {
  const { low, high, flags } = s;
  let can = true;
  let must = true;
  if (b >= 0) {
    can &&= x.lowIn ? atMost(low[b]!, high[a]!) : below(low[b]!, high[a]!);
    must &&= x.lowIn ? atMost(high[b]!, low[a]!) : below(high[b]!, low[a]!);
  }
  if (c >= 0) {
    can &&= x.highIn ? atMost(low[a]!, high[c]!) : below(low[a]!, high[c]!);
    must &&= x.highIn ? atMost(high[a]!, low[c]!) : below(high[a]!, low[c]!);
  }
  // One end alone can say no, whether the other has a value or not.
  truth(s, d, !must, can, flags[a]! | ((b >= 0 ? flags[b]! : 0) | (c >= 0 ? flags[c]! : 0)) & ~NEVER);
}

/** Whether a word is one of a set. */
export function among(s: Spans, { a, d, x }: Extract<Op, { k: typeof K.words }>): void {
  const mask = wordsOf(s, a);
  if (mask === 0) { truth(s, d, true, true, s.flags[a]!); return; }
  let [yes, no] = [false, false];
  for (let word = 0; word < 31; word++) if (mask & (1 << word)) { if (x.words[word] === 1) yes = true; else no = true; }
  truth(s, d, no, yes, s.flags[a]!);
}
