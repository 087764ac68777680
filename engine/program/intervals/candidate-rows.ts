// A chart that keeps every row: which rows can be left in a box, and what is asked of them.
import type { KeepTable } from "../plan/op.ts";
import { sameness } from "./compare.ts";
import { MAY_IMPOSSIBLE, NEVER, type Spans, put, truth, union } from "./interval-frame.ts";
import { meets } from "./chart-rows.ts";

export function keep(s: Spans, table: KeepTable, d: number): void {
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

export function leftFirst(s: Spans, slot: number, chart: number, d: number): void {
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

export function leftAmong(s: Spans, slot: number, chart: number, of: number, d: number): void {
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
