// The spans reading: runs the operations of a plan over spans.
import { K, type Op } from "../plan/op.ts";
import { call, divide, multiply, power, round } from "./arithmetic.ts";
import { ABOVE, BELOW, NEAR, among, band, relation, sameness } from "./compare.ts";
import { keep, leftAmong, leftFirst } from "./candidate-rows.ts";
import { gather, list } from "./lists.ts";
import { MAY_IMPOSSIBLE, MAY_UNKNOWN, NEVER, type Spans, copy, out, put, truth, union, wordsOf } from "./interval-frame.ts";
import { between, pick } from "./chart-rows.ts";

/** Runs operations over spans. */
export function runSpans(ops: readonly Op[], s: Spans): void {
  for (const op of ops) {
    s.work++;
    s.words[op.d] = 0;
    step(op, s);
    // A span that reaches infinity can overflow in the values reading, which calls that impossible.
    if (!(s.low[op.d]! > -Infinity) || !(s.high[op.d]! < Infinity)) if ((s.flags[op.d]! & NEVER) === 0) s.flags[op.d]! |= MAY_IMPOSSIBLE;
  }
}

function step(op: Op, s: Spans): void {
  const { a, b, c, d } = op;
  const { low, high, flags } = s;
  const two = () => flags[a]! | flags[b]!;
  switch (op.k) {
    case K.copy: copy(s, d, a); return;
    case K.add: out(s, d, low[a]! + low[b]!, high[a]! + high[b]!, two()); return;
    case K.sub: {
      if (a === b) { put(s, d, 0, 0, flags[a]!); return; }
      out(s, d, low[a]! - high[b]!, high[a]! - low[b]!, two());
      return;
    }
    case K.mul: multiply(s, op); return;
    case K.div: divide(s, op); return;
    case K.pow: power(s, op); return;
    case K.neg: put(s, d, -high[a]!, -low[a]!, flags[a]!); return;
    case K.fn: call(s, op); return;
    case K.round: round(s, op); return;
    case K.lt: { const how = relation(s, a, b); truth(s, d, (how & (NEAR | ABOVE)) !== 0, (how & BELOW) !== 0, two()); return; }
    case K.le: { const how = relation(s, a, b); truth(s, d, (how & ABOVE) !== 0, (how & (BELOW | NEAR)) !== 0, two()); return; }
    case K.eq: case K.ne: {
      const how = wordsOf(s, a) !== 0 && wordsOf(s, b) !== 0 ? 0 : relation(s, a, b);
      const same = how === 0 ? sameness(s, a, b) : how === NEAR ? "always" : (how & NEAR) === 0 ? "never" : "open";
      if (op.k === K.eq) truth(s, d, same !== "always", same !== "never", two());
      else truth(s, d, same !== "never", same !== "always", two());
      return;
    }
    case K.max: put(s, d, Math.max(low[a]!, low[b]!), Math.max(high[a]!, high[b]!), two()); return;
    case K.min: put(s, d, Math.min(low[a]!, low[b]!), Math.min(high[a]!, high[b]!), two()); return;
    case K.and: {
      const no = (p: number) => flags[p] === 0 && high[p] === 0;
      if (no(a) || no(b)) { put(s, d, 0, 0, 0); return; }
      truth(s, d, low[a] === 0 || low[b] === 0 || (two() & NEVER) !== 0, high[a]! >= 1 && high[b]! >= 1, two() & ~NEVER | neverOf(two(), canBe(s, a, 0) || canBe(s, b, 0)));
      return;
    }
    case K.or: {
      const yes = (p: number) => flags[p] === 0 && low[p] === 1;
      if (yes(a) || yes(b)) { put(s, d, 1, 1, 0); return; }
      truth(s, d, low[a] === 0 && low[b] === 0, high[a]! >= 1 || high[b]! >= 1 || (two() & NEVER) !== 0, two() & ~NEVER | neverOf(two(), canBe(s, a, 1) || canBe(s, b, 1)));
      return;
    }
    case K.not: put(s, d, 1 - high[a]!, 1 - low[a]!, flags[a]!); return;
    case K.known: truth(s, d, flags[a] !== 0, (flags[a]! & NEVER) === 0, 0); return;
    case K.select: select(s, a, b, c, d); return;
    case K.band: band(s, op); return;
    case K.words: among(s, op); return;
    case K.pick: pick(s, op.x, d); return;
    case K.rowValue: {
      const rows = s.rows.get(a);
      if (rows === undefined || rows.length === 0) { put(s, d, -Infinity, Infinity, flags[a]! | NEVER); return; }
      union(s, d, rows.map((row) => op.x.values[row]!), flags[a]! & ~NEVER);
      return;
    }
    case K.between: between(s, op.x, a, d); return;
    case K.keep: keep(s, op.x, d); return;
    case K.leftCount: copy(s, d, b); return;
    case K.leftFirst: leftFirst(s, a, b, d); return;
    case K.leftAmong: leftAmong(s, a, b, c, d); return;
    case K.list: list(s, op.x, a, b, d, runSpans); return;
    case K.before: {
      if (s.low[b] === 0) copy(s, d, a);
      else put(s, d, -Infinity, Infinity, s.low[b] === 1 ? MAY_IMPOSSIBLE | NEVER : MAY_UNKNOWN | MAY_IMPOSSIBLE);
      return;
    }
    case K.gather: gather(s, op.x.what, op.x.column, a, b, d); return;
  }
}

const canBe = (s: Spans, place: number, truth: 0 | 1): boolean => (s.flags[place]! & NEVER) === 0 && s.low[place]! <= truth && s.high[place]! >= truth;

/** `and` and `or` reach a truth without their missing part if the other one settles it. */
const neverOf = (flags: number, settles: boolean): number => (settles ? 0 : flags & NEVER);

function select(s: Spans, a: number, b: number, c: number, d: number): void {
  const canYes = (s.flags[a]! & NEVER) === 0 && s.high[a]! >= 1;
  const canNo = (s.flags[a]! & NEVER) === 0 && s.low[a]! <= 0;
  const open = s.flags[a]! & ~NEVER;
  if (canYes && !canNo && open === 0) { copy(s, d, b); return; }
  if (canNo && !canYes && open === 0) { copy(s, d, c); return; }
  // An unknown condition does not matter where both sides are one and the same; an impossible one leaves nothing.
  const unknown = (open & MAY_UNKNOWN) !== 0;
  const places = [...(canYes || unknown ? [b] : []), ...(canNo || unknown ? [c] : [])];
  if (places.length === 0) { put(s, d, -Infinity, Infinity, open | NEVER); return; }
  union(s, d, places, open);
}
