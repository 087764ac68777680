// What is true of a book, found without the program: by random jobs, then by the solver, whose cases
// count only once the evaluator has confirmed them in exact fractions.
import type { Chance } from "../support/chance.ts";
import { type AllJobs, type Jobs, allJobs, jobOf } from "./all-jobs.ts";
import { type Typed, randomJob } from "./answers.ts";
import { type ExactTruth, exact } from "./exact.ts";
import type { Outcome } from "./outcomes.ts";
import type { Solver } from "./solver.ts";
import type { SmallBook } from "./syntax.ts";
import { type ExactMeaning, evaluated } from "./values.ts";

/** `edge`: only jobs closer to a turn than anyone measures could do it; `open`: the solver does not say. */
export type Found = { readonly is: "never" | "edge" | "open" } | { readonly is: "job"; readonly job: Typed };

/** Closer than this (in mm, or as a plain number) to a comparison's turn nothing is measured. */
const CLEAR = "0.0001";

export interface Search {
  readonly small: SmallBook;
  readonly solver: Solver;
  readonly seconds: number;
  /** Random jobs, worked once for all that is asked of the book. */
  readonly samples: Readonly<
    Record<Jobs, readonly { readonly job: Typed; readonly meaning: ExactMeaning }[]>
  >;
  readonly formulas: Map<Jobs, AllJobs>;
  /** Milliseconds that the solver took. */
  took: number;
}

export function searchOf(small: SmallBook, solver: Solver, by: Chance, seconds: number): Search {
  const draw = (partly: boolean, count: number) =>
    Array.from({ length: count }, () => {
      const job = randomJob(by, small, partly);
      return { job, meaning: evaluated(small, job)! };
    });
  return {
    small,
    solver,
    seconds,
    samples: { answered: draw(false, 40), partly: draw(true, 40) },
    formulas: new Map(),
    took: 0,
  };
}

const allOf = (search: Search, jobs: Jobs): AllJobs => {
  const known = search.formulas.get(jobs) ?? allJobs(search.small, jobs);
  search.formulas.set(jobs, known);
  return known;
};

export const doneIn = (small: SmallBook, job: Typed, outcome: Outcome): ExactTruth | "unreadable" => {
  const meaning = evaluated(small, job);
  return meaning === undefined ? "unreadable" : outcome(meaning, exact);
};

export async function find(search: Search, jobs: Jobs, outcome: Outcome): Promise<Found> {
  for (const kind of jobs === "partly" ? (["answered", "partly"] as const) : (["answered"] as const)) {
    const one = search.samples[kind].find(({ meaning }) => outcome(meaning, exact) === true);
    if (one !== undefined) return { is: "job", job: one.job };
  }
  const started = performance.now();
  const found = await solve(search, jobs, outcome);
  search.took += performance.now() - started;
  return found;
}

async function solve(search: Search, jobs: Jobs, outcome: Outcome): Promise<Found> {
  const { formulas, meaning, names } = allOf(search, jobs);
  const goal = outcome(meaning, formulas);
  if (goal.text === "false") return { is: "never" };
  const text = `${formulas.lines.join("\n")}\n(assert ${goal.text})`;
  for (const clear of ["", `\n${formulas.clear(CLEAR)}`]) {
    const told = await search.solver.ask(text + clear, names, search.seconds);
    if (told.is === "open") return { is: "open" };
    if (told.is === "holds") return { is: clear === "" ? "never" : "edge" };
    const job = jobOf(search.small, told.values);
    if (doneIn(search.small, job, outcome) === true) return { is: "job", job };
  }
  return { is: "edge" };
}
