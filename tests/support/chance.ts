// Seeded chance: the same seed gives the same books and jobs on every machine, so that a failing run can be
// repeated.

export interface Chance {
  /** From 0 to just below 1. */
  readonly next: () => number;
  /** A whole number from 0 to `below` - 1. */
  readonly whole: (below: number) => number;
  readonly pick: <T>(from: readonly T[]) => T;
  readonly odds: (share: number) => boolean;
}

/** Mulberry32, a small generator of good enough spread for tests. */
export function chance(seed: number): Chance {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const whole = (below: number) => Math.floor(next() * below);
  return { next, whole, pick: (from) => from[whole(from.length)]!, odds: (share) => next() < share };
}
