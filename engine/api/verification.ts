// The proofs of a book and of a job, as the rest of the program asks for them. The long ones are done in portions: the
// caller goes on with them for as long as it likes, shows how far they are, and stops when it wants to.
import type { Answers, DoubtView, GuardView, MattersView, StandingView, UnitSystem } from "../../core/view.ts";
import { type Book, type Job, insideOf, readBook, showJob, workJob, workedOf } from "./book.ts";
import { doubtOf } from "../analysis/sensitivity/tolerances.ts";
import { Guard, type Subject } from "../analysis/mutation/mutation-test.ts";
import { mattersOf } from "../analysis/sensitivity/relevant-questions.ts";
import { Standing } from "../analysis/verify/verification.ts";
import { type Worked, work } from "../program/eval/evaluate.ts";
import { workedFrom } from "./worked-example-text.ts";

export interface Portioned<View> {
  /** Goes on by about so much (boxes of jobs, or changes tried); true when there is no more to do. */
  readonly advance: (amount: number) => boolean;
  readonly view: () => View;
}

const examplesOf = (book: Book): readonly Worked[] => book.worked.map((one) => work(insideOf(book).plan, one.answers));

const standings = new WeakMap<Portioned<StandingView>, Standing>();

/** What the book promises and owes, and whether it holds. Given the standing before an edit, what the edit cannot have touched is kept. */
export function standingOf(book: Book, before?: Portioned<StandingView>): Portioned<StandingView> {
  const { plan } = insideOf(book);
  const standing = new Standing(plan, examplesOf(book), (p, answers) => work(p, answers), before && standings.get(before));
  const made: Portioned<StandingView> = { advance: (boxes) => standing.advance(boxes), view: () => standing.view() };
  standings.set(made, standing);
  return made;
}

/** How well the worked examples guard the book. */
export function guardOf(book: Book): Portioned<GuardView> {
  const subjectOf = (of: Book): Subject => {
    const { plan } = insideOf(of);
    // Only the book as it stands is asked what its examples reach.
    return { text: of.text, plan, examples: of === book ? examplesOf(of) : [], passing: new Set(of.worked.filter((one) => one.passes).map((one) => one.name)), errors: of.findings.filter((finding) => finding.weight === "error").length };
  };
  const guard = new Guard(subjectOf(book), (text) => subjectOf(readBook(text, book)), (answers, name, id) => {
    const job = workJob(book, answers);
    const row = book.rows.find((one) => one.id === id);
    const gives = showJob(job).values.flatMap((value) => (row?.name !== undefined && (value.name === row.name || value.name.startsWith(`${row.name}.`)) ? [value.name] : []));
    return workedFrom(job, name, `Guards ${id}`, gives);
  });
  return { advance: (changes) => guard.advance(changes), view: () => guard.view() };
}

/** What the job's tolerances leave open; undefined where no answer has one. */
export const doubts = (job: Job, units: UnitSystem = "book"): DoubtView | undefined => doubtOf(workedOf(job), units);

/** Which unanswered asks can still change the card, the one that settles soonest first. */
export const whatMatters = (job: Job): MattersView => mattersOf(workedOf(job));

export type { Answers };
