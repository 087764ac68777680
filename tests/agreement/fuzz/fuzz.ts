// `npm run fuzz MINUTES [FROM]`: random and mutated books, layers, jobs and edits for as long as it is given,
// in two processes, with the rate and every fault. A process that is silent is hanging: it is ended, and its
// seed is named.
import { fork } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { Fault } from "./sessions.ts";

const PART = fileURLToPath(new URL("./fuzz-part.ts", import.meta.url));
const WORKERS = 2;
/** A busy machine may let a process wait for long; what takes a second of the processor tells of itself. */
const SILENCE = 180_000;

export type Message = { readonly seed: number; readonly cases: number; readonly faults: readonly Fault[] };

interface Sum {
  cases: number;
  lost: number;
  readonly faults: Fault[];
}

/** Seeds `from`, `from + WORKERS`, … until the time is over; one that hangs is left out. */
function worker(from: number, until: number, sum: Sum): Promise<void> {
  return new Promise((done) => {
    const child = fork(PART, [String(from), String(WORKERS), String(until)]);
    let at = from;
    let hung = false;
    const lost = () => {
      hung = true;
      child.kill("SIGKILL");
    };
    let timer = setTimeout(lost, SILENCE);
    child.on("message", ({ seed, cases, faults }: Message) => {
      clearTimeout(timer);
      timer = setTimeout(lost, SILENCE);
      at = seed;
      sum.cases += cases;
      sum.faults.push(...faults);
    });
    child.on("exit", (code) => {
      clearTimeout(timer);
      if (code === 0) return done();
      sum.lost++;
      console.log(`${hung ? "a hang" : "the process ended"} behind seed ${at}`);
      // Within one message's seeds, all after the last one told are left out.
      done(Date.now() < until ? worker(at + WORKERS * 51, until, sum) : undefined);
    });
  });
}

async function main(): Promise<void> {
  const minutes = Number(process.argv[2] ?? 1);
  const first = Number(process.argv[3] ?? 1);
  if (!(minutes > 0) || !Number.isInteger(first)) {
    console.error("npm run fuzz MINUTES [FROM]");
    process.exit(2);
  }
  const started = Date.now();
  const sum: Sum = { cases: 0, lost: 0, faults: [] };
  const until = started + minutes * 60_000;
  await Promise.all(Array.from({ length: WORKERS }, (_, i) => worker(first + i, until, sum)));
  const hours = (Date.now() - started) / 3_600_000;
  const kinds = new Map<string, Fault[]>();
  for (const one of sum.faults) {
    // The same fault in another book: numbers and names put aside.
    const key = one.says.replace(/\d+/g, "#").split("\n").slice(0, 2).join(" ");
    kinds.set(key, [...(kinds.get(key) ?? []), one]);
  }
  for (const faults of kinds.values()) {
    const [least] = faults.sort((a, b) => a.text.length - b.text.length);
    console.log(`\n${faults.length} times, first at seed ${least!.seed}: ${least!.says}`);
    console.log(JSON.stringify({ text: least!.text, shelf: least!.shelf, answers: least!.answers }));
  }
  console.log(`${sum.cases} cases, ${Math.round(sum.cases / hours)} an hour`);
  console.log(`${sum.faults.length} faults of ${kinds.size} kinds, ${sum.lost} hangs or ends`);
  process.exitCode = sum.faults.length + sum.lost > 0 ? 1 : 0;
}

await main();
