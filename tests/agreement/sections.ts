// The check in sections, each a question with its own table. `inTests` says which are part of `npm test`; the
// others are run by `npm run prove-check` until the program is mended.
import { type Chance, chance } from "../support/chance.ts";
import { type Typed, randomJob, unusableJob } from "./answers.ts";
import {
  type Proved,
  type Subject,
  judgeNever,
  judgeOwed,
  judgePromises,
  note,
  proved,
  subject,
} from "./judge.ts";
import { judgeNeedless } from "./needless.ts";
import type { Wants } from "./random-book.ts";
import type { Level } from "./random-rules.ts";
import type { Solver } from "./solver.ts";
import type { SmallBook } from "./syntax.ts";
import { type Tally, count } from "./tally.ts";
import { compareValues } from "./values.ts";

export interface Section {
  readonly title: string;
  readonly inTests: boolean;
  /** What the books of this section may have in them. */
  readonly wants: Wants;
  /** Of a book that is proved first, or of one that need not be. */
  readonly run:
    | { readonly proved: (of: Proved, tally: Tally) => Promise<void> }
    | { readonly read: (of: Subject, tally: Tally) => void };
}

const PLAIN: Wants = {};
const OUTSIDE: Wants = { outside: true };
const SLACK: Wants = { slack: true };
const CLASHES: Wants = { clash: true };
const EMPTIED: Wants = { emptied: true };

export const SECTIONS: readonly Section[] = [
  { title: "Values", inTests: true, wants: PLAIN, run: { read: (of, tally) => values(of, tally) } },
  {
    title: "Promises, every ask answered",
    inTests: true,
    wants: PLAIN,
    run: { proved: (of, tally) => judgePromises(of, "answered", tally) },
  },
  {
    title: "What every book owes, every ask answered",
    inTests: true,
    wants: PLAIN,
    run: { proved: judgeOwed },
  },
  {
    title: "Promises, any ask left open",
    inTests: true,
    wants: PLAIN,
    run: { proved: (of, tally) => judgePromises(of, "partly", tally) },
  },
  {
    title: "Never reached, every ask answered",
    inTests: true,
    wants: PLAIN,
    run: { proved: (of, tally) => judgeNever(of, "answered", tally) },
  },
  {
    title: "Never reached, any ask left open",
    inTests: true,
    wants: PLAIN,
    run: { proved: (of, tally) => judgeNever(of, "partly", tally) },
  },
  { title: "Asks called needless", inTests: true, wants: PLAIN, run: { read: judgeNeedless } },
  {
    title: "Promises, fallbacks outside the range",
    inTests: true,
    wants: OUTSIDE,
    run: { proved: (of, tally) => judgePromises(of, "partly", tally) },
  },
  {
    title: "Promises, roundings beside a multiple",
    inTests: true,
    wants: SLACK,
    run: { proved: (of, tally) => judgePromises(of, "answered", tally) },
  },
  {
    title: "Values where two rows fit",
    inTests: true,
    wants: CLASHES,
    run: { read: (of, tally) => values(of, tally) },
  },
  {
    title: "Promises where two rows fit",
    inTests: false,
    wants: CLASHES,
    run: { proved: (of, tally) => judgePromises(of, "partly", tally) },
  },
  {
    title: "Values where no row of a key is left",
    inTests: true,
    wants: EMPTIED,
    run: { read: (of, tally) => values(of, tally) },
  },
  {
    title: "Values where answers cannot be used",
    inTests: true,
    wants: PLAIN,
    run: { read: (of, tally) => values(of, tally, unusableJob) },
  },
];

const JOBS = 8;

/** Random jobs, every second one with asks left open, or such as `make` makes. */
function values(of: Subject, tally: Tally, make?: (by: Chance, book: SmallBook) => Typed): void {
  const by = chance(of.seed);
  count(tally, "books", of.level);
  for (let i = 0; i < JOBS; i++) {
    const job = make?.(by, of.small) ?? randomJob(by, of.small, i % 2 === 1);
    const { compared, close, differences } = compareValues(of.small, of.book, job);
    count(tally, "values", of.level, compared);
    count(tally, "tooClose", of.level, close);
    if (differences.length > 0)
      note(of, tally, "differ", `${differences.join("\n")}\n${JSON.stringify(job)}`);
  }
}

/** Runs one section for one book. */
export async function runSection(
  { run }: Section,
  of: Subject,
  tally: Tally,
  solver: Solver,
  patience: number,
): Promise<void> {
  if ("read" in run) run.read(of, tally);
  else await run.proved(proved(of, solver, patience), tally);
}

/** Runs these sections for one seed, at every level; `tallies` has one for each section. */
export async function runSeed(
  seed: number,
  sections: readonly Section[],
  tallies: readonly Tally[],
  solver: Solver,
  patience: number,
): Promise<void> {
  for (const level of [1, 2, 3] as const satisfies readonly Level[]) {
    // Sections over the same books share each book and its proofs.
    const subjects = new Map<Wants, Subject>();
    const proofs = new Map<Wants, Proved>();
    for (const [i, { wants, run }] of sections.entries()) {
      const of = subjects.get(wants) ?? subject(seed, level, wants);
      subjects.set(wants, of);
      if ("read" in run) {
        run.read(of, tallies[i]!);
        continue;
      }
      const one = proofs.get(wants) ?? proved(of, solver, patience);
      proofs.set(wants, one);
      await run.proved(one, tallies[i]!);
    }
  }
}
