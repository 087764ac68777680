// One stretch of seeds for `npm run prove-check`, in a process of its own.
import type { Message } from "./prove-check.ts";
import { SECTIONS, runSeed } from "./sections.ts";
import { openSolver } from "./solver.ts";
import { newTally } from "./tally.ts";

/** Milliseconds of the processor for one book, as long as the solver has for one question. */
const PATIENCE = 10_000;

const [from, to] = process.argv.slice(2).map(Number) as [number, number];
const tell = (told: Message): Promise<void> =>
  new Promise((done) => {
    process.send!(told, () => done());
  });
const solver = await openSolver();
const tallies = SECTIONS.map(() => newTally());
for (let seed = from; seed <= to; seed++) {
  await tell({ seed });
  await runSeed(seed, SECTIONS, tallies, solver, PATIENCE);
}
await tell({ tallies });
await solver.close();
process.disconnect();
