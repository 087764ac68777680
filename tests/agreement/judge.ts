// One small book held against the evaluator and the solver: its promises, and what the program says is never
// reached.
import type { GoalView, VerificationView } from "../../core/view.ts";
import { type Book, readBook, verificationOf } from "../../engine/index.ts";
import { chance } from "../support/chance.ts";
import { spent } from "../support/cpu.ts";
import type { Jobs } from "./all-jobs.ts";
import { type Printed, printed } from "./print.ts";
import { type Wants, randomSmall } from "./random-book.ts";
import type { Level } from "./random-rules.ts";
import type { Solver } from "./solver.ts";
import { type SmallBook, promisesOf } from "./syntax.ts";
import { type Line, type Tally, count, fault } from "./tally.ts";
import { type Outcome, breaks, leftOpen, reaches, withoutNumber, withoutWork } from "./outcomes.ts";
import { type Found, type Search, doneIn, find, searchOf } from "./truths.ts";

export interface Subject {
  readonly seed: number;
  readonly level: Level;
  readonly small: SmallBook;
  readonly printed: Printed;
  readonly book: Book;
}

export const subject = (seed: number, level: Level, wants: Wants): Subject =>
  subjectOf(randomSmall(seed, level, wants), seed, level);

export function subjectOf(small: SmallBook, seed: number, level: Level): Subject {
  const made = printed(small);
  return { seed, level, small, printed: made, book: readBook(made.text) };
}

/** A book that has been proved, with what is needed to find out what is true of it. */
export interface Proved extends Subject {
  readonly view: VerificationView;
  readonly took: number;
  readonly search: Search;
}

/** What the solver may take for one question. */
const SECONDS = 10;

/** `patience`: milliseconds of the processor after which what is not settled is left so. */
export function proved(of: Subject, solver: Solver, patience: number): Proved {
  const proof = verificationOf(of.book);
  let took = 0;
  for (let done = false; !done && took < patience; ) {
    const step = spent(() => proof.advance(2000));
    done = step.out;
    took += step.milliseconds;
  }
  return {
    ...of,
    view: proof.view(),
    took,
    search: searchOf(of.small, solver, chance(of.seed), SECONDS),
  };
}

export function note(of: Subject, tally: Tally, line: Line, detail: string): void {
  fault(tally, { line, level: of.level, seed: of.seed, text: of.printed.text, detail });
}

/** Every promise against what is true of it in the jobs asked about. */
export async function judgePromises(of: Proved, jobs: Jobs, tally: Tally): Promise<void> {
  const goals = of.view.goals.filter((goal) => goal.sort === "promise");
  if (goals.length !== promisesOf(of.small).length) throw new Error(`Promises are lost:\n${of.printed.text}`);
  await judgeGoals(
    of,
    goals.map((goal, at) => ({ goal, outcome: breaks(at) })),
    jobs,
    tally,
  );
}

/** What every book owes without being asked, over jobs with every ask answered. */
export async function judgeOwed(of: Proved, tally: Tally): Promise<void> {
  const owed = of.view.goals.flatMap((goal): Judged[] => {
    switch (goal.sort) {
      case "condition":
        return [{ goal, outcome: leftOpen(goal.id) }];
      case "numbers":
        return [{ goal, outcome: withoutNumber(goal.id, of.small) }];
      case "card":
        return [{ goal, outcome: withoutWork }];
      case "promise":
      case "chart":
        return [];
    }
  });
  await judgeGoals(of, owed, "answered", tally);
}

interface Judged {
  readonly goal: GoalView;
  readonly outcome: Outcome;
}

async function judgeGoals(of: Proved, goals: readonly Judged[], jobs: Jobs, tally: Tally): Promise<void> {
  count(tally, "books", of.level);
  const search = { ...of.search, took: 0 };
  for (const one of goals) {
    count(tally, "promises", of.level);
    judgeOne(of, await find(search, jobs, one.outcome), one, tally);
  }
  tally.times.ours[of.level - 1]!.push(of.took);
  tally.times.solver[of.level - 1]!.push(search.took);
}

function judgeOne(of: Proved, truth: Found, { goal, outcome }: Judged, tally: Tally): void {
  const really = doneIn(of.small, goal.job ?? {}, outcome);
  const line = lineOf(goal.verdict, truth, really);
  if (!["wrongProved", "wrongBroken", "witness", "open"].includes(line)) {
    count(tally, line, of.level);
    return;
  }
  const job = goal.verdict === "broken" ? goal.job : truth.is === "job" ? truth.job : undefined;
  note(
    of,
    tally,
    line,
    `${goal.sort}: ${goal.says}\n${job === undefined ? "It holds." : JSON.stringify(job)}`,
  );
}

/** What a verdict comes to. `really`: whether the job that is shown breaks the promise. */
function lineOf(verdict: GoalView["verdict"], truth: Found, really: ReturnType<typeof doneIn>): Line {
  switch (verdict) {
    case "proved":
      if (truth.is === "job") return "wrongProved";
      return truth.is === "open" ? "alone" : truth.is === "edge" ? "close" : "agreed";
    case "broken":
      if (really === true) return "agreed";
      if (really === undefined) return "close";
      return truth.is === "never" ? "wrongBroken" : "witness";
    case "not settled":
    case "looking":
      if (truth.is === "job" || truth.is === "never") return "open";
      return truth.is === "edge" ? "close" : "bothOpen";
  }
}

/** What the program names as reached by no job, against jobs that reach it. */
export async function judgeNever(of: Proved, jobs: Jobs, tally: Tally): Promise<void> {
  const keys = new Set(of.search.samples.answered[0]!.meaning.reach.map((one) => one.key));
  count(tally, "books", of.level);
  for (const one of of.view.never) {
    const key = of.printed.places.get(one.at.start) ?? one.id;
    if (!keys.has(key)) throw new Error(`No place is known for: ${one.says}\n${of.printed.text}`);
    count(tally, "never", of.level);
    const truth = await find(of.search, jobs, reaches(key));
    if (truth.is === "job") note(of, tally, "wrongNever", `${one.says}\n${JSON.stringify(truth.job)}`);
  }
}
