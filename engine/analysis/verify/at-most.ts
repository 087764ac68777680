// Proves "this value is at most that one" for all jobs of a box, where spans alone cannot, because the two
// values rest on the same answers. Both are written as quotients of polynomials in what they rest on, so that
// what is shared cancels:
//
//     count = x / t rounded up to whole        is  x / t + e,   e in 0 to 1
//     count * t - x                            is  t * e,       which is never negative
//
// A rounding brings a small unknown of its own; of largest(p, q) it is used that it is itself, or p, or q,
// plus something that is not negative. Any operation that is neither is an unknown with the span it has.
import { CLOSE, ROUND_CLOSE, nearly, roundTo } from "../../../core/number.ts";
import { Opcode, type Op } from "../../program/plan/op.ts";
import type { Graph } from "./graph.ts";
import { NEVER, type Intervals } from "../../program/intervals/interval-frame.ts";

/** Part of the slack of 1e-9 that comparisons allow is used here; doubles need almost none of the rest. */
const SLACK = 0.8 * CLOSE;
/** What a rounding forgives is a tenth of that: half of it is used beneath one. */
const SLACK_BENEATH_ROUNDING = 0.5 * ROUND_CLOSE;
const MOST_TERMS = 40;
const DEEPEST = 40;
const MOST_CHOICES = 3;

/** Whether a <= b (within the slack of comparisons) in every job of the box. False says nothing. */
export const atMostSurely = (intervals: Intervals, made: Graph["made"], a: number, b: number): boolean =>
  atMost({ intervals, made }, a, b, SLACK, 0);

interface Written {
  readonly intervals: Intervals;
  readonly made: Graph["made"];
}

/** `slack`: the share of b by which a may be above it. What passes by it must not reach a rounding. */
function atMost(on: Written, a: number, b: number, slack: number, depth: number): boolean {
  const { intervals, made } = on;
  // What holds wherever both have a value; where one has none there is nothing to compare.
  if (((intervals.flags[a]! | intervals.flags[b]!) & NEVER) !== 0) return false;
  if (intervals.high[a]! <= intervals.low[b]!) return true;
  if (depth > DEEPEST) return false;
  const [x, y] = [settled(intervals, made, a), settled(intervals, made, b)];
  const next = (p: number, q: number) => atMost(on, p, q, slack, depth + 1);
  const beneath = (p: number, q: number) =>
    atMost(on, p, q, Math.min(slack, SLACK_BENEATH_ROUNDING), depth + 1);
  const [left, right] = [made[x], made[y]];
  if (left?.opcode === Opcode.max) return next(left.in0, y) && next(left.in1, y);
  if (right?.opcode === Opcode.min) return next(x, right.in0) && next(x, right.in1);
  // Whichever alternative counts.
  if (left?.opcode === Opcode.select && next(left.in1, y) && next(left.in2, y)) return true;
  if (right?.opcode === Opcode.select && next(x, right.in1) && next(x, right.in2)) return true;
  if (left?.opcode === Opcode.round && staysAt(on, left, y, "up")) return beneath(left.in0, y);
  if (right?.opcode === Opcode.round && staysAt(on, right, x, "down")) return beneath(x, right.in0);
  if (right?.opcode === Opcode.max && (next(x, right.in0) || next(x, right.in1))) return true;
  if (left?.opcode === Opcode.min && (next(left.in0, y) || next(left.in1, y))) return true;
  if (left?.opcode === Opcode.div && isShared(on, left, y, slack, depth)) return true;
  return byTerms(on, x, y, slack);
}

/** Through copies and settled alternatives and charts, to the operation that really makes the value. */
function settled(intervals: Intervals, made: Graph["made"], register: number): number {
  for (let at = register, turns = 0; turns < 200; turns++) {
    const op = made[at];
    if (op?.opcode === Opcode.copy) at = op.in0;
    else if (
      op?.opcode === Opcode.select &&
      intervals.flags[op.in0] === 0 &&
      intervals.low[op.in0] === intervals.high[op.in0]
    )
      at = intervals.low[op.in0] === 1 ? op.in1 : op.in2;
    else if (op?.opcode === Opcode.rowValue && intervals.rows.get(op.in0)?.length === 1)
      at = op.payload.values[intervals.rows.get(op.in0)![0]!]!;
    else return at;
  }
  return register;
}

/**
 * Whether what is not past a number is not past it when it is rounded this way either; also where it is past
 * it by the slack beneath a rounding. A rounding never falls where its number rises, and a multiple of its
 * step stays where it is.
 */
function staysAt(
  on: Written,
  { in1, payload: { way, base } }: Extract<Op, { opcode: typeof Opcode.round }>,
  of: number,
  wanted: "up" | "down",
): boolean {
  const { low, high } = on.intervals;
  const step = low[in1]!;
  const value = low[of]!;
  if (way !== wanted || step !== high[in1] || !(step > 0)) return false;
  if (value !== high[of]) {
    const multiple = base === 0 && value >= 0 ? stepOf(on, of, 0) : undefined;
    return multiple !== undefined && nearly(Math.round(multiple / step) * step, multiple);
  }
  const past = Math.abs(value) * (SLACK_BENEATH_ROUNDING + 1e-15) * (way === "up" ? 1 : -1);
  const rounded = base + roundTo(value + past - base, step, way);
  return nearly(rounded, value) || (way === "up" ? rounded < value : rounded > value);
}

/**
 * Whether x / n is at most `of` since n is, or is at least, x / u rounded up, for a u that is at most
 * `of`: so
 * many cups that none is larger than u.
 */
function isShared(on: Written, { in0, in1 }: Op, of: number, slack: number, depth: number): boolean {
  const { intervals, made } = on;
  if (!(intervals.low[in0]! >= 0 && intervals.low[in1]! >= 1e-9)) return false;
  const shares = (register: number, turns: number): boolean => {
    const at = settled(intervals, made, register);
    const op = made[at];
    if (op === undefined || turns > DEEPEST) return false;
    if (op.opcode === Opcode.max) return shares(op.in0, turns + 1) || shares(op.in1, turns + 1);
    if (op.opcode !== Opcode.round || op.payload.way !== "up" || op.payload.base !== 0) return false;
    if (intervals.low[op.in1] !== 1 || intervals.high[op.in1] !== 1) return false;
    const ratio = made[settled(intervals, made, op.in0)];
    if (ratio?.opcode !== Opcode.div || !(intervals.low[ratio.in1]! > 0)) return false;
    if (settled(intervals, made, ratio.in0) !== settled(intervals, made, in0)) return false;
    const lost = isExactRatio({ spans: intervals, made }, op.in0, 0, 1) ? 1e-13 : 1.1 * ROUND_CLOSE;
    return lost < slack && atMost(on, ratio.in1, of, slack - lost, depth + 1);
  };
  return shares(in1, 0);
}

// ───────────── quotients of polynomials ─────────────

interface Term {
  readonly factor: number;
  /** Unknowns with their powers, by name. */
  readonly powers: ReadonlyMap<string, number>;
}

type Sum = ReadonlyMap<string, Term>;

interface Quotient {
  readonly top: Sum;
  readonly bottom: Sum;
}

interface Writing {
  readonly spans: Intervals;
  readonly made: Graph["made"];
  readonly unknowns: Map<string, readonly [number, number]>;
  /** For each largest and smallest met: 0 as itself, 1 and 2 by its first and its second part. */
  readonly choices: Map<number, number>;
  readonly written: Map<number, Quotient | undefined>;
}

function byTerms({ intervals, made }: Written, a: number, b: number, slack: number): boolean {
  const met: number[] = [];
  for (let pick = 0; pick < 3 ** met.length || pick === 0; pick++) {
    const choices = new Map(met.map((register, i) => [register, Math.floor(pick / 3 ** i) % 3]));
    const writing: Writing = { spans: intervals, made, unknowns: new Map(), choices, written: new Map() };
    const [left, right] = [write(writing, a, 0), write(writing, b, 0)];
    if (
      left !== undefined &&
      right !== undefined &&
      notNegative(writing, left, right, intervals.low[b]! >= 0 ? 1 + slack : 1 - slack)
    )
      return true;
    for (const register of choices.keys())
      if (!met.includes(register) && met.length < MOST_CHOICES) met.push(register);
  }
  return false;
}

/** right * share - left, over what they are divided by, is nowhere below zero. */
function notNegative({ unknowns }: Writing, left: Quotient, right: Quotient, share: number): boolean {
  const signs = [span(left.bottom, unknowns), span(right.bottom, unknowns)];
  if (signs.some(([low, high]) => !(low > 0 || high < 0))) return false;
  const turned = signs.filter(([, high]) => high < 0).length % 2 === 1;
  const big = product(scaled(right.top, share), left.bottom);
  const small = product(left.top, right.bottom);
  if (big === undefined || small === undefined) return false;
  const difference = plus(big, scaled(small, -1));
  return lowest(turned ? scaled(difference, -1) : difference, unknowns, MOST_ENDS) >= 0;
}

/** The most unknowns whose ends are tried one by one. */
const MOST_ENDS = 5;

/**
 * A number that the sum is nowhere below; where it may be below nought, any number that is. In an unknown
 * that stands in it only by itself, not squared or divided by, the sum is a straight line: it is least at one
 * of its ends, and with the end put in, terms that rest on it cancel.
 */
function lowest(sum: Sum, unknowns: ReadonlyMap<string, readonly [number, number]>, more: number): number {
  const [low] = span(sum, unknowns);
  if (low >= 0 || more === 0) return low;
  const counts = new Map<string, number>();
  for (const { powers } of sum.values())
    for (const [name, power] of powers)
      counts.set(name, power === 1 ? (counts.get(name) ?? 0) + 1 : -Infinity);
  let best: string | undefined;
  for (const [name, count] of counts)
    if (count > 1 && (best === undefined || count > counts.get(best)!)) best = name;
  if (best === undefined) return low;
  let least = Infinity;
  for (const end of unknowns.get(best)!) {
    if (!Number.isFinite(end)) return low;
    least = Math.min(least, lowest(withEnd(sum, best, end), unknowns, more - 1));
    if (least < 0) return Math.max(low, least);
  }
  return Math.max(low, least);
}

/** The sum with a number in place of an unknown. */
function withEnd(sum: Sum, name: string, value: number): Sum {
  let out: Sum = new Map();
  for (const [, { factor, powers }] of sum) {
    const left = new Map(powers);
    left.delete(name);
    out = plus(
      out,
      new Map([[keyOf(left), { factor: powers.has(name) ? factor * value : factor, powers: left }]]),
    );
  }
  return out;
}

const keyOf = (powers: ReadonlyMap<string, number>): string =>
  [...powers]
    .sort(([x], [y]) => (x < y ? -1 : 1))
    .map(([name, power]) => `${name}^${power}`)
    .join(" ");

function write(w: Writing, register: number, depth: number): Quotient | undefined {
  const at = settled(w.spans, w.made, register);
  if (w.written.has(at)) return w.written.get(at);
  const made =
    w.spans.low[at] === w.spans.high[at]
      ? number(w.spans.low[at]!)
      : depth > DEEPEST
        ? unknown(w, `v${at}`, w.spans.low[at]!, w.spans.high[at]!)
        : writeOp(w, at, depth);
  w.written.set(at, made);
  return made;
}

function writeOp(w: Writing, at: number, depth: number): Quotient | undefined {
  const { low, high } = w.spans;
  const self = () => unknown(w, `v${at}`, low[at]!, high[at]!);
  const op = w.made[at];
  if (op === undefined || w.spans.flags[at] !== 0) return self();
  const part = (register: number) => write(w, register, depth + 1);
  const two = (join: (a: Quotient, b: Quotient) => Quotient | undefined) => {
    const [a, b] = [part(op.in0), part(op.in1)];
    return (a && b && join(a, b)) ?? self();
  };
  switch (op.opcode) {
    case Opcode.add:
      return two((a, b) => added(a, b, 1));
    case Opcode.sub:
      return two((a, b) => added(a, b, -1));
    case Opcode.mul:
      return two((a, b) => quotient(product(a.top, b.top), product(a.bottom, b.bottom)));
    case Opcode.div:
      return two((a, b) => quotient(product(a.top, b.bottom), product(a.bottom, b.top)));
    case Opcode.neg: {
      const a = part(op.in0);
      return a === undefined ? self() : { top: scaled(a.top, -1), bottom: a.bottom };
    }
    case Opcode.round:
      return writeRounding(w, op, depth) ?? self();
    case Opcode.max:
    case Opcode.min:
      return writeChoice(w, op, depth) ?? self();
    case Opcode.pow:
    case Opcode.fn:
    case Opcode.lt:
    case Opcode.le:
    case Opcode.eq:
    case Opcode.ne:
    case Opcode.and:
    case Opcode.or:
    case Opcode.not:
    case Opcode.select:
    case Opcode.known:
    case Opcode.band:
    case Opcode.words:
    case Opcode.pick:
    case Opcode.rowValue:
    case Opcode.interpolate:
    case Opcode.candidateRows:
    case Opcode.candidateCount:
    case Opcode.firstCandidate:
    case Opcode.candidatesAmong:
    case Opcode.list:
    case Opcode.aggregate:
    case Opcode.copy:
    case Opcode.rowAbove:
      return self();
  }
}

/** A rounding is its number and a small unknown, at most a step. */
function writeRounding(
  w: Writing,
  { in0, in1, out, payload: { way, base } }: Extract<Op, { opcode: typeof Opcode.round }>,
  depth: number,
): Quotient | undefined {
  const { low, high } = w.spans;
  const step = low[in1]!;
  if (step !== high[in1] || !(step > 0)) return undefined;
  const of = write(w, in0, depth + 1);
  if (of === undefined) return undefined;
  const [least, most] = [(low[in0]! - base) / step, (high[in0]! - base) / step];
  // Above nought a number is only taken for the multiple beside it when it is within a share of itself.
  const share = (isExactRatio(w, in0, base, step) ? 0 : ROUND_CLOSE) + 1e-14;
  const moved = (factor: number, from: number, to: number) =>
    added({ top: scaled(of.top, factor), bottom: of.bottom }, unknown(w, `r${out}`, from, to), 1);
  if (way === "up" && least > 1e-9) return moved(1 - share, 0, (1 + share * most) * step);
  if (way === "down" && least >= 0) return moved(1 + share, -(1 + share * most) * step, 0);
  const slack = share * Math.max(1, Math.abs(least), Math.abs(most));
  const [from, to] =
    way === "up" ? [-slack, 1 + slack] : way === "down" ? [-1 - slack, slack] : [-0.5 - slack, 0.5 + slack];
  return moved(1, from * step, to * step);
}

/**
 * Whether a number to be rounded is a quotient of two that are themselves rounded, and so never near to a
 * multiple but at it: a/b for whole a and b is away from the next whole number by 1/b or more.
 */
function isExactRatio(
  { spans, made }: Pick<Writing, "spans" | "made">,
  register: number,
  base: number,
  step: number,
): boolean {
  const op = made[settled(spans, made, register)];
  if (op?.opcode !== Opcode.div || base !== 0) return false;
  const [top, bottom] = [
    stepOf({ intervals: spans, made }, op.in0, 0),
    stepOf({ intervals: spans, made }, op.in1, 0),
  ];
  const shared = top && bottom && commonStep(top, bottom * step);
  if (!shared) return false;
  const largest = (at: number) => Math.max(Math.abs(spans.low[at]!), Math.abs(spans.high[at]!));
  const most = (largest(op.in1) * step) / shared;
  return most * Math.max(1, largest(op.out) / step) * 4 * ROUND_CLOSE < 1;
}

/**
 * A number of which a place surely holds a whole multiple, as far as doubles go; undefined where none is
 * known.
 */
function stepOf(on: Written, register: number, depth: number): number | undefined {
  const { intervals, made } = on;
  const at = settled(intervals, made, register);
  const [low, high] = [intervals.low[at]!, intervals.high[at]!];
  if (low === high) return Number.isFinite(low) && low !== 0 ? Math.abs(low) : undefined;
  const op = made[at];
  if (op === undefined || depth > DEEPEST) return undefined;
  const both = (p: number, q: number) => {
    const [s, t] = [stepOf(on, p, depth + 1), stepOf(on, q, depth + 1)];
    return s && t && commonStep(s, t);
  };
  if (op.opcode === Opcode.round) {
    const step = intervals.low[op.in1]!;
    return op.payload.base === 0 && step === intervals.high[op.in1] && step > 0 ? step : undefined;
  }
  if (op.opcode === Opcode.select) return both(op.in1, op.in2);
  return SHARING.has(op.opcode) ? both(op.in0, op.in1) : undefined;
}

/** Operations of two numbers that are a multiple of what both are a multiple of. */
const SHARING: ReadonlySet<number> = new Set([Opcode.add, Opcode.sub, Opcode.max, Opcode.min]);

/** The largest number of which both are a whole multiple, where one of the multiples is small. */
function commonStep(s: number, t: number): number | undefined {
  const [large, small] = s >= t ? [s, t] : [t, s];
  for (let times = 1; times <= 1000; times++) {
    const other = (times * large) / small;
    if (Math.abs(other - Math.round(other)) < 1e-12 * other) return small / times;
  }
  return undefined;
}

/**
 * A largest or smallest by the part that is chosen for it, and by how much the other part is above or below
 * that: the same unknown in the largest of two numbers and in the smallest of them.
 */
function writeChoice(w: Writing, op: Op, depth: number): Quotient | undefined {
  const { low, high } = w.spans;
  const choice = w.choices.get(op.out) ?? 0;
  w.choices.set(op.out, choice);
  if (choice === 0) return undefined;
  const [chosen, other] = choice === 1 ? [op.in0, op.in1] : [op.in1, op.in0];
  const part = write(w, chosen, depth + 1);
  const isLargest = op.opcode === Opcode.max;
  const [above, beneath] = isLargest ? [other, chosen] : [chosen, other];
  const most = Math.max(0, high[above]! - low[beneath]!);
  return part && added(part, unknown(w, `m${above}>${beneath}`, 0, most), isLargest ? 1 : -1);
}

const ONE: Sum = new Map([["", { factor: 1, powers: new Map() }]]);

const number = (value: number): Quotient => ({
  top: value === 0 ? new Map() : new Map([["", { factor: value, powers: new Map() }]]),
  bottom: ONE,
});

function unknown(w: Writing, name: string, low: number, high: number): Quotient {
  w.unknowns.set(name, [low, high]);
  const powers = new Map([[name, 1]]);
  return { top: new Map([[keyOf(powers), { factor: 1, powers }]]), bottom: ONE };
}

function quotient(top: Sum | undefined, bottom: Sum | undefined): Quotient | undefined {
  if (top === undefined || bottom === undefined) return undefined;
  // Dividing by a single term is multiplying by its powers turned round; that lets shared unknowns cancel.
  if (bottom.size === 1) {
    const [only] = [...bottom.values()];
    if (only!.factor === 0) return undefined;
    const powers = new Map([...only!.powers].map(([name, power]) => [name, -power]));
    const turned: Sum = new Map([[keyOf(powers), { factor: 1 / only!.factor, powers }]]);
    const whole = product(top, turned);
    return whole && { top: whole, bottom: ONE };
  }
  return { top, bottom };
}

function added(a: Quotient, b: Quotient, sign: 1 | -1): Quotient | undefined {
  if (a.bottom === ONE && b.bottom === ONE) {
    const top = plus(a.top, scaled(b.top, sign));
    return top.size > MOST_TERMS ? undefined : { top, bottom: ONE };
  }
  const [p, q, r] = [product(a.top, b.bottom), product(b.top, a.bottom), product(a.bottom, b.bottom)];
  return p && q && r && quotient(plus(p, scaled(q, sign)), r);
}

const scaled = (sum: Sum, by: number): Sum =>
  new Map([...sum].map(([key, term]) => [key, { factor: term.factor * by, powers: term.powers }]));

function plus(a: Sum, b: Sum): Sum {
  const out = new Map(a);
  for (const [key, term] of b) {
    const known = out.get(key);
    const factor = (known?.factor ?? 0) + term.factor;
    if (factor === 0) out.delete(key);
    else out.set(key, { factor, powers: term.powers });
  }
  return out;
}

function product(a: Sum, b: Sum): Sum | undefined {
  if (a.size * b.size > MOST_TERMS * 4) return undefined;
  const out = new Map<string, Term>();
  for (const [leftKey, left] of a)
    for (const [rightKey, right] of b) {
      const powers = multiplied(left.powers, right.powers);
      const key = powers === left.powers ? leftKey : powers === right.powers ? rightKey : keyOf(powers);
      const factor = (out.get(key)?.factor ?? 0) + left.factor * right.factor;
      if (factor === 0) out.delete(key);
      else out.set(key, { factor, powers });
      if (out.size > MOST_TERMS) return undefined;
    }
  return out;
}

/** The product of two lots of powers; one of the two itself where the other is empty. */
function multiplied(a: Term["powers"], b: Term["powers"]): Term["powers"] {
  if (b.size === 0) return a;
  if (a.size === 0) return b;
  const powers = new Map(a);
  for (const [name, power] of b) {
    const sum = (powers.get(name) ?? 0) + power;
    if (sum === 0) powers.delete(name);
    else powers.set(name, sum);
  }
  return powers;
}

/** Smallest and largest that a sum can be, ends moved outward. */
function span(sum: Sum, unknowns: ReadonlyMap<string, readonly [number, number]>): readonly [number, number] {
  let [low, high] = [0, 0];
  for (const { factor, powers } of sum.values()) {
    let [a, b] = [factor, factor];
    for (const [name, power] of powers) {
      const [x, y] = unknowns.get(name)!;
      if (power < 0 && x <= 0 && y >= 0) return [-Infinity, Infinity];
      const ends =
        power % 2 === 0 && x <= 0 && y >= 0
          ? [0, Math.max(x ** power, y ** power)]
          : [x ** power, y ** power];
      const all = [a * ends[0]!, a * ends[1]!, b * ends[0]!, b * ends[1]!].map((z) => (z !== z ? 0 : z));
      [a, b] = [Math.min(...all), Math.max(...all)];
    }
    low += a - Math.abs(a) * 1e-15;
    high += b + Math.abs(b) * 1e-15;
  }
  return [low - Math.abs(low) * 1e-15, high + Math.abs(high) * 1e-15];
}
