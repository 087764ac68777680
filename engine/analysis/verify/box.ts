// A box: what each ask of a slice can be. Boxes are run through the spans reading, split, and sampled.
import { nextUp } from "../../../core/number.ts";
import type { Plan } from "../../program/plan/plan.ts";
import { pairKey } from "../../program/intervals/compare.ts";
import { runIntervals } from "../../program/intervals/run.ts";
import {
  MAY_IMPOSSIBLE,
  MAY_UNKNOWN,
  NEVER,
  type Range,
  type Intervals,
  bits,
  newIntervals,
  putRange,
} from "../../program/intervals/interval-frame.ts";
import { type Frame, UNKNOWN, newFrame } from "../../program/eval/frame.ts";
import { runOperations } from "../../program/eval/run-operations.ts";
import { atMostSurely } from "./at-most.ts";
import { asksThatMayBeBlank } from "./open-questions.ts";
import { Rerun } from "./rerun.ts";
import { type Ask, type Slice, comparedIn, isDialAsk, twinsOf } from "./slice.ts";

/** What an ask can be in a box: its flags say whether it may be left blank. */
export interface AnswerRange extends Range {
  /** Whether it is answered "cannot tell"; left out, it is not. */
  readonly cannotTell?: "yes" | "maybe";
}

export interface Box {
  /** One for each ask of the slice, in its order. */
  readonly ranges: readonly AnswerRange[];
  /** What is assumed of how two values compare: a split on a comparison that two rules make. */
  readonly relations: ReadonlyMap<number, number>;
}

/** Every job: also those with asks left blank, or answered "cannot tell", where that matters. */
export function wholeBox(runner: Runner): Box {
  const { slice } = runner;
  const relations = new Map<number, number>();
  const told = runner.box({
    ranges: slice.asks.map((ask) => ({ ...ask.range, flags: MAY_UNKNOWN, cannotTell: "yes" })),
    relations,
  });
  const ranges = slice.asks.map(
    (ask): AnswerRange =>
      ask.cannotTell >= 0 && (onlyBlankIsTaken(ask) || !givesAnAnswer(told, ask))
        ? { ...ask.range, cannotTell: "maybe" }
        : ask.range,
  );
  const blank = asksThatMayBeBlank(slice);
  return {
    // A dial always has a setting.
    ranges: ranges.map((range, i) =>
      blank.has(i) && !isDialAsk(slice.asks[i]!) ? { ...range, flags: MAY_UNKNOWN } : range,
    ),
    relations,
  };
}

const takesForBlank = ({ block }: Ask): boolean => block.entry.checked.ask?.blank !== undefined;

/** "Cannot tell" then stays open, where a blank has a value. */
const onlyBlankIsTaken = (ask: Ask): boolean =>
  takesForBlank(ask) && ask.block.entry.checked.ask?.take === undefined;

/** What is taken for a blank looks at the answer itself, which "cannot tell" leaves open. */
const withoutWhenTold = (range: AnswerRange): Range =>
  range.cannotTell === undefined
    ? range
    : { ...range, flags: (range.flags ?? 0) | MAY_UNKNOWN | (range.cannotTell === "yes" ? NEVER : 0) };

/**
 * Whether what stands in for "cannot tell" is in every job a value that could have been answered, or open.
 */
const givesAnAnswer = ({ low, high, flags }: Intervals, { place, range, type }: Ask): boolean =>
  (flags[place]! & MAY_IMPOSSIBLE) === 0 &&
  ((flags[place]! & NEVER) !== 0 ||
    (type.is !== "count" && low[place]! >= range.low && high[place]! <= range.high));

/** One memory serves all proofs of a plan: a run sets every place that it reads before it reads it. */
const memories = new WeakMap<Plan, Memory>();

interface Memory {
  readonly spans: Intervals;
  readonly frame: Frame;
  /** Whose run the spans are of. */
  user: Runner | undefined;
}

function memoryOf(plan: Plan): Memory {
  const known = memories.get(plan);
  if (known !== undefined) return known;
  const made: Memory = { spans: newIntervals(plan), frame: newFrame(plan), user: undefined };
  memories.set(plan, made);
  return made;
}

/**
 * Runs a slice over boxes and over single jobs. What a run gives is good until the next run of any proof of
 * the plan.
 */
export class Runner {
  readonly spans: Intervals;
  readonly frame: Frame;
  readonly slice: Slice;
  readonly #sharper: Intervals["sharper"];
  readonly #memory: Memory;
  #rerun: Rerun | undefined;
  #last: Box | undefined;

  readonly #safe: Uint8Array | undefined;

  /**
   * `sharp`: places whose own statements' comparisons are worth writing out; `safe`: see `Intervals`.
   */
  constructor(plan: Plan, slice: Slice, sharp: readonly number[] = [], safe?: Uint8Array) {
    this.slice = slice;
    this.#safe = safe;
    this.#memory = memoryOf(plan);
    this.spans = this.#memory.spans;
    this.frame = this.#memory.frame;
    const { made } = slice.graph;
    const pairs = comparedIn(slice, sharp);
    this.#sharper =
      pairs.size === 0
        ? undefined
        : (a, b) => pairs.has(pairKey(a, b)) && atMostSurely(this.spans, made, a, b);
  }

  /** The next run is a whole one. */
  forget(): void {
    this.#last = undefined;
  }

  /** Only what rests on a change is run, where the last run of the plan was of this runner. */
  box(box: Box): Intervals {
    const { spans } = this;
    // Where the assumptions clashed it is not known which operation met the clash.
    const last = this.#memory.user === this && !spans.empty ? this.#last : undefined;
    this.#memory.user = this;
    this.#last = box;
    this.slice.asks.forEach((ask, i) => {
      const range = box.ranges[i]!;
      if (range === last?.ranges[i]) return;
      putRange(spans, ask.answer, takesForBlank(ask) ? withoutWhenTold(range) : range);
      if (ask.cannotTell >= 0)
        putRange(spans, ask.cannotTell, {
          low: range.cannotTell === "yes" ? 1 : 0,
          high: range.cannotTell === undefined ? 0 : 1,
        });
    });
    spans.relations = box.relations;
    spans.twins = twinsOf(this.slice);
    spans.empty = false;
    spans.sharper = this.#sharper;
    spans.safe = this.#safe;
    if (last !== undefined) this.#rerun ??= new Rerun(this.slice);
    runIntervals(last === undefined ? this.slice.ops : this.#rerun!.opsFor(box, last), spans);
    return spans;
  }

  /** Values for one job; `values` in the order of the asks, NaN for none, or CANNOT_TELL. */
  job(values: readonly number[]): Frame {
    this.slice.asks.forEach((ask, i) => {
      const told = values[i] === CANNOT_TELL;
      this.frame.num[ask.answer] = told ? Number.NaN : values[i]!;
      this.frame.state[ask.answer] = UNKNOWN;
      if (ask.cannotTell >= 0) this.frame.num[ask.cannotTell] = told ? 1 : 0;
    });
    this.frame.work = 0;
    runOperations(this.slice.ops, this.frame);
    return this.frame;
  }
}

/** Stands among the values of a job for the answer that one cannot tell. */
export const CANNOT_TELL = Number.POSITIVE_INFINITY;

/** What "blank" and "cannot tell" each count beside all that an ask can be answered. */
const SHARE_OF_STATE = 0.1;

/** How much of all that an ask can be a part of it is, for telling how much is left. */
export function shareOf(ask: Ask, range: AnswerRange): number {
  const flags = range.flags ?? 0;
  const told = range.cannotTell === undefined ? 0 : SHARE_OF_STATE;
  if (range.cannotTell === "yes") return told;
  const blank = (flags & MAY_UNKNOWN) === 0 ? 0 : SHARE_OF_STATE;
  return told + blank + ((flags & NEVER) === 0 ? shareOfRange(ask, range) : 0);
}

function shareOfRange(ask: Ask, range: Range): number {
  if (ask.range.words !== undefined && range.words !== undefined)
    return bits(range.words).length / bits(ask.range.words).length;
  const whole = ask.range.high - ask.range.low;
  return whole > 0 ? Math.max((range.high - range.low) / whole, 1e-12) : 1;
}

export const volume = (slice: Slice, { ranges }: Box): number =>
  slice.asks.reduce((v, ask, i) => v * shareOf(ask, ranges[i]!), 1);

/** There is but one answer in it, or none. */
export const isSingle = (range: AnswerRange): boolean =>
  range.cannotTell === "yes" ||
  ((range.flags ?? 0) & NEVER) !== 0 ||
  (range.words !== undefined
    ? (range.words & (range.words - 1)) === 0
    : range.low === range.high || nextUp(range.low) >= range.high);

/**
 * An ask's answers apart from it being left blank, or apart from "cannot tell"; undefined where it is one.
 */
export function statesOf(range: AnswerRange): readonly AnswerRange[] | undefined {
  if (range.cannotTell === "maybe") {
    const { cannotTell: _, ...other } = range;
    return [other, { ...range, cannotTell: "yes" }];
  }
  if (range.cannotTell === "yes" || range.flags !== MAY_UNKNOWN) return undefined;
  return [
    { ...range, flags: 0 },
    { ...range, flags: MAY_UNKNOWN | NEVER },
  ];
}

/**
 * Two ranges that together are the one given: at a word, at a cut near the middle, else in the middle.
 * Undefined where it is a single value.
 */
export function halves(ask: Ask, range: AnswerRange): readonly AnswerRange[] | undefined {
  if (isSingle(range)) return undefined;
  const [first, second] = halvesOf(ask, range);
  // Jobs without an answer need to be in one of the two only.
  return [{ ...range, ...first }, second];
}

function halvesOf(ask: Ask, range: Range): readonly [Range, Range] {
  if (range.words !== undefined) {
    const words = bits(range.words);
    const mask = (some: readonly number[]): Range => ({
      low: Math.min(...some),
      high: Math.max(...some),
      words: some.reduce((m, word) => m | (1 << word), 0),
    });
    return [mask(words.slice(0, words.length >> 1)), mask(words.slice(words.length >> 1))];
  }
  const middle = (range.low + range.high) / 2;
  // Words of a kind too long for a set are taken by their numbers, which are whole.
  if (ask.type.is === "count" || ask.type.is === "kind") {
    const at = Math.floor(middle);
    return [
      { low: range.low, high: at },
      { low: Math.min(at + 1, range.high), high: range.high },
    ];
  }
  let cut: number | undefined;
  for (const one of ask.cuts)
    if (
      one >= range.low &&
      nextUp(one) <= range.high &&
      (cut === undefined || Math.abs(one - middle) < Math.abs(cut - middle))
    )
      cut = one;
  if (cut !== undefined)
    return [
      { low: range.low, high: cut },
      { low: nextUp(cut), high: range.high },
    ];
  if (!(middle > range.low && middle < range.high))
    return [
      { low: range.low, high: range.low },
      { low: range.high, high: range.high },
    ];
  return [
    { low: range.low, high: middle },
    { low: middle, high: range.high },
  ];
}

const SIZES = [1000, 500, 200, 100, 50, 20, 10, 5, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01];

/** The usual answers in a range of numbers; all of it where none of them is usual. */
export function usualPart({ usual }: Ask, { low, high }: Range): Range {
  if (usual === undefined || usual.low > high || usual.high < low) return { low, high };
  return { low: Math.max(low, usual.low), high: Math.min(high, usual.high) };
}

/**
 * The plainest answer in a range: a usual one where it has any, the roundest that a person would measure,
 * else the middle.
 */
export function plainest(ask: Ask, range: Range): number {
  if (range.words !== undefined) {
    const words = bits(range.words);
    return words.find((word) => ask.usual?.words?.includes(word)) ?? words[0]!;
  }
  const { low, high } = usualPart(ask, range);
  const unit = ask.unit?.factor ?? 1;
  const zero = ask.unit?.zero ?? 0;
  if (ask.type.is === "count" || ask.type.is === "kind") return Math.ceil(low);
  for (const size of SIZES) {
    const step = size * unit;
    const middle = (low + high) / 2 - zero;
    const [least, most] = [Math.ceil((low - zero) / step - 1e-6), Math.floor((high - zero) / step + 1e-6)];
    if (least > most) continue;
    for (const at of [Math.round(middle / step), least, most]) {
      const value = Number((at * size).toPrecision(12)) * unit + zero;
      if (value >= low && value <= high) return value;
    }
  }
  return (low + high) / 2;
}
