// Arithmetic on spans: products, quotients, powers, functions and rounding, each with its ends outward.
import { roundTo } from "../../../core/number.ts";
import type { K, Op } from "../plan/op.ts";
import { MAY_IMPOSSIBLE, NEVER, type Spans, out, put, wide } from "./interval-frame.ts";

/** A number by itself is no smaller than nought. */
export function multiply(s: Spans, { a, b, d }: Op): void {
  const flags = s.flags[a]! | s.flags[b]!;
  const [x, y, u, v] = [s.low[a]!, s.high[a]!, s.low[b]!, s.high[b]!];
  if (a === b) { const m = Math.max(x * x, y * y); out(s, d, x <= 0 && y >= 0 ? 0 : Math.min(x * x, y * y), m, flags); if (x <= 0 && y >= 0) s.low[d] = 0; return; }
  const p = [times(x, u), times(x, v), times(y, u), times(y, v)];
  out(s, d, Math.min(...p), Math.max(...p), flags);
}

const times = (x: number, y: number): number => (x === 0 || y === 0 ? 0 : x * y);

export function divide(s: Spans, { a, b, d }: Op): void {
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

export function power(s: Spans, { a, b, d }: Op): void {
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

export function call(s: Spans, op: Extract<Op, { k: typeof K.fn }>): void {
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

export function round(s: Spans, op: Extract<Op, { k: typeof K.round }>): void {
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
