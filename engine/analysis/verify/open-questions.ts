// Which asks an unsettled outcome really turns on, read backward from it through operations that are not
// settled themselves. What a settled condition leaves out is left out: that is a proof that it does not
// matter.
import { Opcode, type Op } from "../../program/plan/op.ts";
import { MAY_IMPOSSIBLE, type Intervals, isPoint } from "../../program/intervals/interval-frame.ts";
import type { Slice } from "../verify/slice.ts";

/** What about a place is open: any of it, or only whether it can be impossible. */
export type Open = "any" | "impossible";

/** Places that are open, each with what about it is. */
export type OpenPlaces = readonly (readonly [number, Open])[];

/**
 * Places in `slice.asks` of the asks that can still change any of `places`; what lies behind `past` is left
 * out.
 */
export function openAsks(
  slice: Slice,
  intervals: Intervals,
  places: OpenPlaces,
  past: readonly number[] = [],
): readonly number[] {
  return walk(slice, intervals, places, past).asks;
}

/**
 * The same for asks of which it matters whether they are answered: those behind an "is known", or behind the
 * rows that a chart keeps. Elsewhere a missing answer only leaves things unknown.
 */
export function asksOpenByState(slice: Slice, intervals: Intervals, places: OpenPlaces): readonly number[] {
  const { byState } = walk(slice, intervals, places, []);
  return byState.length === 0 ? [] : walk(slice, intervals, anyOf(byState), []).asks;
}

export const anyOf = (places: readonly number[]): OpenPlaces => places.map((at) => [at, "any"]);

interface Walked {
  readonly asks: readonly number[];
  /** What is read by operations that make a difference between an answer and none. */
  readonly byState: readonly number[];
}

function walk(slice: Slice, intervals: Intervals, places: OpenPlaces, past: readonly number[]): Walked {
  const { made, parts } = slice.graph;
  const asks = asksByRegister(slice);
  const seen = new Set<number>(past);
  const seenImpossible = new Set<number>(past);
  const found = new Set<number>();
  const byState: number[] = [];
  // What is open in any way, and what may be impossible.
  const stack: number[] = [];
  const failing: number[] = [];
  for (const [at, open] of places) (open === "any" ? stack : failing).push(at);
  while (stack.length + failing.length > 0) {
    const any = stack.length > 0;
    const at = any ? stack.pop()! : failing.pop()!;
    if (at < 0 || seen.has(at) || isPoint(intervals, at)) continue;
    if (!any && (seenImpossible.has(at) || !mayBeImpossible(intervals, at))) continue;
    (any ? seen : seenImpossible).add(at);
    const ask = asks.get(at);
    if (ask !== undefined) {
      found.add(ask);
      continue;
    }
    const op = made[at];
    if (op === undefined || (!any && pushFailing(op, intervals, stack, failing))) continue;
    const own = partsThatMatter(op, intervals) ?? parts[at]!;
    if (op.opcode === Opcode.known || op.opcode === Opcode.candidateRows) byState.push(...own);
    for (const part of own) stack.push(part);
  }
  return { asks: [...found].sort((x, y) => x - y), byState };
}

const mayBeImpossible = (intervals: Intervals, register: number): boolean =>
  (intervals.flags[register]! & MAY_IMPOSSIBLE) !== 0;

/** Operations that have a value wherever their parts have one, short of overflow. */
export const STRICT: ReadonlySet<number> = new Set([
  Opcode.copy,
  Opcode.add,
  Opcode.sub,
  Opcode.mul,
  Opcode.neg,
  Opcode.max,
  Opcode.min,
  Opcode.lt,
  Opcode.le,
  Opcode.eq,
  Opcode.ne,
  Opcode.not,
  Opcode.band,
  Opcode.words,
]);

/**
 * Adds what an operation that may be impossible can have that from: parts that may be impossible themselves,
 * and parts on which it turns whether those count. False where it can be the operation itself.
 */
function pushFailing(op: Op, intervals: Intervals, any: number[], failing: number[]): boolean {
  const { low, high } = intervals;
  const { in0, in1, in2, out } = op;
  const fails = (at: number) => at >= 0 && mayBeImpossible(intervals, at);
  if (STRICT.has(op.opcode) || op.opcode === Opcode.div || op.opcode === Opcode.round) {
    if (!Number.isFinite(low[out]!) || !Number.isFinite(high[out]!)) return false;
    if (op.opcode === Opcode.div && low[in1]! <= 0 && high[in1]! >= 0) return false;
    if (op.opcode === Opcode.round && low[in1]! <= 0) return false;
    failing.push(in0, in1, in2);
    return true;
  }
  if (op.opcode === Opcode.and || op.opcode === Opcode.or) {
    // A part without a value does no harm where the other part settles it.
    if (fails(in0)) any.push(in1);
    if (fails(in1)) any.push(in0);
    failing.push(in0, in1);
    return true;
  }
  const turning = op.opcode === Opcode.select || op.opcode === Opcode.rowValue;
  if (!turning) return false;
  const ways = alternativesOf(op, intervals).filter(fails);
  if (ways.length > 0) any.push(in0);
  failing.push(in0, ...ways);
  return true;
}

/** What a choice, or a chart whose row is picked, can come out as in a box. */
function alternativesOf(op: Op, intervals: Intervals): readonly number[] {
  if (op.opcode === Opcode.rowValue) return rowsOf(intervals, op.in0).map((row) => op.payload.values[row]!);
  if (!isPoint(intervals, op.in0)) return [op.in1, op.in2];
  return [intervals.low[op.in0] === 1 ? op.in1 : op.in2];
}

const askRegisters = new WeakMap<Slice, ReadonlyMap<number, number>>();

export function asksByRegister(slice: Slice): ReadonlyMap<number, number> {
  const known = askRegisters.get(slice);
  if (known !== undefined) return known;
  const made = new Map<number, number>();
  slice.asks.forEach((ask, i) => {
    made.set(ask.answer, i);
    if (ask.cannotTell >= 0) made.set(ask.cannotTell, i);
  });
  askRegisters.set(slice, made);
  return made;
}

/**
 * Places in `slice.asks` of the asks that may be left blank with another outcome than that something stays
 * unknown. All others can be taken as answered: what a job shows without their answers it shows with them.
 */
export function asksThatMayBeBlank(slice: Slice): ReadonlySet<number> {
  const { made, parts } = slice.graph;
  const asks = asksByRegister(slice);
  const stack = slice.ops.flatMap((op) => (isByState(op) ? parts[op.out]! : []));
  const rows = slice.ops.flatMap((op) => (op.opcode === Opcode.list ? op.payload.ops : []));
  for (const op of rows) if (isByState(op)) stack.push(...parts[op.out]!);
  const seen = new Set<number>();
  const found = new Set<number>();
  for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
    if (at < 0 || seen.has(at)) continue;
    seen.add(at);
    const ask = asks.get(at);
    if (ask !== undefined) found.add(ask);
    else if (made[at] !== undefined) stack.push(...parts[at]!);
  }
  return found;
}

const isByState = ({ opcode }: Op): boolean => opcode === Opcode.known || opcode === Opcode.candidateRows;

/** The parts of an operation that can change its outcome in a box; undefined for all of them. */
function partsThatMatter(op: Op, intervals: Intervals): readonly number[] | undefined {
  if (op.opcode === Opcode.select && isPoint(intervals, op.in0)) return alternativesOf(op, intervals);
  if (op.opcode === Opcode.pick) {
    const rows = rowsOf(intervals, op.out);
    return [...op.payload.conditions].filter(
      (_, c) => rows.some((r) => op.payload.rows[r]![c] !== "any") || rows.length === 0,
    );
  }
  if (op.opcode === Opcode.rowValue) return [op.in0, ...alternativesOf(op, intervals)];
  return undefined;
}

/** Rows of a chart that can apply in some job of the box, also in one that leaves a condition open. */
export const rowsOf = (intervals: Intervals, picked: number): readonly number[] => [
  ...(intervals.rows.get(picked) ?? []),
  ...(intervals.openRows.get(picked)?.unmet ?? []),
];
