// Which asks an unsettled outcome really turns on, read backward from it through operations that are not settled
// themselves. What a settled condition leaves out is left out: that is a proof that it does not matter.
import { K, type Op, extraReads } from "../../program/plan/op.ts";
import { type Spans, isPoint } from "../../program/intervals/interval-frame.ts";
import type { Slice } from "../verify/slice.ts";

const makers = new WeakMap<Slice, Map<number, Op>>();

/** The operation that makes each place of a slice. */
export function makersOf(slice: Slice): ReadonlyMap<number, Op> {
  const known = makers.get(slice);
  if (known !== undefined) return known;
  const made = new Map<number, Op>();
  const note = (ops: readonly Op[]) => { for (const op of ops) { made.set(op.d, op); if (op.k === K.list) note(op.x.ops); } };
  note(slice.ops);
  makers.set(slice, made);
  return made;
}

/** Places in `slice.asks` of the asks that can still change any of `places`; what lies behind `past` is left out. */
export function openAsks(slice: Slice, spans: Spans, places: readonly number[], past: readonly number[] = []): readonly number[] {
  const made = makersOf(slice);
  const asks = new Map(slice.asks.map((ask, i) => [ask.place, i]));
  const seen = new Set<number>(past);
  const found = new Set<number>();
  const stack = [...places];
  for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
    if (at < 0 || seen.has(at) || isPoint(spans, at)) continue;
    seen.add(at);
    const ask = asks.get(at);
    if (ask !== undefined) { found.add(ask); continue; }
    const op = made.get(at);
    if (op !== undefined) stack.push(...partsThatMatter(op, spans));
  }
  return [...found].sort((a, b) => a - b);
}

function partsThatMatter(op: Op, spans: Spans): readonly number[] {
  switch (op.k) {
    case K.select: {
      if (!isPoint(spans, op.a)) return [op.a, op.b, op.c];
      return [spans.low[op.a] === 1 ? op.b : op.c];
    }
    case K.pick: {
      const rows = spans.rows.get(op.d) ?? [];
      return [...op.x.conditions].filter((_, c) => rows.some((r) => op.x.rows[r]![c] !== "any") || rows.length === 0);
    }
    case K.rowValue: {
      const rows = spans.rows.get(op.a) ?? [];
      return [op.a, ...rows.map((r) => op.x.values[r]!)];
    }
    // The first number of these is a slot of the frame, not a place.
    case K.gather: case K.leftCount: case K.leftFirst: case K.leftAmong: return [op.b, op.c];
    case K.before: return [op.a, ...op.x.reads];
    case K.list: return [op.a, op.b, ...extraReads(op), ...op.x.ops.flatMap((inner) => [inner.a, inner.b, inner.c, ...extraReads(inner)])];
    case K.between: case K.keep: return [op.a, op.b, op.c, ...extraReads(op)];
    case K.add: case K.sub: case K.mul: case K.div: case K.pow: case K.neg: case K.fn: case K.round: case K.lt: case K.le: case K.eq: case K.ne:
    case K.and: case K.or: case K.not: case K.max: case K.min: case K.known: case K.band: case K.words: case K.copy:
      return [op.a, op.b, op.c];
  }
}
