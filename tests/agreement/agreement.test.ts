// The program held against an evaluator and a solver of the tests' own, on a few dozen random books. What is
// run here says `sections.ts`; thousands are run by `npm run prove-check SEEDS`.
import { afterAll, beforeAll, expect, test } from "vitest";
import { SECTIONS, runSeed } from "./sections.ts";
import { type Solver, openSolver } from "./solver.ts";
import { LINES, type Line, newTally, smallest, told } from "./tally.ts";

const HELD = SECTIONS.filter((one) => one.inTests);
const proofs = HELD.filter((one) => "proved" in one.run);
const readings = HELD.filter((one) => "read" in one.run);

/** Milliseconds for a book: the few hard ones are left open. */
const PATIENCE = 1500;

let solver: Solver;
beforeAll(async () => {
  solver = await openSolver();
}, 60_000);
afterAll(() => solver.close());

/** Runs the sections over the seeds; nothing that must be 0 may have been counted. */
async function hold(sections: typeof SECTIONS, from: number, to: number) {
  const tallies = sections.map(() => newTally());
  for (let seed = from; seed <= to; seed++) await runSeed(seed, sections, tallies, solver, PATIENCE);
  for (const tally of tallies) {
    const wrong = (Object.keys(tally.counts) as Line[]).filter((line) => "mustBeZero" in LINES[line]);
    expect(wrong, smallest(tally, 1).map(told).join("\n")).toEqual([]);
  }
  return tallies;
}

test("values and states of jobs come out as the evaluator has them", async () => {
  const [values] = await hold(readings, 1, 60);
  // Enough is compared for the test to mean something, and next to nothing lies too close to an edge.
  const [compared, close] = (["values", "tooClose"] as const).map((line) =>
    (values!.counts[line] ?? [0]).reduce((a, b) => a + b, 0),
  );
  expect(compared).toBeGreaterThan(10_000);
  expect(close).toBeLessThan(compared! / 50);
}, 120_000);

test("no promise is wrongly proved or broken, and each broken one has a job that breaks it", async () => {
  const [promises] = await hold(proofs, 1, 12);
  const sum = (line: Line) => (promises!.counts[line] ?? [0]).reduce((a, b) => a + b, 0);
  expect(sum("promises")).toBeGreaterThan(70);
  expect(sum("agreed")).toBeGreaterThan(sum("promises") * 0.8);
}, 240_000);
