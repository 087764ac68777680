// Which answers a settled box rests on, read backward from what settled it. The box is settled just as well
// with all other answers left free, so what was learned from it serves other boxes too.
import { Opcode, type Op } from "../../program/plan/op.ts";
import {
  MAY_IMPOSSIBLE,
  MAY_UNKNOWN,
  NEVER,
  type Intervals,
  isPoint,
} from "../../program/intervals/interval-frame.ts";
import { pairKey } from "../../program/intervals/compare.ts";
import type { AnswerRange, Box } from "./box.ts";
import { type OpenPlaces, STRICT, asksByRegister, rowsOf } from "./open-questions.ts";
import { type Slice, twinsOf } from "./slice.ts";

/**
 * A set of sources: bit i is ask i of the slice; then come its dials, then the pairs of values assumed to
 * compare so.
 */
export type Sources = bigint;

export const hasSource = (sources: Sources, i: number): boolean => ((sources >> BigInt(i)) & 1n) === 1n;

/** What is learned from a settled box: it holds wherever these answers and assumptions are. */
export interface Lesson {
  readonly asks: readonly (readonly [number, AnswerRange])[];
  readonly relations: readonly (readonly [number, number])[];
  /** The dials that it rests on. */
  readonly dials: Sources;
}

export class RestsOn {
  readonly #slice: Slice;
  readonly #pairs: ReadonlyMap<number, number>;
  readonly #dials: ReadonlyMap<number, number>;
  readonly #allDials: Sources;
  readonly #seen: Uint32Array;
  readonly #seenImpossible: Uint32Array;
  /** By place, 1 where in no job at all it is impossible, and where its number is bounded in all. */
  readonly #neverFails: Uint8Array;
  readonly #finite: Uint8Array;
  readonly #whole: readonly AnswerRange[];
  #turn = 0;

  /**
   * `pairs`: keys of the pairs of values that boxes may be split on; `whole`: what each ask can be at
   * all, and
   * `all` the spans of the box of all that.
   */
  constructor(
    slice: Slice,
    pairs: readonly number[],
    whole: readonly AnswerRange[],
    { low, high, flags }: Intervals,
  ) {
    this.#slice = slice;
    const [asks, dials] = [slice.asks.length, slice.dials.length];
    this.#dials = new Map(slice.dials.map((block, i) => [block.outputs[0]!, asks + i]));
    this.#allDials = ((1n << BigInt(dials)) - 1n) << BigInt(asks);
    this.#pairs = new Map(pairs.map((key, i) => [key, asks + dials + i]));
    this.#seen = new Uint32Array(low.length);
    this.#seenImpossible = new Uint32Array(low.length);
    this.#neverFails = flags.map((one) => ((one & MAY_IMPOSSIBLE) === 0 ? 1 : 0));
    this.#finite = flags.map((_, at) => (Number.isFinite(low[at]!) && Number.isFinite(high[at]!) ? 1 : 0));
    this.#whole = whole;
  }

  sourceOfPair(key: number): number {
    return this.#pairs.get(key)!;
  }

  /** These places of the dials of the slice, as sources. */
  ofDials(turned: readonly number[]): Sources {
    return turned.reduce((all, i) => all | (1n << BigInt(this.#slice.asks.length + i)), 0n);
  }

  /** All that a box says. */
  everything({ relations }: Box): Sources {
    let all = this.#allDials | ((1n << BigInt(this.#slice.asks.length)) - 1n);
    for (const key of relations.keys()) all |= 1n << BigInt(this.sourceOfPair(key));
    return all;
  }

  /** What it rests on that these places are as they are in the box that was run last. */
  of(places: OpenPlaces, intervals: Intervals, { relations }: Box): Sources {
    const { made, parts } = this.#slice.graph;
    const asks = asksByRegister(this.#slice);
    const turn = ++this.#turn;
    let found = 0n;
    const stack: number[] = [];
    const failing: number[] = [];
    for (const [at, what] of places) (what === "any" ? stack : failing).push(at);
    while (stack.length + failing.length > 0) {
      const any = stack.length > 0;
      const at = any ? stack.pop()! : failing.pop()!;
      if (at < 0 || this.#seen[at] === turn) continue;
      if (!any && (this.#seenImpossible[at] === turn || this.#neverFails[at] === 1)) continue;
      if (any) this.#seen[at] = turn;
      else this.#seenImpossible[at] = turn;
      const source = asks.get(at) ?? this.#dials.get(at);
      if (source !== undefined) found |= 1n << BigInt(source);
      const op = source === undefined ? made[at] : undefined;
      if (op === undefined || (!any && this.#pushFailing(op, intervals, stack, failing))) continue;
      for (const part of reasonsOf(op, intervals) ?? parts[at]!) stack.push(part);
      if (relations.size > 0) found |= this.#comparedIn(op, relations);
    }
    return found;
  }

  /** The assumptions that an operation can have used. The rows of a list may compare the same values. */
  #comparedIn({ opcode, in0, in1 }: Op, relations: Box["relations"]): Sources {
    let found = 0n;
    if (opcode === Opcode.aggregate)
      for (const key of relations.keys()) found |= 1n << BigInt(this.sourceOfPair(key));
    if (in0 < 0 || in1 < 0) return found;
    const twins = twinsOf(this.#slice);
    const key = pairKey(twins.get(in0) ?? in0, twins.get(in1) ?? in1);
    return relations.has(key) ? found | (1n << BigInt(this.sourceOfPair(key))) : found;
  }

  /**
   * Adds the parts on which it rests that an operation is not impossible. False where it may be so by itself.
   * In no job of any box does it overflow if it does not in all jobs at once.
   */
  #pushFailing(op: Op, intervals: Intervals, any: number[], failing: number[]): boolean {
    const { in0, in1, in2, out } = op;
    if (STRICT.has(op.opcode) || op.opcode === Opcode.div) {
      if (this.#finite[out] === 0) return false;
      failing.push(in0, in1, in2);
      return true;
    }
    if ((op.opcode === Opcode.and || op.opcode === Opcode.or) && settledBy(op, intervals) === undefined) {
      failing.push(in0, in1);
      return true;
    }
    if (op.opcode === Opcode.rowValue) {
      const all = [...op.payload.values];
      (all.every((at) => this.#neverFails[at] === 1) ? failing : any).push(in0);
      for (const row of rowsOf(intervals, in0)) failing.push(op.payload.values[row]!);
      return true;
    }
    if (op.opcode !== Opcode.select) return false;
    if (isPoint(intervals, in0)) {
      any.push(in0);
      failing.push(intervals.low[in0] === 1 ? in1 : in2);
      return true;
    }
    // An alternative that is left out since the condition is surely something else rests on that.
    if ([in0, in1, in2].some((at) => (intervals.flags[at]! & MAY_IMPOSSIBLE) !== 0)) return false;
    failing.push(in0, in1, in2);
    return true;
  }

  lesson({ ranges, relations }: Box, sources: Sources): Lesson {
    return {
      asks: ranges.flatMap((range, i) =>
        hasSource(sources, i) && !isWithin(this.#whole[i]!, range) ? [[i, range] as const] : [],
      ),
      relations: [...relations].filter(([key]) => hasSource(sources, this.sourceOfPair(key))),
      dials: sources & this.#allDials,
    };
  }

  /** The sources of a lesson. */
  sourcesOf({ asks, relations, dials }: Lesson): Sources {
    let found = dials;
    for (const [i] of asks) found |= 1n << BigInt(i);
    for (const [key] of relations) found |= 1n << BigInt(this.sourceOfPair(key));
    return found;
  }
}

/** Whether all jobs of the box are among those of the lesson. */
export const covers = ({ asks, relations }: Lesson, box: Box): boolean =>
  asks.every(([i, range]) => isWithin(box.ranges[i]!, range)) &&
  relations.every(([key, how]) => box.relations.get(key) === how);

/** Whether all that an ask can be by the first it can be by the second. */
function isWithin(one: AnswerRange, two: AnswerRange): boolean {
  if (two.cannotTell !== "maybe" && one.cannotTell !== two.cannotTell) return false;
  if (one.cannotTell === "yes") return true;
  if (((one.flags ?? 0) & ~(two.flags ?? 0) & MAY_UNKNOWN) !== 0) return false;
  if (((one.flags ?? 0) & NEVER) !== 0) return true;
  if (((two.flags ?? 0) & NEVER) !== 0) return false;
  return one.words !== undefined && two.words !== undefined
    ? (one.words & ~two.words) === 0
    : one.low >= two.low && one.high <= two.high;
}

/**
 * Parts of an operation that its outcome in this box rests on: with them as they are the others may be any.
 * Undefined for all of them.
 */
function reasonsOf(op: Op, intervals: Intervals): readonly number[] | undefined {
  if (op.opcode === Opcode.select && isPoint(intervals, op.in0))
    return [op.in0, intervals.low[op.in0] === 1 ? op.in1 : op.in2];
  if (op.opcode === Opcode.and || op.opcode === Opcode.or) {
    const alone = settledBy(op, intervals);
    return alone === undefined ? undefined : [alone];
  }
  if (op.opcode === Opcode.rowValue)
    return [op.in0, ...rowsOf(intervals, op.in0).map((row) => op.payload.values[row]!)];
  return undefined;
}

/** The part of an `and` or `or` that settles it alone; undefined where none does. */
function settledBy({ opcode, in0, in1 }: Op, intervals: Intervals): number | undefined {
  const settles = opcode === Opcode.or ? 1 : 0;
  return [in0, in1].find((part) => isPoint(intervals, part) && intervals.low[part] === settles);
}
