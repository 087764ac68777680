// Branch and prune: a box of jobs is settled when the spans reading shows that the goal holds for all of it,
// or when a job in it really breaks the goal; else it is split, first on words, then at the numbers where the
// plan itself turns, then in the middle, and the largest part is looked at next.
import type { Plan } from "../../program/plan/plan.ts";
import { Opcode } from "../../program/plan/op.ts";
import { ABOVE, BELOW, NEAR, pairKey, relation } from "../../program/intervals/compare.ts";
import {
  type AnswerRange,
  type Box,
  Runner,
  halves,
  isSingle,
  plainest,
  shareOf,
  statesOf,
  volume,
  wholeBox,
} from "./box.ts";
import { type Goal, breaks, holdsFor, placesOf } from "./goal.ts";
import { asTyped, plainer, samples, usualJobs } from "./witness.ts";
import { asksOpenByState, openAsks } from "./open-questions.ts";
import { type Ask, type Slice, sliceOf, comparedIn, twinsOf } from "./slice.ts";

export type Verdict =
  | { readonly is: "proved" }
  /** `job`: a value for each ask of the slice, confirmed by the values reading. */
  | { readonly is: "broken"; readonly job: readonly number[] }
  /** `share` of all jobs is open still; `rest` is its largest part. */
  | { readonly is: "open"; readonly share: number; readonly rest: Box };

/** A proof that can be gone on with: `advance` looks at so many boxes more. */
export class Proof {
  readonly goal: Goal;
  readonly slice: Slice;
  readonly runner: Runner;
  looked = 0;
  #settled: Exclude<Verdict, { is: "open" }> | undefined;
  #heap: { box: Box; size: number }[] = [];
  readonly #examples: readonly (readonly number[])[];
  #seeds: readonly (readonly number[])[];
  #tiny: { box: Box; size: number }[] = [];
  readonly #pairs: readonly (readonly [number, number])[];

  /** `examples`: jobs to try first, as a value for each ask by name. */
  constructor(plan: Plan, goal: Goal, examples: readonly ReadonlyMap<string, number>[] = []) {
    this.goal = goal;
    this.slice = sliceOf(plan, placesOf(goal), true);
    this.runner = new Runner(plan, this.slice, goal.want.places);
    const whole = wholeBox(this.runner);
    this.#pairs = pairsOf(this.slice, goal.want.places);
    this.#heap.push({ box: whole, size: 1 });
    this.#examples = examples.map((example) =>
      this.slice.asks.map((ask, i) => example.get(ask.name) ?? plainest(ask, whole.ranges[i]!)),
    );
    this.#seeds = [...this.#examples, ...usualJobs(this.slice, whole)];
  }

  get verdict(): Verdict {
    if (this.#settled !== undefined) return this.#settled;
    const left = [...this.#heap, ...this.#tiny];
    return {
      is: "open",
      share: Math.min(
        1,
        left.reduce((sum, one) => sum + one.size, 0),
      ),
      rest: left.reduce((a, b) => (a.size >= b.size ? a : b)).box,
    };
  }

  /** Nothing is left to look at: settled, or what is left is too small to be split. */
  get over(): boolean {
    return this.#settled !== undefined || this.#heap.length === 0;
  }

  /**
   * Looks at up to `boxes` boxes more, at least at one, and at no more once it is late; gives whether it is
   * over.
   */
  advance(boxes: number, late: () => boolean = () => false): boolean {
    if (this.over) return true;
    for (const seed of this.#seeds) if (this.#try(seed)) return true;
    this.#seeds = [];
    for (let n = 0; n < boxes && (n === 0 || !late()); n++) {
      const top = this.#pop();
      if (top === undefined) break;
      this.looked++;
      if (this.#settle(top.box, top.size)) return true;
    }
    if (this.#heap.length === 0 && this.#tiny.length === 0) this.#settled = { is: "proved" };
    return this.over;
  }

  /** True when the whole proof is settled by this box: it holds a job that breaks the goal. */
  #settle(box: Box, size: number): boolean {
    const intervals = this.runner.box(box);
    if (holdsFor(this.goal, intervals)) return false;
    for (const job of samples(this.slice, box)) if (this.#try(job)) return true;
    this.runner.box(box);
    const split = this.#nextSplit(box);
    if (split === undefined || !(split.own && split.first)) {
      const pair = this.#openPair(box);
      if (pair !== undefined) {
        // Two rules make the same comparison: each way it can come out is looked at by itself.
        for (const how of [BELOW, NEAR, ABOVE])
          this.#push({
            box: {
              ranges: box.ranges,
              relations: new Map([...box.relations, [pairKey(pair[0], pair[1]), how]]),
            },
            size: size / 3,
          });
        return false;
      }
    }
    if (split === undefined) {
      this.#tiny.push({ box, size });
      return false;
    }
    const { at } = split;
    for (const part of split.parts) {
      const next = {
        ranges: box.ranges.map((range, i) => (i === at ? part : range)),
        relations: box.relations,
      };
      this.#push({ box: next, size: (volume(this.slice, next) / volume(this.slice, box)) * size });
    }
    return false;
  }

  /**
   * What to split, and whether the goal rests on it by itself. The asks that it rests on only by way of the
   * stops come last: after the others on which a rule turns. Where a promise surely has a value, whether the
   * job is stopped is asked only if the promise asks.
   */
  #nextSplit(box: Box): (Split & { readonly own: boolean }) | undefined {
    const { spans: intervals } = this.runner;
    const { want, unless, guards } = this.goal;
    const [first, second] = want.places as readonly [number, number];
    const kept = want.is === "kept";
    const stopped = kept ? second : unless;
    const places = kept ? [first] : [...guards, ...want.places];
    const all = kept && intervals.flags[first] === 0 ? places : placesOf(this.goal);
    const byState = new Set(asksOpenByState(this.slice, intervals, all));
    const own = openAsks(this.slice, intervals, places, stopped < 0 ? [] : [stopped]).filter(
      (i) => statesOf(box.ranges[i]!) !== undefined || turnsIn(this.slice.asks[i]!, box.ranges[i]!),
    );
    const split = chooseSplit(this.slice, box, own, byState);
    if (split !== undefined) return { ...split, own: true };
    const other = chooseSplit(this.slice, box, openAsks(this.slice, intervals, all), byState);
    return other && { ...other, own: false };
  }

  #openPair(box: Box): readonly [number, number] | undefined {
    const { spans: intervals } = this.runner;
    return this.#pairs.find(
      ([a, b]) =>
        !box.relations.has(pairKey(a, b)) &&
        (intervals.flags[a]! | intervals.flags[b]!) === 0 &&
        ![BELOW, NEAR, ABOVE].includes(relation(intervals, a, b)),
    );
  }

  #try(job: readonly number[]): boolean {
    if (!breaks(this.goal, this.runner.job(job))) return false;
    const { slice } = this;
    const breaksBy = (values: readonly number[]) => breaks(this.goal, this.runner.job(values));
    const found = asTyped(slice, job).find(breaksBy);
    // What only an answer shows that nobody can type is looked for elsewhere.
    if (found === undefined) return false;
    this.#settled = { is: "broken", job: plainer(slice, found, this.#examples, breaksBy) };
    return true;
  }

  #push(one: { box: Box; size: number }): void {
    const heap = this.#heap;
    let i = heap.push(one) - 1;
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (heap[parent]!.size >= heap[i]!.size) break;
      [heap[parent], heap[i]] = [heap[i]!, heap[parent]!];
      i = parent;
    }
  }

  #pop(): { box: Box; size: number } | undefined {
    const heap = this.#heap;
    const top = heap[0];
    const last = heap.pop();
    if (top === undefined || last === undefined || heap.length === 0) return top;
    heap[0] = last;
    for (let i = 0; ; ) {
      const [left, right] = [2 * i + 1, 2 * i + 2];
      let most = i;
      if (left < heap.length && heap[left]!.size > heap[most]!.size) most = left;
      if (right < heap.length && heap[right]!.size > heap[most]!.size) most = right;
      if (most === i) break;
      [heap[most], heap[i]] = [heap[i]!, heap[most]!];
      i = most;
    }
    return top;
  }
}

/**
 * Pairs of values that the slice compares in two places or more; with a constant only those that the goal
 * itself compares.
 */
function pairsOf(slice: Slice, own: readonly number[]): readonly (readonly [number, number])[] {
  const constants = twinsOf(slice);
  const asks = new Set(slice.asks.map((ask) => ask.place));
  const goal = new Set([...comparedIn(slice, own)]);
  const counts = new Map<
    number,
    { readonly pair: readonly [number, number]; readonly count: number; readonly wanted: boolean }
  >();
  for (const op of slice.ops) {
    if (
      op.opcode !== Opcode.lt &&
      op.opcode !== Opcode.le &&
      op.opcode !== Opcode.eq &&
      op.opcode !== Opcode.ne
    )
      continue;
    const [a, b] = [constants.get(op.in0) ?? op.in0, constants.get(op.in1) ?? op.in1];
    const fixed = constants.has(a) || constants.has(b);
    // An answer beside a constant is split at that number anyway.
    if (fixed && (op.opcode === Opcode.eq || op.opcode === Opcode.ne || asks.has(a) || asks.has(b))) continue;
    const key = pairKey(a, b);
    const old = counts.get(key);
    counts.set(key, {
      pair: [a, b],
      count: (old?.count ?? 0) + 1,
      wanted: !fixed || (old?.wanted ?? false) || goal.has(pairKey(op.in0, op.in1)),
    });
  }
  return [...counts.values()].filter((one) => one.count > 1 && one.wanted).map((one) => one.pair);
}

/** A rule turns on the ask within the range: on its word, or at a number. */
const turnsIn = (ask: Ask, range: AnswerRange): boolean =>
  !isSingle(range) &&
  (range.words !== undefined || ask.cuts.some((cut) => cut >= range.low && cut < range.high));

interface Split {
  readonly at: number;
  readonly parts: readonly AnswerRange[];
  /** Whether it comes before a split on how two values compare. */
  readonly first: boolean;
}

/**
 * Which ask to split, and how: its words, then whether it is answered, first where that matters by itself,
 * then one at whose cuts rules turn, then the widest. Below a millionth of its resolution an
 * ask is left alone.
 */
function chooseSplit(
  slice: Slice,
  box: Box,
  open: readonly number[],
  byState: ReadonlySet<number>,
): Split | undefined {
  let best: { readonly at: number; readonly state: boolean; readonly rank: number } | undefined;
  const offer = (at: number, state: boolean, rank: number) => {
    if (best === undefined || rank > best.rank) best = { at, state, rank };
  };
  for (const i of open) {
    const ask = slice.asks[i]!;
    const range = box.ranges[i]!;
    if (statesOf(range) !== undefined) offer(i, true, byState.has(i) ? 1e5 : 1e4);
    if (isSingle(range)) continue;
    const words = range.words !== undefined;
    const hasCut = !words && turnsIn(ask, range);
    if (!words && !hasCut && range.high - range.low < ask.resolution * 1e-6) continue;
    offer(i, false, (words ? 1e6 : hasCut ? 1e3 : 0) + shareOf(ask, range));
  }
  if (best === undefined) return undefined;
  const range = box.ranges[best.at]!;
  const parts = best.state ? statesOf(range) : halves(slice.asks[best.at]!, range);
  return parts && { at: best.at, parts, first: best.rank >= 1e4 };
}
