// Interval arithmetic: products, quotients, powers, functions and rounding, with the ends rounded outward.
import { roundTo } from "../../../core/number.ts";
import type { Opcode, Op } from "../plan/op.ts";
import { MAY_IMPOSSIBLE, NEVER, type Intervals, putOutward, put, wide } from "./interval-frame.ts";

/** A product; a number times itself is never below zero. */
export function multiply(intervals: Intervals, { in0, in1, out }: Op): void {
  const flags = intervals.flags[in0]! | intervals.flags[in1]!;
  const [x, y, u, v] = [intervals.low[in0]!, intervals.high[in0]!, intervals.low[in1]!, intervals.high[in1]!];
  if (in0 === in1) {
    const m = Math.max(product(x, x, 1), product(y, y, 1));
    putOutward(intervals, out, x <= 0 && y >= 0 ? 0 : Math.min(x * x, y * y), m, flags);
    return;
  }
  const ends = (way: -1 | 1) => [
    product(x, u, way),
    product(x, v, way),
    product(y, u, way),
    product(y, v, way),
  ];
  putOutward(intervals, out, Math.min(...ends(-1)), Math.max(...ends(1)), flags);
}

/** A product of two ends; one too small for a double is moved off zero, below or above it. */
const product = (x: number, y: number, way: -1 | 1): number =>
  x === 0 || y === 0 ? 0 : x * y || way * Number.MIN_VALUE;

/** The same of a quotient. */
const ratio = (x: number, y: number, way: -1 | 1): number =>
  x === 0 ? 0 : x / y || (Number.isFinite(y) ? way * Number.MIN_VALUE : 0);

export function divide(intervals: Intervals, { in0, in1, out }: Op): void {
  const flags = intervals.flags[in0]! | intervals.flags[in1]!;
  const [x, y, u, v] = [intervals.low[in0]!, intervals.high[in0]!, intervals.low[in1]!, intervals.high[in1]!];
  if (u > 0 || v < 0) {
    const ends = (way: -1 | 1) => [ratio(x, u, way), ratio(x, v, way), ratio(y, u, way), ratio(y, v, way)];
    putOutward(intervals, out, Math.min(...ends(-1)), Math.max(...ends(1)), flags);
    // Infinity over infinity says nothing about the ends.
    if (!Number.isFinite(x + y) && !Number.isFinite(u + v)) put(intervals, out, -Infinity, Infinity, flags);
    return;
  }
  const all = flags | MAY_IMPOSSIBLE | (u === 0 && v === 0 ? NEVER : 0);
  if (u === 0 && x >= 0) putOutward(intervals, out, v === 0 ? -Infinity : x / v, Infinity, all);
  else if (u === 0 && y <= 0) putOutward(intervals, out, -Infinity, v === 0 ? Infinity : y / v, all);
  else put(intervals, out, -Infinity, Infinity, all);
}

export function power(intervals: Intervals, { in0, in1, out }: Op): void {
  const flags = intervals.flags[in0]! | intervals.flags[in1]!;
  const [x, y, u, v] = [intervals.low[in0]!, intervals.high[in0]!, intervals.low[in1]!, intervals.high[in1]!];
  if (u === v && Number.isInteger(u) && u >= 0) {
    const [p, q] = [x ** u, y ** u];
    if (u % 2 === 1 || x >= 0) wide(intervals, out, p, q, flags);
    else if (y <= 0) wide(intervals, out, q, p, flags);
    else {
      wide(intervals, out, 0, Math.max(p, q), flags);
      intervals.low[out] = u === 0 ? 1 : 0;
    }
    return;
  }
  if (x > 0) {
    const p = [x ** u, x ** v, y ** u, y ** v];
    if (p.every((q) => q === q)) {
      wide(intervals, out, Math.min(...p), Math.max(...p), flags);
      return;
    }
  }
  put(intervals, out, -Infinity, Infinity, flags | MAY_IMPOSSIBLE);
}

export function call(intervals: Intervals, op: Extract<Op, { opcode: typeof Opcode.fn }>): void {
  const { in0, out } = op;
  const flags = intervals.flags[in0]!;
  const [x, y] = [intervals.low[in0]!, intervals.high[in0]!];
  switch (op.payload) {
    case "sqrt": {
      if (y < 0) put(intervals, out, -Infinity, Infinity, flags | MAY_IMPOSSIBLE | NEVER);
      else
        putOutward(
          intervals,
          out,
          Math.sqrt(Math.max(0, x)),
          Math.sqrt(y),
          flags | (x < 0 ? MAY_IMPOSSIBLE : 0),
        );
      return;
    }
    case "abs":
      put(
        intervals,
        out,
        x <= 0 && y >= 0 ? 0 : Math.min(Math.abs(x), Math.abs(y)),
        Math.max(Math.abs(x), Math.abs(y)),
        flags,
      );
      return;
    case "exp":
      wide(intervals, out, Math.exp(x), Math.exp(y), flags);
      return;
    case "ln":
    case "log10": {
      const f = op.payload === "ln" ? Math.log : Math.log10;
      if (y <= 0) put(intervals, out, -Infinity, Infinity, flags | MAY_IMPOSSIBLE | NEVER);
      else wide(intervals, out, x > 0 ? f(x) : -Infinity, f(y), flags | (x <= 0 ? MAY_IMPOSSIBLE : 0));
      return;
    }
    case "atan":
      wide(intervals, out, Math.atan(x), Math.atan(y), flags);
      return;
    case "sin":
    case "cos":
      wave(intervals, op, op.payload === "sin" ? SINE : COSINE);
      return;
    case "tan": {
      const turns = (z: number) => Math.floor(z / Math.PI + 0.5);
      if (y - x < Math.PI && turns(x - 1e-9) === turns(y + 1e-9))
        wide(intervals, out, Math.tan(x), Math.tan(y), flags);
      else put(intervals, out, -Infinity, Infinity, flags);
      return;
    }
  }
}

/** A function that repeats itself, and the angle of its crest. */
interface Wave {
  readonly at: (angle: number) => number;
  readonly crest: number;
}

const SINE: Wave = { at: Math.sin, crest: Math.PI / 2 };
const COSINE: Wave = { at: Math.cos, crest: 0 };

/**
 * Sine or cosine: its ends, and 1 or -1 where a crest or a trough lies between (or so near that rounding
 * could reach it).
 */
function wave(intervals: Intervals, { in0, out }: Op, { at, crest }: Wave): void {
  const [x, y] = [intervals.low[in0]!, intervals.high[in0]!];
  const flags = intervals.flags[in0]!;
  if (!(y - x < 2 * Math.PI)) {
    put(intervals, out, -1, 1, flags);
    return;
  }
  const holds = (angle: number) =>
    Math.floor((y + 1e-9 - angle) / (2 * Math.PI)) > Math.floor((x - 1e-9 - angle) / (2 * Math.PI));
  const [p, q] = [at(x), at(y)];
  const [low, high] = [Math.min(p, q), Math.max(p, q)];
  wide(intervals, out, holds(crest + Math.PI) ? -1 : low, holds(crest) ? 1 : high, flags);
}

export function round(intervals: Intervals, op: Extract<Op, { opcode: typeof Opcode.round }>): void {
  const { in0, in1, out } = op;
  const { way, base } = op.payload;
  const flags = intervals.flags[in0]! | intervals.flags[in1]!;
  const [stepLow, stepHigh] = [intervals.low[in1]!, intervals.high[in1]!];
  const [x, y] = [intervals.low[in0]!, intervals.high[in0]!];
  if (stepHigh <= 0) {
    put(intervals, out, -Infinity, Infinity, flags | MAY_IMPOSSIBLE | NEVER);
    return;
  }
  const maybe = flags | (stepLow <= 0 ? MAY_IMPOSSIBLE : 0);
  if (stepLow === stepHigh && Number.isFinite(x) && Number.isFinite(y)) {
    // The rounding of the evaluator itself, which never falls where its number rises.
    put(
      intervals,
      out,
      base + roundTo(x - base, stepLow, way),
      base + roundTo(y - base, stepLow, way),
      maybe,
    );
    return;
  }
  putOutward(
    intervals,
    out,
    way === "up" ? x - stepHigh * 1e-8 : x - stepHigh,
    way === "down" ? y + stepHigh * 1e-8 : y + stepHigh,
    maybe,
  );
}
