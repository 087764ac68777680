// Numbers that look random and are the same for the same seed, so that a failing run can be repeated.

/** A stream of numbers from 0 to under 1 (mulberry32: a small generator with a good enough spread). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
