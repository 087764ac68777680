// Seeded jobs for the shipped book, as typed answers, as the hand-written code wants them, and as the
// engine's places.
import type { Answers as Typed } from "../../core/view.ts";
import type { Answers as Plain } from "./hand-written.ts";

export { seeded } from "../../core/seeded.ts";

/**
 * A job with every answer given, which the book can work: panels of its key, air on its charts. Most are
 * glass panels, as in a shop.
 */
export function plainJob(next: () => number): Plain {
  const pick = <T>(of: readonly T[]): T => of[Math.floor(next() * of.length)]!;
  const between = (low: number, high: number, step: number) =>
    Math.round((low + next() * (high - low)) / step) * step;
  const strands = pick(["chopped", "layered"] as const);
  const thickness = Math.round(between(1, 8, 0.1) * 10) / 10;
  return {
    use:
      next() < 0.8
        ? "body"
        : pick(["sensor", "load-bearing", "crash", "anchor", "pressure", "aircraft"] as const),
    edge: next() < 0.9 ? "glass-fibre" : pick(["black-fibre", "bright", "no-fibre", "cannot-tell"] as const),
    strands,
    back: strands === "chopped" ? "smooth" : pick(["smooth", "rough"] as const),
    damage: pick(["surface", "through"] as const),
    longestSide: between(5, 420, 1),
    shortestSide: between(1, 300, 1),
    thickness,
    depth: Math.round(between(0.1, 6, 0.1) * 10) / 10,
    toEdge: between(0, 600, 5),
    flexes: next() < 0.5,
    backOpen: next() < 0.5,
    air: between(15, 35, 1),
    panel: between(12, 38, 1),
    humidity: between(20, 90, 1) / 100,
  };
}

export const typedJob = (a: Plain): Typed => ({
  use: a.use,
  edge: a.edge,
  back: a.back,
  strands: a.strands,
  damage: a.damage,
  "longest-side": `${a.longestSide} mm`,
  "shortest-side": `${a.shortestSide} mm`,
  thickness: `${a.thickness} mm`,
  depth: `${a.depth} mm`,
  "to-edge": `${a.toEdge} mm`,
  flexes: a.flexes ? "yes" : "no",
  "back-open": a.backOpen ? "yes" : "no",
  air: `${a.air} °C`,
  panel: `${a.panel} °C`,
  humidity: `${Math.round(a.humidity * 100)} %`,
});
