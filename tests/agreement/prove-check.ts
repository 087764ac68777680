// `npm run prove-check SEEDS [FROM]`: thousands of random books, each at three levels, in processes side by
// side, and a table for each section. It ends with 1 where anything that must be 0 is not.
import { fork } from "node:child_process";
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import { subject } from "./judge.ts";
import { SECTIONS } from "./sections.ts";
import { shrunk } from "./shrink.ts";
import { openSolver } from "./solver.ts";
import { LINES, type Line, type Tally, joined, newTally, smallest, table, told } from "./tally.ts";

/** Seeds for one process: the solver's memory is given back with it. */
const PART = 20;
/** Without a word for so long a part is given up. */
const SILENCE = 300_000;
const PARTS = fileURLToPath(new URL("./prove-check-part.ts", import.meta.url));

export type Message = { readonly seed: number } | { readonly tallies: readonly Tally[] };

/** Tallies of one stretch of seeds; undefined where its process was lost. */
function part(from: number, to: number): Promise<readonly Tally[] | undefined> {
  return new Promise((done) => {
    const child = fork(PARTS, [String(from), String(to)]);
    let tallies: readonly Tally[] | undefined;
    let at = from;
    const lost = () => {
      console.error(`seed ${at} has been silent for ${SILENCE / 1000} s`);
      child.kill("SIGKILL");
    };
    let timer = setTimeout(lost, SILENCE);
    child.on("message", (told: Message) => {
      clearTimeout(timer);
      timer = setTimeout(lost, SILENCE);
      if ("seed" in told) at = told.seed;
      else tallies = told.tallies;
    });
    child.on("exit", () => {
      clearTimeout(timer);
      if (tallies === undefined) console.error(`the process ended at seed ${at}`);
      done(tallies);
    });
  });
}

/** Milliseconds of the clock for the search of one smallest book. */
const SHRINKING = 60_000;

/** For each fault of each section the smallest book that shows it. */
async function printSmallest(tallies: readonly Tally[]): Promise<void> {
  const solver = await openSolver();
  for (const [i, section] of SECTIONS.entries()) {
    const faults = smallest(tallies[i]!, 1);
    if (faults.length > 0) console.log(`\n===== ${section.title}`);
    for (const one of faults) {
      const first = subject(one.seed, one.level, section.wants);
      console.log(told(await shrunk(first, one, section, solver, Date.now() + SHRINKING)));
    }
  }
  await solver.close();
}

async function main(): Promise<void> {
  const seeds = Number(process.argv[2] ?? 200);
  const first = Number(process.argv[3] ?? 1);
  if (!Number.isInteger(seeds) || seeds < 1 || !Number.isInteger(first)) {
    console.error("npm run prove-check SEEDS [FROM]");
    process.exit(2);
  }
  const starts = Array.from({ length: Math.ceil(seeds / PART) }, (_, i) => first + i * PART);
  const all: (readonly Tally[])[] = [];
  let lost = 0;
  let done = 0;
  const worker = async (): Promise<void> => {
    for (let from = starts.shift(); from !== undefined; from = starts.shift()) {
      const tallies = await part(from, Math.min(from + PART, first + seeds) - 1);
      if (tallies === undefined) lost++;
      else all.push(tallies);
      done += Math.min(PART, first + seeds - from);
      process.stderr.write(`${done} of ${seeds} seeds\r`);
    }
  };
  await Promise.all(Array.from({ length: Math.min(2, availableParallelism()) }, worker));
  const tallies = SECTIONS.map((_, i) => joined([newTally(), ...all.map((one) => one[i]!)]));
  SECTIONS.forEach(({ title }, i) => console.log(`\n${table(title, tallies[i]!)}`));
  await printSmallest(tallies);
  const wrong = tallies.flatMap(({ counts }) =>
    (Object.keys(counts) as Line[]).filter((line) => "mustBeZero" in LINES[line]),
  );
  if (lost > 0) console.log(`${lost} parts were lost`);
  process.exitCode = wrong.length + lost > 0 ? 1 : 0;
}

await main();
