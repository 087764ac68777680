// What the program says need not be asked: with all else answered, leaving it blank or answering it gives one
// card.
import { type Book, showJob, relevantQuestionsOf, workJob } from "../../engine/index.ts";
import type { JobView } from "../../core/view.ts";
import { type Chance, chance } from "../support/chance.ts";
import { type Typed, randomJob } from "./answers.ts";
import { type Subject, note } from "./judge.ts";
import { type Tally, count } from "./tally.ts";

const JOBS = 6;

export function judgeNeedless(of: Subject, tally: Tally): void {
  const by = chance(of.seed);
  count(tally, "books", of.level);
  for (let i = 0; i < JOBS; i++) {
    const job = randomJob(by, of.small, true);
    for (const ask of relevantQuestionsOf(workJob(of.book, job)).needless) {
      count(tally, "needless", of.level);
      const wrong = movedBy(of, by, job, ask);
      if (wrong !== undefined)
        note(of, tally, "wrongNeedless", `${ask} is called needless in ${JSON.stringify(job)}\n${wrong}`);
    }
  }
}

/** Undefined where the ask moves nothing. Other asks are answered as they were, else at random. */
function movedBy(of: Subject, by: Chance, job: Typed, ask: string): string | undefined {
  for (let i = 0; i < 3; i++) {
    const all = { ...randomJob(by, of.small, false), ...job };
    const { [ask]: _, ...without } = all;
    const given = { ...without, [ask]: randomJob(by, of.small, false)[ask]! };
    const [blank, answered] = [cardOf(of.book, without), cardOf(of.book, given)];
    if (blank !== answered)
      return `${JSON.stringify(given)} gives\n  ${answered}\nand without it\n  ${blank}`;
  }
  return undefined;
}

/** What a technician is shown. A job that is stopped needs no more answers, whatever else they would show. */
function cardOf(book: Book, typed: Typed): string {
  const view: JobView = showJob(workJob(book, typed));
  if (view.state === "stopped") return view.state;
  const lines = [...view.steps, ...view.cautions, ...view.stops].map((line) => line.text);
  return `${view.state}: ${lines.join("; ")}`;
}
