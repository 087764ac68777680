// The mutation test: what no worked example reaches, and which small changes to a rule no example notices,
// each with a job in which the two books differ where one is found.
import { type Span, applyEdits } from "../../../core/span.ts";
import type { Answers, MutationTestView, UnnoticedView } from "../../../core/view.ts";
import type { Plan } from "../../program/plan/plan.ts";
import type { Evaluation } from "../../program/eval/evaluate.ts";
import { worker, asksOf } from "../../program/eval/evaluate.ts";
import { typed } from "../verify/job-boxes.ts";
import { type Mutation, mutationsOf } from "./mutate.ts";
import { reaches, targetsOf } from "../verify/reach.ts";
import { sliceOf } from "../verify/slice.ts";
import { sampleValue } from "../verify/samples.ts";
import { seeded } from "../../../core/seeded.ts";

/** A book as the mutation test needs it: read again after a change. */
export interface Subject {
  readonly text: string;
  readonly plan: Plan;
  readonly examples: readonly Evaluation[];
  /** Names of worked examples that pass, and how many findings there are. */
  readonly passing: ReadonlySet<string>;
  readonly errors: number;
}

export class MutationTest {
  readonly #subject: Subject;
  readonly #read: (text: string) => Subject;
  readonly #workedFrom: (answers: Answers, name: string, id: string) => string;
  readonly #changes: readonly Mutation[];
  readonly #unnoticed: UnnoticedView[] = [];
  readonly #unreached: readonly { id: string; at: Span; says: string }[];
  #next = 0;

  /** `read` reads a changed text; `workedFrom` writes a job of the book as it stands as a worked example. */
  constructor(
    subject: Subject,
    read: (text: string) => Subject,
    workedFrom: (answers: Answers, name: string, id: string) => string,
  ) {
    this.#subject = subject;
    this.#read = read;
    this.#workedFrom = workedFrom;
    this.#changes = mutationsOf(subject.plan.checked);
    this.#unreached = targetsOf(subject.plan)
      .filter((target) => !subject.examples.some((job) => reaches(target, job.frame)))
      .map(({ id, at, says }) => ({ id, at, says: `No worked example reaches ${says}.` }));
  }

  /** Tries so many changes more; true when all are tried. */
  advance(count: number): boolean {
    for (let n = 0; n < count && this.#next < this.#changes.length; n++) {
      const change = this.#changes[this.#next++]!;
      const after = this.#read(applyEdits(this.#subject.text, change.edits));
      const noticed =
        after.errors > this.#subject.errors ||
        [...this.#subject.passing].some((name) => !after.passing.has(name));
      if (!noticed) this.#unnoticed.push(this.#unnoticedView(change, after));
    }
    return this.#next >= this.#changes.length;
  }

  view(): MutationTestView {
    return {
      unreached: this.#unreached,
      tried: this.#next,
      noticed: this.#next - this.#unnoticed.length,
      unnoticed: [...this.#unnoticed],
      done: this.#next >= this.#changes.length,
      all: this.#changes.length,
    };
  }

  #unnoticedView(change: Mutation, after: Subject): UnnoticedView {
    const job = differingJob(this.#subject.plan, after.plan, change.id);
    const base = { id: change.id, at: change.at, says: change.says };
    return job === undefined
      ? base
      : { ...base, job, worked: this.#workedFrom(job, `guard-${this.#next}`, change.id) };
  }
}

/**
 * A job whose values differ between two plans of one book: tried at the numbers where either plan turns, and
 * just beside them.
 */
function differingJob(one: Plan, two: Plan, id: string): Answers | undefined {
  const changed = one.byId.get(id);
  const places = [
    ...(changed?.outputs ?? []),
    ...(changed && changed.when >= 0 ? [changed.when] : []),
    ...(changed && changed.slot >= 0 ? changed.writes : []),
  ];
  const lines = one.steps.concat(one.stops, one.cautions).map((block) => block.when);
  const asks = sliceOf(one, places.length > 0 ? places : lines).asks;
  const others = new Map(sliceOf(two, places.length > 0 ? places : lines).asks.map((ask) => [ask.name, ask]));
  if (asks.length === 0) return undefined;
  const [workOne, workTwo] = [worker(one), worker(two)];
  const order = asksOf(one).map((block) => block.entry.statement.name!.text);
  const chance = seeded(7);
  const outcomes = [...places, ...lines];
  for (let n = 0; n < 3000; n++) {
    const values = new Map(
      asks.map((ask) => [
        ask.name,
        sampleValue(ask, [...ask.cuts, ...(others.get(ask.name)?.cuts ?? [])], 0.7, chance),
      ]),
    );
    const row = Float64Array.from(order, (name) => values.get(name) ?? Number.NaN);
    const before = outcomes.map((register) => workOne(row).num[register]!);
    // The same sums in the same places: the second plan has its own frame.
    const frame = workTwo(row);
    if (outcomes.some((register, i) => !Object.is(before[i], frame.num[register]!)))
      return Object.fromEntries(asks.map((ask) => [ask.name, typed(ask, values.get(ask.name)!)]));
  }
  return undefined;
}
