// Comparing two books, as the rest of the program asks for it: by rule, in words, and by effect, over jobs
// worked by both.
import type { Answers, RuleChangeView, ComparisonView } from "../../core/view.ts";
import { type Book, internalsOf, readBook } from "./book.ts";
import type { Entry } from "../language/check/book.ts";
import type { Portioned } from "./verification.ts";
import { showEvaluation } from "../program/eval/show.ts";
import { turningOf } from "../analysis/sensitivity/tolerances.ts";
import { evaluate } from "../program/eval/evaluate.ts";
import { type Group, groupsOf, withChanges } from "../analysis/compare/groups.ts";
import { type LayeredSide, headAlone, layeredPair } from "../analysis/compare/layered-books.ts";
import { ruleChanges } from "../analysis/compare/rules.ts";
import { madeUpJobs } from "../analysis/compare/made-up-jobs.ts";
import { type JobToCompare, type ComparedBook, Comparison } from "../analysis/compare/compare-books.ts";

/** What the second book writes otherwise than the first, statement by statement. */
export const compareRules = (before: Book, after: Book): readonly RuleChangeView[] =>
  pairOf(before, after).changes;

interface Pair {
  readonly changes: readonly RuleChangeView[];
  readonly groups: readonly Group[];
  /** The first book with these changes made. */
  readonly bookWith: (done: readonly RuleChangeView[]) => Book;
}

function pairOf(before: Book, after: Book): Pair {
  if (before.under.length === 0 && after.under.length === 0) {
    const [old, fresh] = [entriesOf(before), entriesOf(after)];
    const changes = ruleChanges(old, fresh);
    return {
      changes,
      groups: groupsOf(changes, old, fresh),
      bookWith: (done) =>
        readBook(
          withChanges({ text: before.text, entries: old }, { text: after.text, entries: fresh }, done),
          before,
        ),
    };
  }
  const one = standingIn(before, after);
  const pair = layeredPair(sideOf(one), sideOf(standingIn(after, before)));
  return {
    ...pair,
    bookWith: (done) => {
      const { text, shelf } = pair.madeOf(done);
      return readBook(text, one, shelf);
    },
  };
}

/**
 * The book itself; or, where the other one is a layer over it, that layer with nothing said, which works
 * every job as it does. The book may be a layer itself.
 */
function standingIn(book: Book, other: Book): Book {
  const head = other.under.some((one) => one.as === "amended") ? headAlone(sideOf(other), book) : undefined;
  return head === undefined ? book : readBook(head.text, undefined, head.shelf);
}

function sideOf(book: Book): LayeredSide {
  const { checked, shelf } = internalsOf(book);
  return { checked, text: book.text, shelf };
}

export interface CompareOptions {
  /** Jobs from a log, by name. */
  readonly logged?: readonly { readonly name: string; readonly answers: Answers }[];
  /** How many jobs are made up at least; 0 for none. */
  readonly spread?: number;
  readonly seed?: number;
}

export interface PortionedComparison extends Portioned<ComparisonView> {
  /** Of the jobs that differ, those from index `from` on: a caller that asks repeatedly has the others. */
  view(from?: number): ComparisonView;
}

/**
 * Works the worked examples of both books, logged jobs and a spread by both, and finds for every output that
 * differs the rule change that made it differ.
 */
export function compareBooks(
  before: Book,
  after: Book,
  { logged = [], spread = 100, seed = 1 }: CompareOptions = {},
): PortionedComparison {
  const { groups, bookWith } = pairOf(before, after);
  const names = new Map<string, JobToCompare>();
  for (const book of [after, before])
    for (const one of book.worked) {
      const known = names.get(one.name);
      if (known === undefined || JSON.stringify(known.answers) !== JSON.stringify(one.answers))
        names.set(known === undefined ? one.name : `${one.name} (before)`, {
          name: one.name,
          from: "worked",
          answers: one.answers,
        });
    }
  const real: JobToCompare[] = [
    ...names.values(),
    ...logged.map((one): JobToCompare => ({ ...one, from: "logged" })),
  ];
  const plans = [internalsOf(before).plan, internalsOf(after).plan];
  const made =
    spread === 0
      ? { jobs: [], reached: 0, toReach: 0 }
      : madeUpJobs(
          plans,
          spread,
          seed,
          real.slice(0, 500).map((job) => plans.map((plan) => evaluate(plan, job.answers))),
        );
  const jobs = [
    ...real,
    ...made.jobs.map((answers, n): JobToCompare => ({ name: `made up ${n + 1}`, from: "spread", answers })),
  ];
  // Drawings are made of values that are compared already.
  const comparedBook = (book: Book): ComparedBook => ({
    work: (answers, near) => evaluate(internalsOf(book).plan, answers, near),
    show: (evaluation) => showEvaluation(evaluation, "book", turningOf(evaluation)),
    turning: (evaluation) => turningOf(evaluation),
    given: new Set(
      book.rows.flatMap((row) => (row.keyword === "dial" && row.name !== undefined ? [row.name] : [])),
    ),
  });
  const comparison = new Comparison({
    before: comparedBook(before),
    after: comparedBook(after),
    groups,
    withChanges: (done) => comparedBook(bookWith(done)),
    jobs,
    spread: made,
  });
  return { advance: (count) => comparison.advance(count), view: (from) => comparison.view(from) };
}

const entriesOf = (book: Book): readonly Entry[] => internalsOf(book).checked.entries;
