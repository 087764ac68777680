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
  const made = producersOf(slice);
  const asks = new Map(slice.asks.map((ask, i) => [ask.place, i]));
  const seen = new Set<number>(past);
  const found = new Set<number>();
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
    if (op !== undefined) stack.push(...partsThatMatter(op, intervals));
  }
  return [...found].sort((a, b) => a - b);
}

function partsThatMatter(op: Op, intervals: Intervals): readonly number[] {
  switch (op.opcode) {
    case Opcode.select: {
      if (!isPoint(intervals, op.in0)) return [op.in0, op.in1, op.in2];
      return [intervals.low[op.in0] === 1 ? op.in1 : op.in2];
    }
    case Opcode.pick: {
      const rows = intervals.rows.get(op.out) ?? [];
      return [...op.payload.conditions].filter(
        (_, c) => rows.some((r) => op.payload.rows[r]![c] !== "any") || rows.length === 0,
      );
    }
    case Opcode.rowValue: {
      const rows = intervals.rows.get(op.in0) ?? [];
      return [op.in0, ...rows.map((r) => op.payload.values[r]!)];
    }
    // The first number of these is a slot of the frame, not a place.
    case Opcode.aggregate:
    case Opcode.candidateCount:
    case Opcode.firstCandidate:
    case Opcode.candidatesAmong:
      return [op.in1, op.in2];
    case Opcode.rowAbove:
      return [op.in0, ...op.payload.reads];
    case Opcode.list:
      return [
        op.in0,
        op.in1,
        ...extraReads(op),
        ...op.payload.ops.flatMap((inner) => [inner.in0, inner.in1, inner.in2, ...extraReads(inner)]),
      ];
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
      return [op.in0, op.in1, op.in2];
  }
}
