// Which asks an unsettled outcome really turns on, read backward from it through operations that are not
// settled themselves. What a settled condition leaves out is left out: that is a proof that it does not
// matter.
import { Opcode, type Op, extraReads } from "../../program/plan/op.ts";
import { type Intervals, isPoint } from "../../program/intervals/interval-frame.ts";
import type { Slice } from "../verify/slice.ts";

const makers = new WeakMap<Slice, Map<number, Op>>();

/** The operation that makes each place of a slice. */
export function producersOf(slice: Slice): ReadonlyMap<number, Op> {
  const known = makers.get(slice);
  if (known !== undefined) return known;
  const made = new Map<number, Op>();
  const note = (ops: readonly Op[]) => {
    for (const op of ops) {
      made.set(op.out, op);
      if (op.opcode === Opcode.list) note(op.payload.ops);
    }
  };
  note(slice.ops);
  makers.set(slice, made);
  return made;
}

/**
 * Places in `slice.asks` of the asks that can still change any of `places`; what lies behind `past` is left
 * out.
 */
export function openAsks(
  slice: Slice,
  intervals: Intervals,
  places: readonly number[],
  past: readonly number[] = [],
): readonly number[] {
  return walk(slice, intervals, places, past).asks;
}

/**
 * The same for asks of which it matters whether they are answered: those behind an "is known", or behind the
 * rows that a chart keeps. Elsewhere a missing answer only leaves things unknown.
 */
export function asksOpenByState(
  slice: Slice,
  intervals: Intervals,
  places: readonly number[],
): readonly number[] {
  const { byState } = walk(slice, intervals, places, []);
  return byState.length === 0 ? [] : walk(slice, intervals, byState, []).asks;
}

interface Walked {
  readonly asks: readonly number[];
  /** What is read by operations that make a difference between an answer and none. */
  readonly byState: readonly number[];
}

function walk(
  slice: Slice,
  intervals: Intervals,
  places: readonly number[],
  past: readonly number[],
): Walked {
  const made = producersOf(slice);
  const asks = asksByRegister(slice);
  const seen = new Set<number>(past);
  const found = new Set<number>();
  const byState: number[] = [];
  const stack = [...places];
  for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
    if (at < 0 || seen.has(at) || isPoint(intervals, at)) continue;
    seen.add(at);
    const ask = asks.get(at);
    if (ask !== undefined) {
      found.add(ask);
      continue;
    }
    const op = made.get(at);
    if (op === undefined) continue;
    const parts = [...partsThatMatter(op, intervals), ...columnsOf(slice, op)];
    if (op.opcode === Opcode.known || op.opcode === Opcode.candidateRows) byState.push(...parts);
    stack.push(...parts);
  }
  return { asks: [...found].sort((a, b) => a - b), byState };
}

const askRegisters = new WeakMap<Slice, ReadonlyMap<number, number>>();

function asksByRegister(slice: Slice): ReadonlyMap<number, number> {
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
  const made = producersOf(slice);
  const asks = asksByRegister(slice);
  const stack = [...made.values()].flatMap((op) =>
    op.opcode === Opcode.known || op.opcode === Opcode.candidateRows ? partsOf(op) : [],
  );
  const seen = new Set<number>();
  const found = new Set<number>();
  for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
    if (at < 0 || seen.has(at)) continue;
    seen.add(at);
    const ask = asks.get(at);
    if (ask !== undefined) found.add(ask);
    else if (made.has(at)) stack.push(...partsOf(made.get(at)!), ...columnsOf(slice, made.get(at)!));
  }
  return found;
}

/** The parts of an operation that can change its outcome in a box. */
function partsThatMatter(op: Op, intervals: Intervals): readonly number[] {
  if (op.opcode === Opcode.select && isPoint(intervals, op.in0))
    return [intervals.low[op.in0] === 1 ? op.in1 : op.in2];
  if (op.opcode === Opcode.pick) {
    const rows = rowsOf(intervals, op.out);
    return [...op.payload.conditions].filter(
      (_, c) => rows.some((r) => op.payload.rows[r]![c] !== "any") || rows.length === 0,
    );
  }
  if (op.opcode === Opcode.rowValue) {
    const rows = rowsOf(intervals, op.in0);
    return [op.in0, ...rows.map((r) => op.payload.values[r]!)];
  }
  return partsOf(op);
}

/** Rows of a chart that can apply in some job of the box, also in one that leaves a condition open. */
const rowsOf = (intervals: Intervals, picked: number): readonly number[] => [
  ...(intervals.rows.get(picked) ?? []),
  ...(intervals.openRows.get(picked)?.unmet ?? []),
];

const rowReads = new WeakMap<Slice, ReadonlyMap<number, readonly number[]>>();

/** What the rows of a list read from outside of it, for what is gathered from them. */
function columnsOf(slice: Slice, op: Op): readonly number[] {
  if (op.opcode !== Opcode.aggregate) return [];
  const known = rowReads.get(slice) ?? new Map(slice.ops.flatMap(readsOfRows));
  rowReads.set(slice, known);
  return known.get(op.in0) ?? [];
}

function readsOfRows(op: Op): readonly (readonly [number, readonly number[]])[] {
  if (op.opcode !== Opcode.list) return [];
  const { ops, counter, first, slot } = op.payload;
  const own = new Set([counter, first, ...ops.map((inner) => inner.out)]);
  return [[slot, [...new Set(ops.flatMap(partsOf))].filter((register) => !own.has(register))]];
}

/** All places that an operation reads. */
function partsOf(op: Op): readonly number[] {
  switch (op.opcode) {
    case Opcode.pick:
      return [...op.payload.conditions];
    case Opcode.rowValue:
      return [op.in0, ...op.payload.values];
    // The first number of these is a slot of the frame, not a place.
    case Opcode.aggregate:
    case Opcode.candidateCount:
    case Opcode.firstCandidate:
    case Opcode.candidatesAmong:
      return [op.in1, op.in2];
    case Opcode.rowAbove:
      return [op.in0, ...op.payload.reads];
    case Opcode.interpolate:
    case Opcode.candidateRows:
      return [op.in0, op.in1, op.in2, ...extraReads(op)];
    case Opcode.add:
    case Opcode.sub:
    case Opcode.mul:
    case Opcode.div:
    case Opcode.pow:
    case Opcode.neg:
    case Opcode.fn:
    case Opcode.round:
    case Opcode.lt:
    case Opcode.le:
    case Opcode.eq:
    case Opcode.ne:
    case Opcode.and:
    case Opcode.or:
    case Opcode.not:
    case Opcode.max:
    case Opcode.min:
    case Opcode.known:
    case Opcode.band:
    case Opcode.words:
    case Opcode.copy:
    case Opcode.select:
    // Its place holds how many rows there are.
    case Opcode.list:
      return [op.in0, op.in1, op.in2];
  }
}
