// What each register can hold for all jobs of a box at once: the smallest and the largest number, which words
// where it holds a word, and whether it can be unknown or impossible at all.
//
// Sound: for any job in the box, the evaluator's number lies in the interval, and the flags allow its state.
// Ends are moved outward by more than an operation's rounding error. Comparisons, rounding and chart rows
// apply the functions of the evaluator to the ends, since those only rise or only fall.
import { CLOSE } from "../../../core/number.ts";
import type { Block, Plan } from "../plan/plan.ts";

/** Flags: what a register can be besides a number. */
export const MAY_UNKNOWN = 1;
export const MAY_IMPOSSIBLE = 2;
/** No number is possible at all. */
export const NEVER = 4;

/** What every register can hold, for the jobs of one box. */
export interface Intervals {
  readonly low: Float64Array;
  readonly high: Float64Array;
  /**
   * Bit i: word i is possible. 0 where the register is not known to hold a word of a kind with at most 31
   * words.
   */
  readonly words: Int32Array;
  readonly flags: Uint8Array;
  /** Rows of a chart that can be picked, by the register of the pick. */
  readonly rows: Map<number, readonly number[]>;
  /** The same for charts whose row may stay open, by the register of the pick. */
  readonly openRows: Map<number, OpenRows>;
  readonly lists: (ListInterval | undefined)[];
  readonly candidateRows: (CandidateInterval | undefined)[];
  /**
   * What is assumed of how two registers compare, by `pairKey`: bits of BELOW, NEAR and ABOVE, the smaller
   * register first.
   */
  relations: ReadonlyMap<number, number>;
  /**
   * Constants of one value in different statements: each to the first of them, so that an assumption made of
   * one holds for all.
   */
  twins: ReadonlyMap<number, number>;
  /**
   * Shows that the first register is at most the second where their intervals alone do not. False says
   * nothing.
   */
  sharper: ((a: number, b: number) => boolean) | undefined;
  /**
   * By register, 1 where it is known that the operation is not impossible by itself while what it reads is
   * not.
   */
  safe: Uint8Array | undefined;
  /** Set when the assumptions cannot all hold: then no job is in the box. */
  empty: boolean;
  work: number;
}

export interface OpenRows {
  /** Rows that can apply only in jobs that leave a condition open. */
  readonly unmet: readonly number[];
  /** Rows that can still apply in every job of the box. */
  readonly always: readonly number[];
}

/** The rows of a list: their number, and by column and row what each value can be. */
export interface ListInterval {
  /** Rows that are there in every job, and in some job. */
  readonly least: number;
  readonly most: number;
  readonly low: readonly Float64Array[];
  readonly high: readonly Float64Array[];
  readonly flags: readonly number[];
}

/** The rows of a chart that keeps every row. */
interface CandidateInterval {
  /** 0 never left, 1 perhaps, 2 always. */
  readonly left: Uint8Array;
  readonly values: Int32Array;
}

/** What one ask can be. `words` for kinds and yes-no, else the ends. */
export interface Range {
  readonly low: number;
  readonly high: number;
  readonly words?: number;
  readonly flags?: number;
}

/** Intervals of which nothing but the constants is known. */
export function newIntervals(plan: Plan): Intervals {
  const size = plan.registers.next + 1;
  const intervals: Intervals = {
    low: new Float64Array(size).fill(-Infinity),
    high: new Float64Array(size).fill(Infinity),
    words: new Int32Array(size),
    flags: new Uint8Array(size).fill(MAY_UNKNOWN | NEVER),
    rows: new Map(),
    openRows: new Map(),
    lists: [],
    candidateRows: [],
    relations: new Map(),
    twins: new Map(),
    sharper: undefined,
    safe: undefined,
    empty: false,
    work: 0,
  };
  for (const block of plan.blocks) setConstants(intervals, block);
  return intervals;
}

function setConstants(intervals: Intervals, block: Block): void {
  for (const { register, value } of block.constants) put(intervals, register, value, value, 0);
  for (const { register } of block.nothing) {
    intervals.low[register] = -Infinity;
    intervals.high[register] = Infinity;
    intervals.flags[register] = MAY_IMPOSSIBLE | NEVER;
  }
}

/** Sets what an ask can be. */
export function putRange(intervals: Intervals, register: number, { low, high, words, flags }: Range): void {
  intervals.low[register] = low;
  intervals.high[register] = high;
  intervals.words[register] = words ?? 0;
  intervals.flags[register] = flags ?? 0;
}

/** Whether a register surely holds one number. */
export const isPoint = (intervals: Intervals, register: number): boolean =>
  intervals.flags[register] === 0 && intervals.low[register] === intervals.high[register];

/** Sets what a register can hold; an end that is no number is open. */
export function put(intervals: Intervals, d: number, low: number, high: number, flags: number): void {
  intervals.low[d] = low === low ? low : -Infinity;
  intervals.high[d] = high === high ? high : Infinity;
  intervals.words[d] = 0;
  intervals.flags[d] = flags;
}

/** Outward by more than one rounding. */
const down = (x: number): number => (Number.isFinite(x) ? x - Math.abs(x) * 2.3e-16 - 5e-324 : x);
const up = (x: number): number => (Number.isFinite(x) ? x + Math.abs(x) * 2.3e-16 + 5e-324 : x);

/**
 * The outcome of one operation on ends: each end a little further out. An end at zero stays there: a sum is
 * only zero where it is exactly that, and so are a product, a quotient and a root that do not underflow.
 */
export const putOutward = (intervals: Intervals, d: number, low: number, high: number, flags: number) =>
  put(intervals, d, low === 0 ? 0 : down(low), high === 0 ? 0 : up(high), flags);

/** Wider, for functions that are only right to a few units in the last place. */
export const wide = (intervals: Intervals, d: number, low: number, high: number, flags: number) =>
  put(intervals, d, low - Math.abs(low) * 2e-15 - 5e-324, high + Math.abs(high) * 2e-15 + 5e-324, flags);

/** A yes-no that can be no, yes, or either. */
export const truth = (intervals: Intervals, d: number, canNo: boolean, canYes: boolean, flags: number) =>
  put(intervals, d, canNo ? 0 : 1, canYes ? 1 : 0, flags);

/** Copies all that another register can hold. */
export function copy(intervals: Intervals, d: number, from: number): void {
  intervals.low[d] = intervals.low[from]!;
  intervals.high[d] = intervals.high[from]!;
  intervals.words[d] = intervals.words[from]!;
  intervals.flags[d] = intervals.flags[from]!;
}

/** What any one of these registers can hold. */
export function union(intervals: Intervals, d: number, registers: readonly number[], flags: number): void {
  let [low, high, words, all, some] = [Infinity, -Infinity, 0, flags, false];
  let worded = true;
  for (const register of registers) {
    all |= intervals.flags[register]! & ~NEVER;
    if (intervals.flags[register]! & NEVER) continue;
    some = true;
    low = Math.min(low, intervals.low[register]!);
    high = Math.max(high, intervals.high[register]!);
    const mask = wordsOf(intervals, register);
    if (mask === 0) worded = false;
    words |= mask;
  }
  if (!some) {
    put(intervals, d, -Infinity, Infinity, all | NEVER);
    return;
  }
  put(intervals, d, low, high, all);
  intervals.words[d] = worded ? words : 0;
}

/** By how much two numbers of this size may differ and still count as one. */
const nearness = (size: number): number => Math.abs(size) * 1.001 * CLOSE;

/** Leaves of a register what is near to what another one holds; nothing where that has no value. */
export function narrowToNear(intervals: Intervals, d: number, to: number): void {
  const never = ((intervals.flags[d]! | intervals.flags[to]!) & NEVER) !== 0;
  const low = Math.max(intervals.low[d]!, intervals.low[to]! - nearness(intervals.low[to]!));
  const high = Math.min(intervals.high[d]!, intervals.high[to]! + nearness(intervals.high[to]!));
  const [mine, other] = [wordsOf(intervals, d), wordsOf(intervals, to)];
  const words = mine !== 0 && other !== 0 ? mine & other : mine;
  if (never || low > high || (mine !== 0 && words === 0)) {
    put(intervals, d, -Infinity, Infinity, intervals.flags[d]! | NEVER);
    return;
  }
  put(intervals, d, low, high, intervals.flags[d]!);
  intervals.words[d] = words;
}

/** Adds to a register what another one holds near to it. */
export function reachNear(intervals: Intervals, d: number, to: number): void {
  const [low, high] = [intervals.low[d]!, intervals.high[d]!];
  const { words } = intervals;
  const from = Math.max(low - nearness(low), intervals.low[to]!);
  const end = Math.min(high + nearness(high), intervals.high[to]!);
  if (from > end) return;
  const kept = words[d]!;
  put(intervals, d, Math.min(low, from), Math.max(high, end), intervals.flags[d]!);
  words[d] = kept;
}

/**
 * Which words a register can hold: as noted, or read from small whole numbers. 0 where it is no word.
 */
export function wordsOf(intervals: Intervals, register: number): number {
  if (intervals.words[register] !== 0) return intervals.words[register]!;
  const [low, high] = [intervals.low[register]!, intervals.high[register]!];
  return low === high && Number.isInteger(low) && low >= 0 && low < 31 ? 1 << low : 0;
}

/** The numbers of the words of a mask, rising. */
export function bits(mask: number): number[] {
  const words: number[] = [];
  for (let rest = mask; rest !== 0; rest &= rest - 1) words.push(31 - Math.clz32(rest & -rest));
  return words;
}
