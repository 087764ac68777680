// Arithmetic on spans: products, quotients, powers, functions and rounding, each with its ends outward.
import { roundTo } from "../../../core/number.ts";
import type { Opcode, Op } from "../plan/op.ts";
import { MAY_IMPOSSIBLE, NEVER, type Intervals, putOutward, put, wide } from "./interval-frame.ts";

/** A number by itself is no smaller than nought. */
export function multiply(intervals: Intervals, { in0, in1, out }: Op): void {
  const flags = intervals.flags[in0]! | intervals.flags[in1]!;
  const [x, y, u, v] = [intervals.low[in0]!, intervals.high[in0]!, intervals.low[in1]!, intervals.high[in1]!];
  if (in0 === in1) {
    const m = Math.max(x * x, y * y);
    putOutward(intervals, out, x <= 0 && y >= 0 ? 0 : Math.min(x * x, y * y), m, flags);
    if (x <= 0 && y >= 0) intervals.low[out] = 0;
    return;
  }
  const p = [times(x, u), times(x, v), times(y, u), times(y, v)];
  putOutward(intervals, out, Math.min(...p), Math.max(...p), flags);
}

const times = (x: number, y: number): number => (x === 0 || y === 0 ? 0 : x * y);

export function divide(intervals: Intervals, { in0, in1, out }: Op): void {
  const flags = intervals.flags[in0]! | intervals.flags[in1]!;
  const [x, y, u, v] = [intervals.low[in0]!, intervals.high[in0]!, intervals.low[in1]!, intervals.high[in1]!];
  if (u > 0 || v < 0) {
    const p = [x / u, x / v, y / u, y / v].map((q) => (q !== q ? 0 : q));
    putOutward(intervals, out, Math.min(...p), Math.max(...p), flags);
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
      wave(
        intervals,
        out,
        op.payload === "sin" ? Math.sin : Math.cos,
        op.payload === "sin" ? Math.PI / 2 : 0,
        x,
        y,
        flags,
      );
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

/**
 * Sine or cosine: its ends, and 1 or -1 where a crest or a trough lies between (or so near that rounding
 * could reach it).
 */
// biome-ignore lint/complexity/useMaxParams: still to come apart.
function wave(
  intervals: Intervals,
  d: number,
  f: (x: number) => number,
  crest: number,
  x: number,
  y: number,
  flags: number,
): void {
  if (!(y - x < 2 * Math.PI)) {
    put(intervals, d, -1, 1, flags);
    return;
  }
  const holds = (at: number) =>
    Math.floor((y + 1e-9 - at) / (2 * Math.PI)) > Math.floor((x - 1e-9 - at) / (2 * Math.PI));
  const [p, q] = [f(x), f(y)];
  wide(intervals, d, holds(crest + Math.PI) ? -1 : Math.min(p, q), holds(crest) ? 1 : Math.max(p, q), flags);
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
    // The very rounding of the values reading, which never falls where its number rises.
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
