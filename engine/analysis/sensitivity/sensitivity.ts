// What would change a job: for each answer, the nearest other one at which a chosen word, a step, a caution
// or a stop turns. Between the answer and the flip the spans reading shows that nothing turns, so nothing
// nearer was missed.
import type { SensitivityView } from "../../../core/view.ts";
import { MAY_UNKNOWN, NEVER, type Range, bits } from "../../program/intervals/interval-frame.ts";
import type { Evaluation } from "../../program/eval/evaluate.ts";
import { Runner } from "../verify/box.ts";
import { rangesOf, typed } from "../verify/job-boxes.ts";
import { type Ask, type Slice, sliceOf } from "../verify/slice.ts";
import { type Outcome, outcomesOf } from "./outcomes.ts";

const MOST_LOOKS = 400;

export function sensitivityOf(evaluation: Evaluation): readonly SensitivityView[] {
  const { plan } = evaluation;
  const outcomes = outcomesOf(plan);
  const slice = sliceOf(
    plan,
    outcomes.map((one) => one.place),
  );
  const runner = new Runner(plan, slice);
  const now = slice.asks.map((ask) => evaluation.frame.num[ask.place]!);
  const before = read(runner, outcomes, now);
  const flips: SensitivityView[] = [];
  const seen = (i: number, value: number): SensitivityView | undefined => {
    const values = now.map((old, j) => (j === i ? value : old));
    const after = read(runner, outcomes, values);
    return differs(before, after) ? view(slice, outcomes, [[i, value]], now, before, after) : undefined;
  };
  // What is not answered stays open: whatever waits for it waits on.
  const base = rangesOf(evaluation, slice, false).map((range, i) =>
    now[i] === now[i] ? range : { low: range.low, high: range.high, flags: MAY_UNKNOWN | NEVER },
  );
  slice.asks.forEach((ask, i) => {
    if (now[i] !== now[i]) return;
    if (ask.range.words !== undefined) {
      for (const word of bits(ask.range.words)) {
        const flip = word === now[i] ? undefined : seen(i, word);
        if (flip) flips.push(flip);
      }
      return;
    }
    for (const way of [-1, 1] as const) {
      const value = nearestTurn(runner, outcomes, before, base, ask, i, now, way);
      const flip = value === undefined ? undefined : seen(i, value);
      if (flip) flips.push(flip);
    }
  });
  return flips.length > 0 ? flips : pairFlips(runner, outcomes, before, slice, now);
}

const read = (runner: Runner, outcomes: readonly Outcome[], values: readonly number[]): readonly number[] => {
  const { num } = runner.job(values);
  return outcomes.map((one) => num[one.place]!);
};

const differs = (a: readonly number[], b: readonly number[]): boolean =>
  a.some((x, i) => !Object.is(x, b[i]));

/**
 * The nearest typed value on one side at which an outcome turns; undefined where none does to the end of the
 * range.
 */
function nearestTurn(
  runner: Runner,
  outcomes: readonly Outcome[],
  before: readonly number[],
  base: readonly Range[],
  ask: Ask,
  i: number,
  now: readonly number[],
  way: -1 | 1,
): number | undefined {
  const unit = ask.unit?.factor ?? 1;
  const zero = ask.unit?.zero ?? 0;
  const step = ask.resolution / unit;
  // Values that can be typed are counted in steps of the resolution from the unit's zero.
  const first = (now[i]! - zero) / unit / step;
  const start = way > 0 ? Math.floor(first + 1e-6) + 1 : Math.ceil(first - 1e-6) - 1;
  const end =
    way > 0
      ? Math.floor((ask.range.high - zero) / unit / step + 1e-6)
      : Math.ceil((ask.range.low - zero) / unit / step - 1e-6);
  const at = (count: number) => Number((count * step).toPrecision(12)) * unit + zero;
  let looks = 0;
  const settled = (from: number, to: number): boolean => {
    const [low, high] = [Math.min(at(from), at(to)), Math.max(at(from), at(to))];
    const intervals = runner.box({
      ranges: base.map((range, j) => (j === i ? { low, high } : range)),
      relations: new Map(),
    });
    return outcomes.every((one, o) => {
      const value = before[o]!;
      if (value !== value) return (intervals.flags[one.place]! & NEVER) !== 0;
      return (
        intervals.flags[one.place] === 0 &&
        intervals.low[one.place] === value &&
        intervals.high[one.place] === value
      );
    });
  };
  const search = (from: number, to: number): number | undefined => {
    if ((to - from) * way < 0 || looks++ > MOST_LOOKS) return undefined;
    if (from === to)
      return differs(
        before,
        read(
          runner,
          outcomes,
          now.map((old, j) => (j === i ? at(from) : old)),
        ),
      )
        ? at(from)
        : undefined;
    if (settled(from, to)) return undefined;
    const middle = from + way * Math.floor(Math.abs(to - from) / 2);
    return search(from, middle) ?? search(middle + way, to);
  };
  return search(start, end);
}

/**
 * Where no single answer turns anything: the smallest change of two together, tried at the numbers where
 * rules turn.
 */
function pairFlips(
  runner: Runner,
  outcomes: readonly Outcome[],
  before: readonly number[],
  slice: Slice,
  now: readonly number[],
): readonly SensitivityView[] {
  const candidates = slice.asks.map((ask, i) => {
    if (now[i] !== now[i]) return [];
    if (ask.range.words !== undefined)
      return bits(ask.range.words)
        .filter((word) => word !== now[i])
        .map((value) => ({ value, size: 0.5 }));
    const width = ask.range.high - ask.range.low;
    // Each limit is tried once, however many rules turn there.
    return [
      ...new Set(
        [
          ask.range.low,
          ask.range.high,
          ...ask.cuts.flatMap((cut) => [cut - ask.resolution, cut, cut + ask.resolution]),
        ].map((value) => snap(ask, value)),
      ),
    ]
      .filter((value) => value >= ask.range.low && value <= ask.range.high && value !== now[i])
      .map((value) => ({ value, size: Math.abs(value - now[i]!) / width }))
      .sort((a, b) => a.size - b.size)
      .slice(0, 32);
  });
  let best: { size: number; changes: [number, number][] } | undefined;
  let looks = 0;
  for (let i = 0; i < candidates.length; i++)
    for (let j = i + 1; j < candidates.length; j++)
      for (const a of candidates[i]!)
        for (const b of candidates[j]!) {
          if (best !== undefined && a.size + b.size >= best.size) continue;
          if (looks++ > 20_000) break;
          const values = now.map((old, k) => (k === i ? a.value : k === j ? b.value : old));
          if (differs(before, read(runner, outcomes, values)))
            best = {
              size: a.size + b.size,
              changes: [
                [i, a.value],
                [j, b.value],
              ],
            };
        }
  if (best === undefined) return [];
  const values = now.map((old, k) => best.changes.find(([i]) => i === k)?.[1] ?? old);
  return [view(slice, outcomes, best.changes, now, before, read(runner, outcomes, values))];
}

function snap(ask: Ask, value: number): number {
  const unit = ask.unit?.factor ?? 1;
  const zero = ask.unit?.zero ?? 0;
  const step = ask.resolution / unit;
  return Number((Math.round((value - zero) / unit / step) * step).toPrecision(12)) * unit + zero;
}

function view(
  slice: Slice,
  outcomes: readonly Outcome[],
  changed: readonly (readonly [number, number])[],
  now: readonly number[],
  before: readonly number[],
  after: readonly number[],
): SensitivityView {
  const turns = outcomes.flatMap((one, o) => (Object.is(before[o], after[o]) ? [] : [turn(one, after[o]!)]));
  const changes = changed.map(([i, value]) => ({
    ask: slice.asks[i]!.name,
    now: typed(slice.asks[i]!, now[i]!),
    to: typed(slice.asks[i]!, value),
  }));
  const first = [...turns].sort((a, b) => rank(a) - rank(b))[0] ?? "";
  const more = turns.length > 1 ? ` (and ${turns.length - 1} more)` : "";
  return {
    changes,
    turns,
    says: `${first}${more} when ${changes.map((one) => `${one.ask} is ${one.to}`).join(" and ")}: ${changes.map((one) => `it is ${one.now} now`).join(", ")}.`,
  };
}

/** Stops are told first, then chosen words, then steps and cautions. */
const rank = (turned: string): number =>
  turned.startsWith("stop ") ? 0 : turned.includes(" becomes ") ? 1 : 2;

function turn(one: Outcome, value: number): string {
  if (one.what === "value")
    return value === value && one.type.is === "kind"
      ? `${one.name} becomes ${one.type.words[value]}`
      : `${one.name} has no value`;
  const label = one.name === one.id ? one.id : `${one.what} ${one.name}`;
  if (value !== value) return `${label} cannot be told`;
  if (one.what === "stop") return value === 1 ? `${label} holds` : `${label} no longer holds`;
  return value === 1 ? `${label} applies` : `${label} no longer applies`;
}
