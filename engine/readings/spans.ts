// The spans reading: what a value can be for all jobs of a box at once. Each place holds the smallest and the largest
// number it can be, which words where it is a word, and whether it can be unknown or impossible at all.
//
// Sound: for any job in the box, the values reading's number lies in the span, and a state that it reaches is allowed by
// the flags. Ends are moved outward by more than an operation's rounding error; comparisons, rounding and
// chart rows use the very functions of the values reading, which only rise or only fall, on the ends.
import { type Side, type Stretch, allows, findHole } from "../../core/boxes.ts";
import { nearly as nearlyFinite, roundTo } from "../../core/number.ts";
import { type BetweenTable, K, type KeepTable, type ListBody, LONGEST_LIST, type Op, type PickTable } from "../plan/op.ts";
import type { Block, Plan } from "../plan/plan.ts";
import { curveAt, straightAt } from "./between.ts";

/** Flags: what a place can be besides a number. */
export const MAY_UNKNOWN = 1;
export const MAY_IMPOSSIBLE = 2;
/** No number is possible at all. */
export const NEVER = 4;

// Ends may be infinite here, and the tolerance of what is infinite is infinite: an end that is open is near to itself only.
const nearly = (a: number, b: number): boolean => a === b || (Number.isFinite(a) && Number.isFinite(b) && nearlyFinite(a, b));
const below = (a: number, b: number): boolean => a < b && !nearly(a, b);
const atMost = (a: number, b: number): boolean => a <= b || nearly(a, b);

export interface Spans {
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** Bit i: word i is possible. 0 where the place is not known to be a word of a kind with at most 31 words. */
  readonly words: Int32Array;
  readonly flags: Uint8Array;
  /** Rows of a chart that can be picked, by the place of the pick. */
  readonly rows: Map<number, readonly number[]>;
  readonly lists: (SpanList | undefined)[];
  readonly kept: (SpanKept | undefined)[];
  /** What is assumed of how two places compare, by `pairKey`: bits of BELOW, NEAR and ABOVE, the smaller place first. */
  relations: ReadonlyMap<number, number>;
  /** Constants of one value in different statements: each to the first of them, so that an assumption made of one holds for all. */
  twins: ReadonlyMap<number, number>;
  /** Shows that the first place is at most the second where their spans alone do not; false says nothing. */
  sharper: ((a: number, b: number) => boolean) | undefined;
  /** Set when the assumptions cannot all hold: then no job is in the box. */
  empty: boolean;
  work: number;
}

export const BELOW = 1;
export const NEAR = 2;
export const ABOVE = 4;

export const pairKey = (a: number, b: number): number => (a < b ? a * 2 ** 24 + b : b * 2 ** 24 + a);

interface SpanList {
  /** Rows that are there in every job, and in some job. */
  readonly least: number;
  readonly most: number;
  readonly low: readonly Float64Array[];
  readonly high: readonly Float64Array[];
  readonly flags: readonly number[];
}

interface SpanKept {
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

/** Rows of a list are followed one by one up to here; a longer one is taken by its ends. */
const ROWS_FOLLOWED = 400;

export function newSpans(plan: Plan): Spans {
  const size = plan.places.next + 1;
  const spans: Spans = {
    low: new Float64Array(size).fill(-Infinity), high: new Float64Array(size).fill(Infinity), words: new Int32Array(size), flags: new Uint8Array(size).fill(MAY_UNKNOWN | NEVER),
    rows: new Map(), lists: [], kept: [], relations: new Map(), twins: new Map(), sharper: undefined, empty: false, work: 0,
  };
  for (const block of plan.blocks) seedSpans(spans, block);
  return spans;
}

export function seedSpans(spans: Spans, block: Block): void {
  for (const { place, value } of block.constants) put(spans, place, value, value, 0);
  for (const { place } of block.nothing) { spans.low[place] = -Infinity; spans.high[place] = Infinity; spans.flags[place] = MAY_IMPOSSIBLE | NEVER; }
}

/** Sets what an ask can be. */
export function putRange(spans: Spans, place: number, { low, high, words, flags }: Range): void {
  spans.low[place] = low;
  spans.high[place] = high;
  spans.words[place] = words ?? 0;
  spans.flags[place] = flags ?? 0;
}

export const isPoint = (spans: Spans, place: number): boolean => spans.flags[place] === 0 && spans.low[place] === spans.high[place];

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

function put(s: Spans, d: number, low: number, high: number, flags: number): void {
  s.low[d] = low === low ? low : -Infinity;
  s.high[d] = high === high ? high : Infinity;
  s.words[d] = 0;
  s.flags[d] = flags;
}

/** Outward by more than one rounding. */
const down = (x: number): number => (Number.isFinite(x) ? x - Math.abs(x) * 2.3e-16 - 5e-324 : x);
const up = (x: number): number => (Number.isFinite(x) ? x + Math.abs(x) * 2.3e-16 + 5e-324 : x);
const out = (s: Spans, d: number, low: number, high: number, flags: number) => put(s, d, down(low), up(high), flags);
/** Wider, for functions that are only right to a few units in the last place. */
const wide = (s: Spans, d: number, low: number, high: number, flags: number) => put(s, d, low - Math.abs(low) * 2e-15 - 5e-324, high + Math.abs(high) * 2e-15 + 5e-324, flags);

const truth = (s: Spans, d: number, canNo: boolean, canYes: boolean, flags: number) => put(s, d, canNo ? 0 : 1, canYes ? 1 : 0, flags);

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
    case K.mul: {
      const [x, y, u, v] = [low[a]!, high[a]!, low[b]!, high[b]!];
      if (a === b) { const m = Math.max(x * x, y * y); out(s, d, x <= 0 && y >= 0 ? 0 : Math.min(x * x, y * y), m, two()); if (x <= 0 && y >= 0) s.low[d] = 0; return; }
      const p = [times(x, u), times(x, v), times(y, u), times(y, v)];
      out(s, d, Math.min(...p), Math.max(...p), two());
      return;
    }
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
    case K.band: {
      let can = true;
      let must = true;
      if (b >= 0) {
        can &&= op.x.lowIn ? atMost(low[b]!, high[a]!) : below(low[b]!, high[a]!);
        must &&= op.x.lowIn ? atMost(high[b]!, low[a]!) : below(high[b]!, low[a]!);
      }
      if (c >= 0) {
        can &&= op.x.highIn ? atMost(low[a]!, high[c]!) : below(low[a]!, high[c]!);
        must &&= op.x.highIn ? atMost(high[a]!, low[c]!) : below(high[a]!, low[c]!);
      }
      // One end alone can say no, whether the other has a value or not.
      truth(s, d, !must, can, flags[a]! | ((b >= 0 ? flags[b]! : 0) | (c >= 0 ? flags[c]! : 0)) & ~NEVER);
      return;
    }
    case K.words: {
      const mask = wordsOf(s, a);
      if (mask === 0) { truth(s, d, true, true, flags[a]!); return; }
      let [yes, no] = [false, false];
      for (let word = 0; word < 31; word++) if (mask & (1 << word)) { if (op.x.words[word] === 1) yes = true; else no = true; }
      truth(s, d, no, yes, flags[a]!);
      return;
    }
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
    case K.list: list(s, op.x, a, b, d); return;
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

const times = (x: number, y: number): number => (x === 0 || y === 0 ? 0 : x * y);

function copy(s: Spans, d: number, from: number): void {
  s.low[d] = s.low[from]!;
  s.high[d] = s.high[from]!;
  s.words[d] = s.words[from]!;
  s.flags[d] = s.flags[from]!;
}

function union(s: Spans, d: number, places: readonly number[], flags: number): void {
  let [low, high, words, all, some] = [Infinity, -Infinity, 0, flags, false];
  let worded = true;
  for (const place of places) {
    all |= s.flags[place]! & ~NEVER;
    if (s.flags[place]! & NEVER) continue;
    some = true;
    low = Math.min(low, s.low[place]!);
    high = Math.max(high, s.high[place]!);
    const mask = wordsOf(s, place);
    if (mask === 0) worded = false;
    words |= mask;
  }
  if (!some) { put(s, d, -Infinity, Infinity, all | NEVER); return; }
  put(s, d, low, high, all);
  s.words[d] = worded ? words : 0;
}

/** Which words a place can be: as noted, or read from a span of small whole numbers. 0 where it is no word. */
export function wordsOf(s: Spans, place: number): number {
  if (s.words[place] !== 0) return s.words[place]!;
  const [low, high] = [s.low[place]!, s.high[place]!];
  return low === high && Number.isInteger(low) && low >= 0 && low < 31 ? 1 << low : 0;
}

function sameness(s: Spans, a: number, b: number): "always" | "never" | "open" {
  if (a === b) return "always";
  const [x, y] = [wordsOf(s, a), wordsOf(s, b)];
  if (x !== 0 && y !== 0) {
    if ((x & y) === 0) return "never";
    if (x === y && (x & (x - 1)) === 0) return "always";
    return "open";
  }
  const [lowA, highA, lowB, highB] = [s.low[a]!, s.high[a]!, s.low[b]!, s.high[b]!];
  if (below(highA, lowB) || below(highB, lowA)) return "never";
  return nearly(lowA, highB) && nearly(highA, lowB) ? "always" : "open";
}

/** How the first place can compare with the second: what their spans allow, less what is assumed away. */
export function relation(s: Spans, a: number, b: number): number {
  if (a === b) return NEAR;
  const [lowA, highA, lowB, highB] = [s.low[a]!, s.high[a]!, s.low[b]!, s.high[b]!];
  let can = (below(lowA, highB) ? BELOW : 0) | (below(highA, lowB) || below(highB, lowA) ? 0 : NEAR) | (below(lowB, highA) ? ABOVE : 0);
  if (s.sharper !== undefined && (can & (BELOW | ABOVE)) === (BELOW | ABOVE)) {
    if (s.sharper(a, b)) can &= ~ABOVE;
    else if (s.sharper(b, a)) can &= ~BELOW;
  }
  if (s.relations.size === 0) return can;
  const [one, two] = [s.twins.get(a) ?? a, s.twins.get(b) ?? b];
  const assumed = s.relations.get(pairKey(one, two));
  if (assumed === undefined) return can;
  const turned = one < two ? assumed : (assumed & NEAR) | (assumed & BELOW ? ABOVE : 0) | (assumed & ABOVE ? BELOW : 0);
  const both = can & turned;
  if (both !== 0) return both;
  // Nothing is left: no job with two numbers here. Where one may have no number, the assumption says nothing of it.
  if (s.flags[a] === 0 && s.flags[b] === 0) s.empty = true;
  return can;
}

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

function divide(s: Spans, { a, b, d }: Op): void {
  const flags = s.flags[a]! | s.flags[b]!;
  const [x, y, u, v] = [s.low[a]!, s.high[a]!, s.low[b]!, s.high[b]!];
  if (u > 0 || v < 0) {
    const p = [x / u, x / v, y / u, y / v].map((q) => (q !== q ? 0 : q));
    out(s, d, Math.min(...p), Math.max(...p), flags);
    // Infinity over infinity says nothing about the ends.
    if (!Number.isFinite(x + y) && !Number.isFinite(u + v)) put(s, d, -Infinity, Infinity, flags);
    return;
  }
  const all = flags | MAY_IMPOSSIBLE | (u === 0 && v === 0 ? NEVER : 0);
  if (u === 0 && x >= 0) out(s, d, v === 0 ? -Infinity : x / v, Infinity, all);
  else if (u === 0 && y <= 0) out(s, d, -Infinity, v === 0 ? Infinity : y / v, all);
  else put(s, d, -Infinity, Infinity, all);
}

function power(s: Spans, { a, b, d }: Op): void {
  const flags = s.flags[a]! | s.flags[b]!;
  const [x, y, u, v] = [s.low[a]!, s.high[a]!, s.low[b]!, s.high[b]!];
  if (u === v && Number.isInteger(u) && u >= 0) {
    const [p, q] = [x ** u, y ** u];
    if (u % 2 === 1 || x >= 0) wide(s, d, p, q, flags);
    else if (y <= 0) wide(s, d, q, p, flags);
    else { wide(s, d, 0, Math.max(p, q), flags); s.low[d] = u === 0 ? 1 : 0; }
    return;
  }
  if (x > 0) {
    const p = [x ** u, x ** v, y ** u, y ** v];
    if (p.every((q) => q === q)) { wide(s, d, Math.min(...p), Math.max(...p), flags); return; }
  }
  put(s, d, -Infinity, Infinity, flags | MAY_IMPOSSIBLE);
}

function call(s: Spans, op: Extract<Op, { k: typeof K.fn }>): void {
  const { a, d } = op;
  const flags = s.flags[a]!;
  const [x, y] = [s.low[a]!, s.high[a]!];
  switch (op.x) {
    case "sqrt": {
      if (y < 0) put(s, d, -Infinity, Infinity, flags | MAY_IMPOSSIBLE | NEVER);
      else out(s, d, Math.sqrt(Math.max(0, x)), Math.sqrt(y), flags | (x < 0 ? MAY_IMPOSSIBLE : 0));
      return;
    }
    case "abs": put(s, d, x <= 0 && y >= 0 ? 0 : Math.min(Math.abs(x), Math.abs(y)), Math.max(Math.abs(x), Math.abs(y)), flags); return;
    case "exp": wide(s, d, Math.exp(x), Math.exp(y), flags); return;
    case "ln": case "log10": {
      const f = op.x === "ln" ? Math.log : Math.log10;
      if (y <= 0) put(s, d, -Infinity, Infinity, flags | MAY_IMPOSSIBLE | NEVER);
      else wide(s, d, x > 0 ? f(x) : -Infinity, f(y), flags | (x <= 0 ? MAY_IMPOSSIBLE : 0));
      return;
    }
    case "atan": wide(s, d, Math.atan(x), Math.atan(y), flags); return;
    case "sin": case "cos": wave(s, d, op.x === "sin" ? Math.sin : Math.cos, op.x === "sin" ? Math.PI / 2 : 0, x, y, flags); return;
    case "tan": {
      const turns = (z: number) => Math.floor(z / Math.PI + 0.5);
      if (y - x < Math.PI && turns(x - 1e-9) === turns(y + 1e-9)) wide(s, d, Math.tan(x), Math.tan(y), flags);
      else put(s, d, -Infinity, Infinity, flags);
      return;
    }
  }
}

/** Sine or cosine: its ends, and 1 or -1 where a crest or a trough lies between (or so near that rounding could reach it). */
function wave(s: Spans, d: number, f: (x: number) => number, crest: number, x: number, y: number, flags: number): void {
  if (!(y - x < 2 * Math.PI)) { put(s, d, -1, 1, flags); return; }
  const holds = (at: number) => Math.floor((y + 1e-9 - at) / (2 * Math.PI)) > Math.floor((x - 1e-9 - at) / (2 * Math.PI));
  const [p, q] = [f(x), f(y)];
  wide(s, d, holds(crest + Math.PI) ? -1 : Math.min(p, q), holds(crest) ? 1 : Math.max(p, q), flags);
}

function round(s: Spans, op: Extract<Op, { k: typeof K.round }>): void {
  const { a, b, d } = op;
  const { way, base } = op.x;
  const flags = s.flags[a]! | s.flags[b]!;
  const [stepLow, stepHigh] = [s.low[b]!, s.high[b]!];
  const [x, y] = [s.low[a]!, s.high[a]!];
  if (stepHigh <= 0) { put(s, d, -Infinity, Infinity, flags | MAY_IMPOSSIBLE | NEVER); return; }
  const maybe = flags | (stepLow <= 0 ? MAY_IMPOSSIBLE : 0);
  if (stepLow === stepHigh && Number.isFinite(x) && Number.isFinite(y)) {
    // The very rounding of the values reading, which never falls where its number rises.
    put(s, d, base + roundTo(x - base, stepLow, way), base + roundTo(y - base, stepLow, way), maybe);
    return;
  }
  out(s, d, way === "up" ? x - stepHigh * 1e-8 : x - stepHigh, way === "down" ? y + stepHigh * 1e-8 : y + stepHigh, maybe);
}

// ───────────── charts ─────────────

const meets = (side: Side, s: Spans, place: number): "no" | "some" | "all" => {
  if (side === "any") return "all";
  if (side.is === "words") {
    const mask = wordsOf(s, place);
    if (mask === 0) return "some";
    let [inside, outside] = [false, false];
    for (let word = 0; word < 31; word++) if (mask & (1 << word)) { if (side.words.has(word)) inside = true; else outside = true; }
    return inside ? (outside ? "some" : "all") : "no";
  }
  const [low, high] = [s.low[place]!, s.high[place]!];
  let met = false;
  for (const one of side.stretches) {
    if (low >= one.from && high <= one.to) return "all";
    if (low <= one.to && high >= one.from) met = true;
  }
  return met ? "some" : "no";
};

function pick(s: Spans, table: PickTable, d: number): void {
  let flags = 0;
  let never = 0;
  for (const place of table.conditions) { flags |= s.flags[place]! & ~NEVER; never |= s.flags[place]! & NEVER; }
  const rows: number[] = [];
  let sure = false;
  for (const [r, sides] of table.rows.entries()) {
    let fit: "no" | "some" | "all" = "all";
    for (let c = 0; c < sides.length; c++) {
      const one = (s.flags[table.conditions[c]!]! & NEVER) !== 0 && sides[c] !== "any" ? "some" : meets(sides[c]!, s, table.conditions[c]!);
      if (one === "no") { fit = "no"; break; }
      if (one === "some") fit = "some";
    }
    if (fit === "no") continue;
    rows.push(r);
    if (fit === "all") { sure = true; if (table.firstWins || flags === 0) break; }
  }
  s.rows.set(d, rows);
  if (rows.length === 0) { put(s, d, -Infinity, Infinity, flags | MAY_IMPOSSIBLE | NEVER); return; }
  // A chart with a hole in this box may have no row: the boxes are asked, and what is not settled counts as a hole.
  const hole = !sure && findHole(table.domains.map((domain, c) => within(domain.is === "words" ? domain.count : undefined, s, table.conditions[c]!)), rows.map((r) => table.rows[r]!.map((side, c) => renamed(side, s, table.conditions[c]!))), 4000).is !== "none";
  put(s, d, rows[0]!, rows.at(-1)!, flags | (hole ? MAY_IMPOSSIBLE : 0) | (rows.length === 0 ? never : 0));
}

/** The condition's span as a space of its own; words are numbered anew, since only the possible ones count. */
function within(count: number | undefined, s: Spans, place: number): { is: "line"; low: number; high: number } | { is: "words"; count: number } {
  if (count === undefined) return { is: "line", low: s.low[place]!, high: s.high[place]! };
  const mask = wordsOf(s, place);
  return { is: "words", count: mask === 0 ? count : bits(mask).length };
}

function renamed(side: Side, s: Spans, place: number): Side {
  if (side === "any" || side.is === "line") return side;
  const mask = wordsOf(s, place);
  if (mask === 0) return side;
  return { is: "words", words: new Set(bits(mask).flatMap((word, i) => (side.words.has(word) ? [i] : []))) };
}

/** The numbers of the words of a mask, rising. */
export function bits(mask: number): number[] {
  const words: number[] = [];
  for (let rest = mask; rest !== 0; rest &= rest - 1) words.push(31 - Math.clz32(rest & -rest));
  return words;
}

function between(s: Spans, table: BetweenTable, picked: number, d: number): void {
  let flags = 0;
  for (const axis of table.axes) flags |= s.flags[axis]!;
  if (picked >= 0) flags |= s.flags[picked]!;
  const groups = picked < 0 ? [0] : (s.rows.get(picked) ?? []);
  let [low, high, off] = [Infinity, -Infinity, false];
  for (const g of groups) {
    const group = table.groups[g]!;
    const x = clip(group.xs, s.low[table.axes[0]!]!, s.high[table.axes[0]!]!);
    const y = table.axes.length > 1 ? clip(group.ys, s.low[table.axes[1]!]!, s.high[table.axes[1]!]!) : { low: 0, high: 0, off: false, never: false };
    if (!table.hold && (x.off || y.off)) off = true;
    if (!table.hold && (x.never || y.never)) continue;
    const width = group.ys.length;
    for (const at of group.values) flags |= s.flags[at]!;
    const known = (at: number) => s.low[at]! === s.high[at]!;
    if (width === 1) {
      const line = table.curve ? curveAt : straightAt;
      const rises = !table.curve || [...group.values].every(known);
      const lows = Array.from(group.values, (at) => s.low[at]!);
      const highs = Array.from(group.values, (at) => s.high[at]!);
      // Between two neighbours either line only rises or only falls, so ends and points in between hold the extremes.
      const stops = [x.low, x.high, ...group.xs].filter((at) => at >= x.low && at <= x.high);
      for (const at of stops) {
        low = Math.min(low, rises ? line(group.xs, lows, at) : Math.min(...near(group.xs, lows, at)));
        high = Math.max(high, rises ? line(group.xs, highs, at) : Math.max(...near(group.xs, highs, at)));
      }
    } else if (!table.curve) {
      // A plane bent between four points has its extremes at the corners of what is looked at, in every cell.
      const xs = [x.low, x.high, ...group.xs].filter((at) => at >= x.low && at <= x.high);
      const ys = [y.low, y.high, ...group.ys].filter((at) => at >= y.low && at <= y.high);
      const plane = (pick_: Float64Array, at: number, on: number) => straightAt(group.xs, Array.from(group.xs, (_, i) => straightAt(group.ys, Array.from({ length: width }, (_, j) => pick_[group.values[i * width + j]!]!), on)), at);
      for (const at of xs) for (const on of ys) { low = Math.min(low, plane(s.low, at, on)); high = Math.max(high, plane(s.high, at, on)); }
    } else {
      group.values.forEach((at) => { low = Math.min(low, s.low[at]!); high = Math.max(high, s.high[at]!); });
    }
  }
  if (low > high) { put(s, d, -Infinity, Infinity, flags | (off || groups.length === 0 ? MAY_IMPOSSIBLE : 0) | NEVER); return; }
  // What is lost in going between two points is of the size of the points, however near to nought the outcome is.
  let size = Math.max(Math.abs(low), Math.abs(high));
  for (const g of groups) for (const at of table.groups[g]!.values) size = Math.max(size, Math.abs(s.low[at]!), Math.abs(s.high[at]!));
  const slack = Number.isFinite(size) ? size * 4e-15 : 0;
  put(s, d, low - slack - 5e-324, high + slack + 5e-324, (flags & ~NEVER) | (off ? MAY_IMPOSSIBLE : 0));
}

const near = (xs: Float64Array, values: readonly number[], at: number): readonly number[] => {
  const i = Math.max(0, xs.findIndex((x, j) => j === xs.length - 1 || (x <= at && at <= xs[j + 1]!)));
  return [values[i]!, values[Math.min(i + 1, values.length - 1)]!];
};

function clip(points: Float64Array, low: number, high: number): { low: number; high: number; off: boolean; never: boolean } {
  const [first, last] = [points[0]!, points[points.length - 1]!];
  const fits = (x: number) => (x >= first || nearly(x, first)) && (x <= last || nearly(x, last));
  return { low: Math.min(Math.max(low, first), last), high: Math.max(Math.min(high, last), first), off: !fits(low) || !fits(high), never: (high < first && !nearly(high, first)) || (low > last && !nearly(low, last)) };
}

function keep(s: Spans, table: KeepTable, d: number): void {
  const { conditions, rows } = table.pick;
  const left = new Uint8Array(rows.length);
  let [least, most] = [0, 0];
  rows.forEach((sides, r) => {
    let fit = 2;
    sides.forEach((side, c) => {
      const place = conditions[c]!;
      // An open answer rules nothing out; one that may be open makes its ruling uncertain.
      const one = (s.flags[place]! & NEVER) !== 0 ? "all" : meets(side, s, place);
      const here = one === "no" ? (s.flags[place] !== 0 ? 1 : 0) : one === "some" ? 1 : 2;
      fit = Math.min(fit, here);
    });
    left[r] = fit;
    if (fit === 2) least++;
    if (fit > 0) most++;
  });
  s.kept[table.slot] = { left, values: table.values };
  if (most === 0) put(s, d, -Infinity, Infinity, MAY_IMPOSSIBLE | NEVER);
  else put(s, d, Math.min(1, most), most, least === 0 ? MAY_IMPOSSIBLE : 0);
}

function leftFirst(s: Spans, slot: number, chart: number, d: number): void {
  const kept = s.kept[slot];
  if (kept === undefined || (s.flags[chart]! & NEVER) !== 0) { put(s, d, -Infinity, Infinity, s.flags[chart]! | NEVER); return; }
  const order = [...kept.left.keys()].filter((r) => kept.left[r]! > 0).sort((a, b) => s.low[kept.values[a]!]! - s.low[kept.values[b]!]!);
  const places: number[] = [];
  let ceiling = Infinity;
  for (const r of order) {
    const at = kept.values[r]!;
    if (s.low[at]! > ceiling) break;
    places.push(at);
    if (kept.left[r] === 2) ceiling = Math.min(ceiling, s.high[at]!);
  }
  union(s, d, places, s.flags[chart]!);
}

function leftAmong(s: Spans, slot: number, chart: number, of: number, d: number): void {
  const kept = s.kept[slot];
  const flags = s.flags[chart]! | s.flags[of]!;
  if (kept === undefined || flags & NEVER) { truth(s, d, true, true, flags); return; }
  let [can, must] = [false, false];
  kept.left.forEach((fit, r) => {
    if (fit === 0) return;
    const same = sameness(s, kept.values[r]!, of);
    if (same !== "never") can = true;
    if (same === "always" && fit === 2) must = true;
  });
  truth(s, d, !must, can, flags);
}

// ───────────── lists ─────────────

function list(s: Spans, body: ListBody, from: number, to: number, d: number): void {
  const flags = s.flags[from]! | s.flags[to]!;
  if (flags & NEVER) { put(s, d, -Infinity, Infinity, flags); s.lists[body.slot] = undefined; return; }
  const [first, firstHigh, lastLow, last] = [s.low[from]!, s.high[from]!, s.low[to]!, s.high[to]!];
  const whole = (x: number) => nearly(x, Math.round(x));
  const broken = !(first === firstHigh && whole(first) && (lastLow === last ? whole(last) : true));
  const start = Math.round(first);
  const least = Math.max(0, Math.round(lastLow) - Math.round(firstHigh) + 1);
  const most = Math.max(0, Math.min(LONGEST_LIST, Math.round(last) - start + 1));
  const tooLong = Math.round(last) - start + 1 > LONGEST_LIST;
  const followed = Math.min(most, ROWS_FOLLOWED);
  const low = [...body.columns].map(() => new Float64Array(followed + 1));
  const high = [...body.columns].map(() => new Float64Array(followed + 1));
  const columnFlags = [...body.columns].map(() => 0);
  const note = (i: number) => body.columns.forEach((place, column) => {
    low[column]![i] = s.low[place]!;
    high[column]![i] = s.high[place]!;
    columnFlags[column]! |= s.flags[place]!;
  });
  for (let i = 0; i < followed; i++) {
    put(s, body.counter, start + i, Math.round(firstHigh) + i, 0);
    if (body.first >= 0) put(s, body.first, i === 0 ? 1 : 0, i === 0 ? 1 : 0, 0);
    runSpans(body.ops, s);
    note(i);
  }
  if (most > followed) {
    // The rows beyond are taken together.
    put(s, body.counter, start + followed, Math.round(firstHigh) + most, 0);
    if (body.first >= 0) put(s, body.first, 2, 2, 0);
    runSpans(body.ops, s);
    note(followed);
  }
  s.lists[body.slot] = { least, most, low, high, flags: columnFlags };
  const uneven = !broken && lastLow === last ? 0 : lastLow !== last ? 0 : MAY_IMPOSSIBLE;
  put(s, d, least, most, flags | uneven | (tooLong || broken ? MAY_IMPOSSIBLE : 0));
}

function gather(s: Spans, what: Extract<Op, { k: typeof K.gather }>["x"]["what"], column: number, slot: number, of: number, d: number): void {
  const rows = s.lists[slot];
  const flags = s.flags[of]!;
  if (rows === undefined || flags & NEVER) { put(s, d, -Infinity, Infinity, flags | NEVER); return; }
  if (what === "count") { put(s, d, s.low[of]!, s.high[of]!, flags); return; }
  const { least, most } = rows;
  const low = rows.low[column]!;
  const high = rows.high[column]!;
  const followed = Math.min(most, ROWS_FOLLOWED);
  const all = flags | (rows.flags[column]! & ~NEVER) | (rows.flags[column]! & NEVER ? MAY_IMPOSSIBLE | MAY_UNKNOWN : 0) | (least === 0 && what !== "sum" ? MAY_IMPOSSIBLE : 0);
  if (what === "sum") {
    let [a, b] = [0, 0];
    for (let i = 0; i < followed; i++) {
      a += i < least ? low[i]! : Math.min(0, low[i]!);
      b += i < least ? high[i]! : Math.max(0, high[i]!);
    }
    if (most > followed) {
      const [extraLeast, extraMost] = [Math.max(0, least - followed), most - followed];
      a += Math.min(low[followed]! * extraLeast, low[followed]! * extraMost);
      b += Math.max(high[followed]! * extraLeast, high[followed]! * extraMost);
    }
    const slack = Math.max(1, most) * 2.3e-16;
    put(s, d, a - Math.abs(a) * slack - 1e-300, b + Math.abs(b) * slack + 1e-300, all);
    if (a >= 0 && s.low[d]! < 0) s.low[d] = 0;
    return;
  }
  if (most === 0) { put(s, d, -Infinity, Infinity, all | NEVER); return; }
  const count = most > followed ? followed + 1 : followed;
  const lows = Array.from({ length: count }, (_, i) => low[i]!);
  const highs = Array.from({ length: count }, (_, i) => high[i]!);
  const sure = (values: readonly number[]) => values.slice(0, Math.min(least, count));
  switch (what) {
    case "largest": put(s, d, Math.max(...(least > 0 ? sure(lows) : [Math.min(...lows)])), Math.max(...highs), all); return;
    case "smallest": put(s, d, Math.min(...lows), Math.min(...(least > 0 ? sure(highs) : [Math.max(...highs)])), all); return;
    case "first": put(s, d, lows[0]!, highs[0]!, all); return;
    case "last": {
      const from = Math.max(0, Math.min(least, count) - 1);
      put(s, d, Math.min(...lows.slice(from)), Math.max(...highs.slice(from)), all);
      return;
    }
  }
}

export type { Stretch };
export { allows };
