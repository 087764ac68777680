// Sensitivity: for each answer of a job, the nearest other answer at which a chosen word, a step, a caution
// or a stop changes. The intervals show that nothing changes between the two, so nothing nearer was missed.
import type { Turn } from "../../../core/reason.ts";
import { turnText } from "../../../core/reason-words.ts";
import type { SensitivityView } from "../../../core/view.ts";
import { NEVER, type Range, bits } from "../../program/intervals/interval-frame.ts";
import type { Evaluation } from "../../program/eval/evaluate.ts";
import { Runner } from "../verify/box.ts";
import { rangesOf, typed } from "../verify/job-boxes.ts";
import { type Ask, type Slice, sliceOf } from "../verify/slice.ts";
import { type Outcome, lineOf, outcomesOf } from "./outcomes.ts";

/** Ranges looked at for one answer, and pairs of answers tried. */
const MOST_LOOKS = 400;
const MOST_PAIRS = 20_000;

/** The job and what it is compared by. */
interface Search {
  readonly runner: Runner;
  readonly slice: Slice;
  readonly outcomes: readonly Outcome[];
  /** The job's answers, in the order of the slice's asks; NaN where there is none. */
  readonly now: readonly number[];
  /** Each outcome in the job as it is. */
  readonly before: readonly number[];
  /** What every ask can be while another one is changed. */
  readonly base: readonly Range[];
}

type Change = readonly [ask: number, value: number];

function searchOf(evaluation: Evaluation): Search {
  const { plan } = evaluation;
  const outcomes = outcomesOf(plan);
  const slice = sliceOf(
    plan,
    outcomes.map((one) => one.place),
  );
  const runner = new Runner(plan, slice);
  const now = slice.asks.map((ask) => evaluation.frame.num[ask.place]!);
  // What is not answered stays open: whatever waits for it goes on waiting.
  const base = rangesOf(evaluation, slice, false, "stays");
  return { runner, slice, outcomes, now, before: read(runner, outcomes, now), base };
}

/**
 * The nearest value of an answered ask to each side at which an outcome changes, in SI: the limit itself
 * where a rule names it.
 */
export function nearestTurns(evaluation: Evaluation, ask: string): readonly number[] {
  const search = searchOf(evaluation);
  const at = search.slice.asks.findIndex((one) => one.name === ask);
  if (at < 0 || search.slice.asks[at]!.range.words !== undefined) return [];
  const { cuts, resolution, unit } = search.slice.asks[at]!;
  const { factor, zero } = unit ?? { factor: 1, zero: 0 };
  // The end of a comparison lies a billionth beside the limit that is written.
  const written = (cut: number): number => Number(((cut - zero) / factor).toPrecision(8)) * factor + zero;
  const limitAt = (value: number): number =>
    cuts.map(written).find((cut) => Math.abs(cut - value) <= resolution * (1 + 1e-6)) ?? value;
  return ([-1, 1] as const).flatMap((way) => {
    const value = nearestChange(search, at, way);
    return value === undefined ? [] : [limitAt(value)];
  });
}

export function sensitivityOf(evaluation: Evaluation): readonly SensitivityView[] {
  const search = searchOf(evaluation);
  const { slice, now } = search;
  const found: SensitivityView[] = [];
  const note = (change: Change) => {
    const after = withChanges(search, [change]);
    if (differs(search.before, after)) found.push(view(search, [change], after));
  };
  slice.asks.forEach((ask, i) => {
    if (now[i] !== now[i]) return;
    if (ask.range.words !== undefined) {
      for (const word of bits(ask.range.words)) if (word !== now[i]) note([i, word]);
      return;
    }
    for (const way of [-1, 1] as const) {
      const value = nearestChange(search, i, way);
      if (value !== undefined) note([i, value]);
    }
  });
  return found.length > 0 ? found : pairChanges(search);
}

const read = (runner: Runner, outcomes: readonly Outcome[], values: readonly number[]): readonly number[] => {
  const { num } = runner.job(values);
  return outcomes.map((one) => num[one.place]!);
};

/** The outcomes of the job with some answers changed. */
const withChanges = ({ runner, outcomes, now }: Search, changes: readonly Change[]): readonly number[] =>
  read(
    runner,
    outcomes,
    now.map((old, i) => changes.find(([at]) => at === i)?.[1] ?? old),
  );

const differs = (a: readonly number[], b: readonly number[]): boolean =>
  a.some((x, i) => !Object.is(x, b[i]));

/** No outcome changes while one answer runs over a range. */
function unchangedOver({ runner, outcomes, before, base }: Search, i: number, over: Range): boolean {
  const intervals = runner.box({
    ranges: base.map((range, j) => (j === i ? over : range)),
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
}

/**
 * The nearest value on one side, on the ask's resolution, at which an outcome changes; undefined where none
 * does to the end of the range.
 */
function nearestChange(search: Search, i: number, way: -1 | 1): number | undefined {
  const ask = search.slice.asks[i]!;
  const unit = ask.unit?.factor ?? 1;
  const zero = ask.unit?.zero ?? 0;
  const step = ask.resolution / unit;
  // Values that can be typed are counted in steps of the resolution from the unit's zero.
  const first = (search.now[i]! - zero) / unit / step;
  const start = way > 0 ? Math.floor(first + 1e-6) + 1 : Math.ceil(first - 1e-6) - 1;
  const end =
    way > 0
      ? Math.floor((ask.range.high - zero) / unit / step + 1e-6)
      : Math.ceil((ask.range.low - zero) / unit / step - 1e-6);
  const at = (count: number) => Number((count * step).toPrecision(12)) * unit + zero;
  let looks = 0;
  const between = (from: number, to: number): number | undefined => {
    if ((to - from) * way < 0 || looks++ > MOST_LOOKS) return undefined;
    if (from === to)
      return differs(search.before, withChanges(search, [[i, at(from)]])) ? at(from) : undefined;
    const over = { low: Math.min(at(from), at(to)), high: Math.max(at(from), at(to)) };
    if (unchangedOver(search, i, over)) return undefined;
    const middle = from + way * Math.floor(Math.abs(to - from) / 2);
    return between(from, middle) ?? between(middle + way, to);
  };
  return between(start, end);
}

interface Candidate {
  readonly value: number;
  /** How large the change is: a share of the ask's range, or a half for a word. */
  readonly size: number;
}

/** Other answers to try for one ask, the smallest change first: words, or numbers where rules change. */
function candidatesFor(ask: Ask, now: number): readonly Candidate[] {
  if (now !== now) return [];
  if (ask.range.words !== undefined)
    return bits(ask.range.words)
      .filter((word) => word !== now)
      .map((value) => ({ value, size: 0.5 }));
  const { low, high } = ask.range;
  // Each limit is tried once, however many rules turn there.
  const values = new Set(
    [low, high, ...ask.cuts.flatMap((cut) => [cut - ask.resolution, cut, cut + ask.resolution])].map(
      (value) => snap(ask, value),
    ),
  );
  return [...values]
    .filter((value) => value >= low && value <= high && value !== now)
    .map((value) => ({ value, size: Math.abs(value - now) / (high - low) }))
    .sort((a, b) => a.size - b.size)
    .slice(0, 32);
}

/** Where no single answer changes anything: the smallest change of two answers together that does. */
function pairChanges(search: Search): readonly SensitivityView[] {
  const candidates = search.slice.asks.map((ask, i) => candidatesFor(ask, search.now[i]!));
  let best: { readonly size: number; readonly changes: readonly Change[] } | undefined;
  let looks = 0;
  for (let i = 0; i < candidates.length; i++)
    for (let j = i + 1; j < candidates.length; j++)
      for (const a of candidates[i]!)
        for (const b of candidates[j]!) {
          const size = a.size + b.size;
          if (best !== undefined && size >= best.size) continue;
          if (looks++ > MOST_PAIRS) break;
          const changes: readonly Change[] = [
            [i, a.value],
            [j, b.value],
          ];
          if (differs(search.before, withChanges(search, changes))) best = { size, changes };
        }
  return best === undefined ? [] : [view(search, best.changes, withChanges(search, best.changes))];
}

function snap(ask: Ask, value: number): number {
  const unit = ask.unit?.factor ?? 1;
  const zero = ask.unit?.zero ?? 0;
  const step = ask.resolution / unit;
  return Number((Math.round((value - zero) / unit / step) * step).toPrecision(12)) * unit + zero;
}

function view(
  { slice, outcomes, now, before }: Search,
  changed: readonly Change[],
  after: readonly number[],
): SensitivityView {
  const turned = outcomes.flatMap((one, o) =>
    Object.is(before[o], after[o]) ? [] : [turnOf(one, after[o]!)],
  );
  const changes = changed.map(([i, value]) => ({
    ask: slice.asks[i]!.name,
    now: typed(slice.asks[i]!, now[i]!),
    to: typed(slice.asks[i]!, value),
  }));
  const first = [...turned].sort((a, b) => rank(a) - rank(b))[0]!;
  const more = turned.length > 1 ? ` (and ${turned.length - 1} more)` : "";
  const when = changes.map((one) => `${one.ask} is ${one.to}`).join(" and ");
  const today = changes.map((one) => `it is ${one.now} now`).join(", ");
  const says = `${turnText(first)}${more} when ${when}: ${today}.`;
  return { changes, turns: turned.map(turnText), turned, first, says };
}

/** Stops come first, then chosen words, then steps and cautions. */
const rank = (turn: Turn): number =>
  "line" in turn && turn.line.what === "stop" ? 0 : turn.code === "becomes" ? 1 : 2;

function turnOf(one: Outcome, value: number): Turn {
  if (one.what === "value")
    return value === value && one.type.is === "kind"
      ? { code: "becomes", name: one.name, word: one.type.words[value]! }
      : { code: "has-no-value", name: one.name };
  const line = lineOf(one);
  if (value !== value) return { code: "cannot-be-told", line };
  if (one.what === "stop") return { code: value === 1 ? "holds" : "no-longer-holds", line };
  return { code: value === 1 ? "applies" : "no-longer-applies", line };
}
