// Seeded chance: the same seed gives the same books and jobs on every machine, so that a failing run can be
// repeated.
import { seeded } from "../../core/seeded.ts";

export interface Chance {
  /** From 0 to just below 1. */
  readonly next: () => number;
  /** A whole number from 0 to `below` - 1. */
  readonly whole: (below: number) => number;
  readonly pick: <T>(from: readonly T[]) => T;
  readonly odds: (share: number) => boolean;
}

export function chance(seed: number): Chance {
  const next = seeded(seed);
  const whole = (below: number) => Math.floor(next() * below);
  return { next, whole, pick: (from) => from[whole(from.length)]!, odds: (share) => next() < share };
}
