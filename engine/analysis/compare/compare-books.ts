// Compares two books by what they do: both work the same jobs, every output that differs is listed, and the
// rule change that caused it is found by making the changes one at a time. The work is done in portions of
// so many jobs.
import type {
  Answers,
  ChangeGroupView,
  JobView,
  RuleChangeView,
  ComparisonView,
  ComparedFrom,
  ComparedJob,
  ComparedOutput,
} from "../../../core/view.ts";
import type { Evaluation } from "../../program/eval/evaluate.ts";
import type { Turning } from "../../program/eval/status.ts";
import type { Group } from "./groups.ts";
import { outputsOf, someOutputs } from "./outputs.ts";

/** A book as the comparison needs it. */
export interface ComparedBook {
  /**
   * `near` is the same job worked by a book that this one was read from: only what differs is worked again.
   */
  readonly work: (answers: Answers, near?: Evaluation) => Evaluation;
  readonly show: (evaluation: Evaluation) => JobView;
  /** What the tolerances of the answers leave open. */
  readonly turning: (evaluation: Evaluation) => Turning | undefined;
  /**
   * Values that are given and not worked out: its dials. That they differ is a change of a rule, not what the
   * change does.
   */
  readonly given: ReadonlySet<string>;
}

export interface JobToCompare {
  readonly name: string;
  readonly from: ComparedFrom;
  readonly answers: Answers;
}

/** Of the rows, alternatives and lines to reach, how many the compared jobs reach. */
interface Spread {
  readonly reached: number;
  readonly toReach: number;
}

export interface ComparisonInput {
  readonly before: ComparedBook;
  readonly after: ComparedBook;
  readonly groups: readonly Group[];
  /** The first book with some of the changes made. */
  readonly withChanges: (changes: readonly RuleChangeView[]) => ComparedBook;
  readonly jobs: readonly JobToCompare[];
  readonly spread: Spread;
}

/**
 * Most groups that are tried alone; a book rewritten from end to end gets its differences without their
 * causes.
 */
const MOST_GROUPS = 400;

export class Comparison {
  readonly #before: ComparedBook;
  readonly #after: ComparedBook;
  readonly #groups: readonly Group[];
  readonly #withChanges: (changes: readonly RuleChangeView[]) => ComparedBook;
  readonly #alone = new Map<number, ComparedBook>();
  readonly #allBut = new Map<number, ComparedBook>();
  readonly #jobs: readonly JobToCompare[];
  readonly #moved: ComparedJob[] = [];
  /**
   * By group: how many jobs it moves; by origin: how many were worked and moved. Counted as the jobs are
   * compared, so that a view costs the same at the ten-thousandth job as at the first.
   */
  readonly #movedBy: number[];
  readonly #counts = {
    worked: { worked: 0, moved: 0 },
    logged: { worked: 0, moved: 0 },
    spread: { worked: 0, moved: 0 },
  };
  readonly #spread: Spread;
  #next = 0;

  constructor({ before, after, groups, withChanges, jobs, spread }: ComparisonInput) {
    this.#before = before;
    this.#after = after;
    this.#groups = groups;
    this.#movedBy = groups.map(() => 0);
    this.#withChanges = withChanges;
    this.#jobs = jobs;
    this.#spread = spread;
  }

  /** Compares so many jobs more; true when all are compared. */
  advance(count: number): boolean {
    for (let n = 0; n < count && this.#next < this.#jobs.length; n++)
      this.#compare(this.#jobs[this.#next++]!);
    return this.#next >= this.#jobs.length;
  }

  /** How far it is; of the jobs that moved, those from place `from` on. */
  view(from = 0): ComparisonView {
    const counts = {
      worked: { ...this.#counts.worked },
      logged: { ...this.#counts.logged },
      spread: { ...this.#counts.spread },
    };
    const groups = this.#groups.map(
      ({ changes }, g): ChangeGroupView => ({ changes, jobs: this.#movedBy[g]! }),
    );
    return {
      groups,
      moved: this.#moved.slice(from),
      counts,
      ...this.#spread,
      done: this.#next >= this.#jobs.length,
      settled: this.#next,
      all: this.#jobs.length,
    };
  }

  #compare(job: JobToCompare): void {
    const near = this.#before.work(job.answers);
    const [before, after] = [this.#before.show(near), this.#after.show(this.#after.work(job.answers))];
    const differs = differences(before, after).filter(
      ({ name }) => !this.#before.given.has(name) && !this.#after.given.has(name),
    );
    this.#counts[job.from].worked += 1;
    if (differs.length === 0) return;
    this.#counts[job.from].moved += 1;
    const causes = this.#causes(near, outputsOf(before), outputsOf(after), differs);
    for (const g of new Set(causes.flatMap(({ by }) => by))) this.#movedBy[g]! += 1;
    this.#moved.push({
      ...job,
      stateBefore: before.state,
      stateAfter: after.state,
      outputs: differs.map((one, i) => ({ ...one, ...causes[i]! })),
    });
  }

  /** For each output: the groups that alone move it; if none does, those that do it together. */
  #causes(
    near: Evaluation,
    before: ReadonlyMap<string, string>,
    after: ReadonlyMap<string, string>,
    differs: readonly { readonly name: string }[],
  ): readonly Pick<ComparedOutput, "by" | "together">[] {
    const tried =
      this.#groups.length > MOST_GROUPS ? [] : this.#groups.map((_, g) => g).filter((g) => this.#canMove(g));
    const outputs = (book: ComparedBook, names: readonly string[]) => {
      const evaluation = book.work(near.answers, near);
      return someOutputs(evaluation, new Set(names), book.turning(evaluation));
    };
    const alone = tried.map((g) => ({
      g,
      out: outputs(
        this.#bookWith(this.#alone, g, [g]),
        differs.map(({ name }) => name),
      ),
    }));
    const found = differs.map(({ name }) =>
      alone.filter(({ out }) => out.get(name) !== before.get(name)).map(({ g }) => g),
    );
    if (found.every((by) => by.length > 0)) return found.map((by) => ({ by }));
    // No change alone does it: those do together without any one of which it would not come out as it does.
    const open = differs.map(({ name }) => name).filter((_, i) => found[i]!.length === 0);
    const without = tried.map((g) => ({
      g,
      out: outputs(
        this.#bookWith(
          this.#allBut,
          g,
          tried.filter((other) => other !== g),
        ),
        open,
      ),
    }));
    return found.map((by, i) => {
      if (by.length > 0) return { by };
      const { name } = differs[i]!;
      const needed = without.filter(({ out }) => out.get(name) !== after.get(name)).map(({ g }) => g);
      return { by: needed.length > 0 ? needed : tried, together: true };
    });
  }

  #canMove(g: number): boolean {
    return this.#groups[g]!.changes.some(
      (change) => !change.wordsOnly && !/^(worked|promise|picture) /.test(change.id),
    );
  }

  #bookWith(known: Map<number, ComparedBook>, key: number, made: readonly number[]): ComparedBook {
    const earlier = known.get(key);
    if (earlier !== undefined) return earlier;
    const book = this.#withChanges(made.flatMap((g) => [...this.#groups[g]!.changes]));
    known.set(key, book);
    return book;
  }
}

function differences(
  before: JobView,
  after: JobView,
): readonly { readonly name: string; readonly before: string; readonly after: string }[] {
  const [a, b] = [outputsOf(before), outputsOf(after)];
  const bothReady = before.state === "ready" && after.state === "ready";
  const found: { name: string; before: string; after: string }[] = [];
  for (const name of new Set([...a.keys(), ...b.keys()])) {
    const [x, y] = [a.get(name), b.get(name)];
    if (x === y || (!bothReady && (name.startsWith("step ") || name === "order of steps"))) continue;
    if (name === "order of steps") {
      // A ready card may have no steps at all, as that of an empty book; then each step that came or went is
      // listed by itself.
      if (x !== undefined && y !== undefined && !sameOrder(x, y)) found.push({ name, before: x, after: y });
      continue;
    }
    found.push({ name, before: wordsOf(before, name, x), after: wordsOf(after, name, y) });
  }
  return found;
}

/**
 * Whether the steps that both have follow one another alike. Steps that came or went are listed by
 * themselves.
 */
function sameOrder(before: string, after: string): boolean {
  const [x, y] = [before.split(/ (?=step )/), after.split(/ (?=step )/)];
  return x.filter((id) => y.includes(id)).join("\n") === y.filter((id) => x.includes(id)).join("\n");
}

function wordsOf(view: JobView, name: string, text: string | undefined): string {
  if (text === undefined) return /^(step|stop|caution) /.test(name) ? "does not apply" : "is not in the book";
  const value = view.values.find((one) => one.name === name);
  return value === undefined ? text : value.text;
}
