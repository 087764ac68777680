// Times rivals in turn, round by round, so that a busy machine is busy for all of them; medians of rounds. A
// round is timed twice: by the clock, which on a shared machine counts the work of others too, and by what
// the processors spent on this process, which counts the collector's threads beside the program's own.
// Undisturbed it would take no longer than the lesser of the two: that is its time.
export interface Lap {
  readonly time: number;
  readonly clock: number;
  readonly rounds: readonly number[];
}

/**
 * Milliseconds of one call of each rival; `times` calls make one round. A rival gets the number of its call,
 * from 0.
 */
export function race<N extends string>(
  rivals: Readonly<Record<N, (call: number) => unknown>>,
  { rounds, times, warm = 2 }: { readonly rounds: number; readonly times: number; readonly warm?: number },
): Record<N, Lap> {
  const names = Object.keys(rivals) as N[];
  const laps = Object.fromEntries(names.map((name) => [name, [] as number[]])) as unknown as Record<
    N,
    number[]
  >;
  const lesser = Object.fromEntries(names.map((name) => [name, [] as number[]])) as unknown as Record<
    N,
    number[]
  >;
  const calls = Object.fromEntries(names.map((name) => [name, 0])) as unknown as Record<N, number>;
  for (let round = -warm; round < rounds; round++) {
    for (const name of round % 2 === 0 ? names : [...names].reverse()) {
      const rival = rivals[name];
      const before = process.cpuUsage();
      const start = performance.now();
      for (let i = 0; i < times; i++) kept = rival(calls[name]++);
      const took = (performance.now() - start) / times;
      const { user, system } = process.cpuUsage(before);
      if (round < 0) continue;
      laps[name].push(took);
      lesser[name].push(Math.min(took, (user + system) / 1000 / times));
    }
  }
  return Object.fromEntries(names.map((name) => [name, lap(laps[name], lesser[name])])) as Record<N, Lap>;
}

/** What a rival made, so that no compiler can leave its work out. */
export let kept: unknown;

export const median = (of: readonly number[]): number => {
  const sorted = [...of].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
};
const lap = (clock: readonly number[], rounds: readonly number[]): Lap => ({
  rounds,
  clock: median(clock),
  time: median(rounds),
});

/** The median of the rounds' own ratios of times: each round's rivals ran next to each other. */
export const ratio = (a: Lap, b: Lap): number => median(a.rounds.map((x, i) => x / b.rounds[i]!));
