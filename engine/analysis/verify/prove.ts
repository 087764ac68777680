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
import { type Goal, breaks, openPlaces, placesOf, shownBy } from "./goal.ts";
import { asTyped, plainer, samples, usualJobs } from "./witness.ts";
import { asksOpenByState, openAsks } from "./open-questions.ts";
import { type Lesson, RestsOn, type Sources, covers, hasSource } from "./rests-on.ts";
import { type Ask, type Slice, sliceOf, comparedIn, turnedDials, twinsOf } from "./slice.ts";

export type Verdict =
  | { readonly is: "proved" }
  /** `job`: a value for each ask of the slice, confirmed by the values reading. */
  | { readonly is: "broken"; readonly job: readonly number[] }
  /** `share` of all jobs is open still; `rest` is its largest part. */
  | { readonly is: "open"; readonly share: number; readonly rest: Box };

/** A job as a value for each ask by name. */
export type NamedJob = ReadonlyMap<string, number>;

/** What is known beside a goal. */
interface Around {
  /** Jobs to try first. */
  readonly seeds?: readonly NamedJob[];
  /** Jobs that a break should look like. */
  readonly examples?: readonly NamedJob[];
  /** Operations known not to be impossible by themselves in a job that the goal does not leave out. */
  readonly safe?: Uint8Array | undefined;
  readonly slice?: Slice;
}

/** A box that is not settled yet, and what it is a part of. */
interface Part {
  readonly box: Box;
  readonly size: number;
  readonly whole: Part | undefined;
  /** The source on which it was split, its parts, and how many of them are left. */
  splitOn: number;
  parts: readonly Part[];
  left: number;
  /** What it rests on that it is settled; until then, what its settled parts rest on. */
  rests: Sources;
  settled: boolean;
}

/** Boxes looked at in the order of their size, before one after the other is gone through to its end. */
const BROAD = 40;
/** Then jobs are only tried in every box of so many. */
const OFTEN = 4;
/** Lessons kept: the latest. */
const MOST_LESSONS = 64;

/** A proof that can be gone on with: `advance` looks at so many boxes more. */
export class Proof {
  readonly goal: Goal;
  readonly slice: Slice;
  readonly runner: Runner;
  readonly safe: Uint8Array | undefined;
  looked = 0;
  #settled: Exclude<Verdict, { is: "open" }> | undefined;
  #root: Part;
  /** The next one to look at is the last. */
  readonly #open: Part[] = [];
  readonly #examples: readonly NamedJob[];
  readonly #seeds: (readonly number[])[];
  readonly #tiny: Part[] = [];
  readonly #lessons: Lesson[] = [];
  readonly #pairs: readonly (readonly [number, number])[];
  readonly #restsOn: RestsOn;

  constructor(
    plan: Plan,
    goal: Goal,
    { seeds = [], examples = seeds, safe, slice = sliceOf(plan, placesOf(goal), true) }: Around = {},
  ) {
    this.goal = goal;
    this.slice = slice;
    this.safe = safe;
    this.runner = new Runner(plan, this.slice, goal.want.places, safe);
    const box = wholeBox(this.runner);
    this.#pairs = pairsOf(this.slice, goal.want.places);
    this.#restsOn = new RestsOn(
      this.slice,
      this.#pairs.map(([a, b]) => pairKey(a, b)),
      box.ranges,
      this.runner.box(box),
    );
    this.#root = partOf(box, 1, undefined);
    this.#open.push(this.#root);
    this.#seeds = [...seeds.map((job) => this.#jobOf(job)), ...usualJobs(slice, box)];
    this.#examples = examples;
  }

  get verdict(): Verdict {
    if (this.#settled !== undefined) return this.#settled;
    const left = [...this.#open, ...this.#tiny].filter((part) => !isSettled(part));
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
    return this.#settled !== undefined || this.#open.length === 0;
  }

  /**
   * Looks at up to `boxes` boxes more, at least at one, and at no more once it is late; gives whether it is
   * over.
   */
  advance(boxes: number, late: () => boolean = () => false): boolean {
    if (this.over) return true;
    for (const seed of this.#seeds.splice(0)) if (this.#try(seed)) return true;
    for (let n = 0; n < boxes && (n === 0 || !late()); n++) {
      const next = this.#next();
      if (next === undefined) break;
      this.looked++;
      this.#look(next);
      if (this.over) return true;
    }
    return this.over;
  }

  /** A value for each ask of the slice; a plain one where the job has none. */
  #jobOf(job: NamedJob): readonly number[] {
    return this.slice.asks.map((ask) => job.get(ask.name) ?? plainest(ask, ask.range));
  }

  /** The next part to look at; undefined where none is left. */
  #next(): Part | undefined {
    for (let part = this.#take(); part !== undefined; part = this.#take()) {
      if (isSettled(part)) continue;
      const { box } = part;
      const known = this.#lessons.findLast((lesson) => covers(lesson, box));
      if (known === undefined) return part;
      this.#settle(part, this.#restsOn.sourcesOf(known));
      if (this.#settled !== undefined) return undefined;
    }
    return undefined;
  }

  /**
   * Large parts first as long as a break is likely; then one is gone through to its end, so that what is
   * learned in it serves its neighbours. Now and then the largest, lest a break in it is missed.
   */
  #take(): Part | undefined {
    const open = this.#open;
    if (this.looked >= BROAD && this.looked % 16 !== 0) return open.pop();
    let most = 0;
    for (let i = 1; i < open.length; i++) if (open[i]!.size > open[most]!.size) most = i;
    return open.splice(most, 1)[0];
  }

  /** Notes that the goal holds in a part, and in all that this settles beside it. */
  #settle(part: Part, sources: Sources): void {
    const lesson = this.#restsOn.lesson(part.box, sources);
    this.#lessons.push(lesson);
    if (this.#lessons.length > MOST_LESSONS) this.#lessons.shift();
    part.settled = true;
    part.rests = this.#restsOn.sourcesOf(lesson);
    this.#tellWhole(part);
  }

  /** What is settled in a part, settled for what it is a part of. */
  #tellWhole({ whole, rests }: Part): void {
    if (whole === undefined) this.#settled = { is: "proved" };
    else if (whole.settled) return;
    else if (!hasSource(rests, whole.splitOn)) this.#settle(whole, rests);
    else {
      whole.rests |= rests;
      whole.left--;
      if (whole.left === 0) this.#settle(whole, whole.rests);
    }
  }

  /**
   * Takes over from the proof of the same goal before some dials were turned: what does not rest on those is
   * settled still, and the rest is divided as it was. Nothing where more than dials has changed.
   */
  resume(old: Proof): void {
    const turned = turnedDials(old.slice, this.slice);
    if (turned === undefined || !this.#knowsAll(old) || old.#pairs.join() !== this.#pairs.join()) return;
    const changed = this.#restsOn.ofDials(turned);
    this.#open.length = 0;
    const adopt = (before: Part, whole: Part | undefined): Part => {
      const part = partOf(before.box, before.size, whole);
      if (before.settled && (before.rests & changed) === 0n) {
        part.settled = true;
        part.rests = before.rests;
      } else if (before.parts.length === 0) this.#open.push(part);
      else {
        part.splitOn = before.splitOn;
        part.left = before.parts.length;
        part.parts = before.parts.map((one) => adopt(one, part));
        for (const one of part.parts) if (one.settled) this.#tellWhole(one);
      }
      return part;
    };
    this.#root = adopt(old.#root, undefined);
    if (this.#root.settled) this.#settled = { is: "proved" };
    if (old.#settled?.is === "broken") this.#seeds.unshift(old.#settled.job);
  }

  #look(part: Part): void {
    const { box, size } = part;
    const intervals = this.runner.box(box);
    const shown = shownBy(this.goal, intervals);
    if (shown !== undefined) {
      this.#settle(
        part,
        shown === "empty" ? this.#restsOn.everything(box) : this.#restsOn.of(shown, intervals, box),
      );
      return;
    }
    if (this.looked <= BROAD || this.looked % OFTEN === 0)
      for (const job of samples(this.slice, box)) if (this.#try(job)) return;
    const split = this.#nextSplit(box);
    const pair = split?.own && split.first ? undefined : this.#openPair(box);
    if (pair !== undefined) {
      // Two rules make the same comparison: each way it can come out is looked at by itself.
      const key = pairKey(pair[0], pair[1]);
      this.#split(
        part,
        this.#restsOn.sourceOfPair(key),
        [BELOW, NEAR, ABOVE].map((how) => [
          { ranges: box.ranges, relations: new Map([...box.relations, [key, how]]) },
          size / 3,
        ]),
      );
    } else if (split === undefined) this.#tiny.push(part);
    else
      this.#split(
        part,
        split.at,
        split.parts.map((range) => {
          const next = {
            ranges: box.ranges.map((old, i) => (i === split.at ? range : old)),
            relations: box.relations,
          };
          return [next, (volume(this.slice, next) / volume(this.slice, box)) * size];
        }),
      );
  }

  /** Whether what the other proof took as known is known here. */
  #knowsAll({ safe, slice }: Proof): boolean {
    return safe === undefined || slice.ops.every(({ out }) => safe[out] === 0 || this.safe?.[out] === 1);
  }

  #split(part: Part, on: number, into: readonly (readonly [Box, number])[]): void {
    part.splitOn = on;
    part.left = into.length;
    part.parts = into.map(([box, size]) => partOf(box, size, part));
    this.#open.push(...part.parts);
  }

  /**
   * What to split, and whether the goal rests on it by itself. The asks that it rests on only by way of the
   * stops come last: after the others on which a rule turns. Where a promise surely has a value, whether the
   * job is stopped is asked only if the promise asks.
   */
  #nextSplit(box: Box): (Split & { readonly own: boolean }) | undefined {
    const { spans: intervals } = this.runner;
    const { places, stopped, all } = openPlaces(this.goal, intervals);
    const byState: ReadonlySet<number> = box.ranges.some((range) => statesOf(range) !== undefined)
      ? new Set(asksOpenByState(this.slice, intervals, all))
      : NONE;
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
    this.#settled = {
      is: "broken",
      job: plainer(
        slice,
        found,
        this.#examples.slice(0, 3).map((one) => this.#jobOf(one)),
        breaksBy,
      ),
    };
    return true;
  }
}

const NONE: ReadonlySet<number> = new Set();

const partOf = (box: Box, size: number, whole: Part | undefined): Part => ({
  box,
  size,
  whole,
  splitOn: -1,
  parts: [],
  left: 0,
  rests: 0n,
  settled: false,
});

/** Whether it is settled by itself, or as a part of one that is. */
function isSettled(part: Part): boolean {
  for (let at: Part | undefined = part; at !== undefined; at = at.whole) if (at.settled) return true;
  return false;
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
