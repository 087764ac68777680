// How a book stands: every goal proved, broken with a job, or not settled; and what no job ever reaches. Work
// is done in portions, so that a screen can show progress and stop it; a verdict is kept for as long as what
// it rests on stays.
import { readable } from "../../language/layers/item.ts";
import type { Answers, GoalView, VerificationView } from "../../../core/view.ts";
import type { Plan } from "../../program/plan/plan.ts";
import type { Evaluation } from "../../program/eval/evaluate.ts";
import { writeValue } from "../../../core/format.ts";
import { NEVER, bits } from "../../program/intervals/interval-frame.ts";
import type { Box } from "./box.ts";
import { answersOf, typed } from "./job-boxes.ts";
import { type Goal, breaks, goalsOf } from "./goal.ts";
import { settledAtOnce } from "./at-once.ts";
import { type BreaksWith, EverySetting } from "./every-setting.ts";
import { Lemmas, leavesOutRefused } from "./lemmas.ts";
import { type NamedJob, Proof } from "./prove.ts";
import { type Target, neverGoal, reaches, targetsOf } from "./reach.ts";
import { sliceOf } from "./slice.ts";
import { shown } from "../../program/eval/show.ts";

/** Boxes that one goal may cost before it is called not settled. */
const MAX_BOXES = 12_000;
/** The same for a row or an alternative that no tried job reaches. */
const MOST_REACH = 1500;
/**
 * Boxes that each goal may cost in one round: what is cheap is settled before anything hard is gone on with.
 */
const ROUNDS = [20, 100, 500, 2500, MAX_BOXES];

/** What is to be shown; its proof is made when its turn comes: a large book has thousands. */
interface Task {
  readonly goal: () => Goal;
  readonly most: number;
  proof: Proof | undefined;
  /** One look at the whole book has shown it, or a worked example that it is reached. */
  isShown: boolean;
  /** What is known of the jobs that it does not leave out. */
  safe: Uint8Array | undefined;
}

const taskOf = (goal: () => Goal, most: number): Task => ({
  goal,
  most,
  proof: undefined,
  isShown: false,
  safe: undefined,
});

/** The worked examples of a book, evaluated one after the other: each is good until the next. */
export interface Examples {
  readonly count: number;
  readonly evaluate: (i: number) => Evaluation;
}

interface Worked {
  readonly works: (plan: Plan, answers: Answers) => Evaluation;
  readonly breaksWith: BreaksWith;
}

export class Verification {
  readonly plan: Plan;
  readonly #goals: readonly { readonly goal: Goal; readonly task: Task }[];
  /** Without a task where a worked example reaches it. */
  readonly #targets: readonly { readonly target: Target; readonly task: Task | undefined }[];
  /** In the order of their turns. */
  readonly #tasks: readonly Task[];
  readonly #examples: Examples;
  /** By target, the first example that reaches it. */
  readonly #reachedBy: ReadonlyMap<string, number>;
  readonly #works: (plan: Plan, answers: Answers) => Evaluation;
  readonly #old: ReadonlyMap<string, Proof>;
  readonly #lemmas: Lemmas;
  #jobs: readonly NamedJob[] | undefined;
  /** Worked examples that break a goal, where any do. */
  readonly #brokenBy = new Map<Task, NamedJob[]>();
  #settings: EverySetting | undefined;
  readonly #settingsBefore: EverySetting | undefined;
  readonly #breaksWith: BreaksWith;
  #looked = false;
  #round = 0;
  #turn = 0;

  /**
   * `works` works a job whole, to tell what comes out in a broken one; `breaksWith` does so with the dials
   * set in another way.
   */
  constructor(plan: Plan, examples: Examples, { works, breaksWith }: Worked, before?: Verification) {
    this.plan = plan;
    this.#works = works;
    this.#breaksWith = breaksWith;
    this.#examples = examples;
    const kept = before?.plan.registers === plan.registers ? before : undefined;
    this.#settingsBefore = kept === undefined ? undefined : kept.#settings;
    this.#old = new Map(
      (kept === undefined ? [] : kept.#tasks).flatMap(({ goal, proof }) =>
        proof === undefined ? [] : [[keyOf(goal()), proof] as const],
      ),
    );
    this.#goals = goalsOf(plan).map((goal) => ({ goal, task: taskOf(() => goal, MAX_BOXES) }));
    const targets = targetsOf(plan);
    this.#reachedBy = reachedBy(targets, examples, before === undefined ? undefined : before.#reachedBy);
    this.#targets = targets.map((target) => ({
      target,
      task: this.#reachedBy.has(keyOfTarget(target))
        ? undefined
        : taskOf(() => neverGoal(target), MOST_REACH),
    }));
    this.#tasks = [...this.#goals, ...this.#targets].flatMap(({ task }) => task ?? []);
    this.#lemmas = new Lemmas(
      plan,
      this.#tasks.map((task) => task.goal()),
      kept === undefined ? undefined : kept.#lemmas,
    );
  }

  /**
   * Looks at about so many boxes more, and at no more once it is late; true when there is no more to do.
   * However small the portion, something is looked at.
   */
  advance(boxes: number, late: () => boolean = () => false): boolean {
    if (!this.#looked) {
      if (!this.#lemmas.advance(boxes, late)) return false;
      this.#lookAtOnce();
    }
    let left = boxes;
    let moved = false;
    const isOver = () => moved && (left <= 0 || late());
    for (; this.#round < ROUNDS.length; this.#round++, this.#turn = 0)
      for (; this.#turn < this.#tasks.length; this.#turn++) {
        const task = this.#tasks[this.#turn]!;
        const most = Math.min(task.most, ROUNDS[this.#round]!);
        if (task.isShown) continue;
        if (task.proof === undefined) {
          if (isOver()) return false;
          task.proof = this.#proofOf(task);
          // A little is taken off for every goal, so that a thousand easy ones are not one portion.
          left -= 20;
        }
        const { proof } = task;
        while (!proof.over && proof.looked < most) {
          if (isOver()) return false;
          moved = true;
          const before = proof.looked;
          proof.advance(Math.max(1, Math.min(left, most - before)), late);
          left -= Math.max(1, proof.looked - before);
        }
      }
    this.#settings ??= new EverySetting(
      this.plan,
      this.#goals.flatMap(({ goal, task }) => (goal.sort === "promise" && isProved(task) ? [goal] : [])),
      {
        examples: this.#examplesAsJobs().slice(0, 3),
        breaksWith: this.#breaksWith,
        before: this.#settingsBefore,
      },
    );
    return this.#settings.advance(Math.max(1, left), late);
  }

  #lookAtOnce(): void {
    this.#looked = true;
    const stopped = this.plan.registers.byName.get("stopped!") ?? -1;
    const isLeavingOut = (task: Task) => leavesOutRefused(task.goal(), stopped);
    for (const safe of [this.#lemmas.known, undefined]) {
      const tasks = this.#tasks.filter((task) => isLeavingOut(task) === (safe !== undefined));
      const goals = tasks.map((task) => task.goal());
      const holds = settledAtOnce(this.plan, goals, safe);
      tasks.forEach((task, i) => {
        task.isShown = holds[i]!;
        task.safe = safe;
      });
    }
  }

  #proofOf(task: Task): Proof {
    const goal = task.goal();
    const old = this.#old.get(keyOf(goal));
    const examples = this.#examplesAsJobs();
    const seeds = this.#brokenBy.get(task) ?? [];
    const proof = new Proof(this.plan, goal, { seeds, examples, safe: task.safe });
    if (old !== undefined) proof.resume(old);
    return proof;
  }

  /** The worked examples, each looked at for goals that it breaks. */
  #examplesAsJobs(): readonly NamedJob[] {
    if (this.#jobs !== undefined) return this.#jobs;
    const open = this.#tasks.filter((task) => !task.isShown);
    const jobs: NamedJob[] = [];
    for (let i = 0; i < this.#examples.count; i++) {
      const { frame, given } = this.#examples.evaluate(i);
      const job = new Map(
        [...given].flatMap(([name, one]) => (one.is === "value" ? [[name, one.value] as const] : [])),
      );
      jobs.push(job);
      for (const task of open)
        if (breaks(task.goal(), frame)) this.#brokenBy.set(task, [...(this.#brokenBy.get(task) ?? []), job]);
    }
    this.#jobs = jobs;
    return jobs;
  }

  view(): VerificationView {
    const goals = this.#goals.map(({ goal, task }): GoalView => {
      const view = this.#goalView(goal, task);
      const settings = this.#settings?.viewOf(goal);
      return settings === undefined ? view : { ...view, settings };
    });
    const settled =
      goals.filter((goal) => goal.verdict !== "looking").length +
      this.#targets.filter(({ task }) => task === undefined || isDone(task)).length;
    const all = goals.length + this.#targets.length;
    return {
      goals,
      settled,
      all,
      done: settled === all,
      never: this.#targets.flatMap(({ target, task }) =>
        task !== undefined && isProved(task)
          ? [
              {
                id: target.id,
                at: target.at,
                says: target.says.endsWith("applies")
                  ? `${target.id} never applies.`
                  : `No job reaches ${target.says}.`,
              },
            ]
          : [],
      ),
    };
  }

  #goalView(goal: Goal, { proof, isShown }: Task): GoalView {
    const base = { id: goal.id, sort: goal.sort, says: goal.says };
    if (isShown) return { ...base, verdict: "proved" };
    if (proof === undefined) return { ...base, verdict: "looking" };
    const { verdict } = proof;
    switch (verdict.is) {
      case "proved":
        return { ...base, verdict: "proved" };
      case "broken": {
        const job = this.#whole(proof, verdict.job);
        return { ...base, verdict: "broken", job, gives: this.#gives(goal, job) };
      }
      case "open": {
        const rest = restOf(proof, verdict.rest);
        return {
          ...base,
          verdict: proof.over || proof.looked >= MAX_BOXES ? "not settled" : "looking",
          ...(proof.over
            ? { bound: "digits" as const }
            : proof.looked >= MAX_BOXES
              ? { bound: "boxes" as const }
              : {}),
          share: verdict.share,
          rest,
        };
      }
    }
  }

  /**
   * Answers for the asks that the goal does not rest on, so that the job can be worked whole: plain ones that
   * stop nothing.
   */
  #whole(proof: Proof, values: readonly number[]): Answers {
    const own = answersOf(proof.slice, values);
    const [example] = this.#examplesAsJobs();
    const rest = sliceOf(
      this.plan,
      this.plan.stops.concat(this.plan.steps).map((block) => block.when),
    ).asks.filter((ask) => !(ask.name in own));
    return {
      ...Object.fromEntries(
        rest.flatMap((ask) => {
          const value = example?.get(ask.name);
          return value === undefined ? [] : [[ask.name, typed(ask, value)]];
        }),
      ),
      ...own,
    };
  }

  #gives(goal: Goal, job: Answers): string {
    const evaluation = this.#works(this.plan, job);
    const block = this.plan.byId.get(goal.id);
    const names = block?.entry.statement.uses ?? [];
    return names
      .flatMap((name) => {
        const entry = this.plan.checked.entries[this.plan.checked.byName.get(name) ?? -1];
        const of = entry && this.plan.byId.get(entry.id);
        return of?.values.length === 1
          ? [comesOut(readable(name), shown(evaluation, of.values[0]!, name, "book"))]
          : [];
      })
      .slice(0, 5)
      .join(", ");
  }
}

/** "width is 5 mm", "width has no value: it divides by zero", "width waits for depth". */
function comesOut(name: string, { state, text }: Pick<ReturnType<typeof shown>, "state" | "text">): string {
  switch (state) {
    case "known":
      return `${name} is ${text}`;
    case "unknown":
      return `${name} ${text}`;
    case "impossible":
      return `${name} has no value: ${text}`;
  }
}

/** What a part of all jobs leaves of each ask, in words, where that is not all of it. */
function restOf({ slice }: Proof, { ranges }: Box): Record<string, string> {
  const rest: Record<string, string> = {};
  slice.asks.forEach((ask, i) => {
    const { low, high, words, flags = 0, cannotTell } = ranges[i]!;
    if (cannotTell === "yes") rest[ask.name] = "cannot tell";
    else if ((flags & NEVER) !== 0) rest[ask.name] = "not answered";
    else if (words !== undefined) {
      if (words !== ask.range.words)
        rest[ask.name] = bits(words)
          .map((word) => writeValue(word, ask.type, ask.unit))
          .join(" or ");
    } else if (low !== ask.range.low || high !== ask.range.high)
      rest[ask.name] = `${typed(ask, low)} to ${typed(ask, high)}`;
  });
  return rest;
}

const isProved = ({ proof, isShown }: Task): boolean => isShown || proof?.verdict.is === "proved";

/** Whether there is no more to do for it: settled, or as much was looked at as is allowed. */
const isDone = ({ proof, most, isShown }: Task): boolean =>
  isShown || (proof !== undefined && (proof.over || proof.looked >= most));

const keyOf = (goal: Goal): string => `${goal.id} ${goal.sort} ${goal.says}`;

const keyOfTarget = (target: Target): string => `${target.id} ${target.says}`;

/**
 * By target, an example that reaches it. Those that reached one before an edit are tried first: most often no
 * others need be evaluated.
 */
function reachedBy(
  targets: readonly Target[],
  { count, evaluate }: Examples,
  before: ReadonlyMap<string, number> | undefined,
): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  const first = new Set(before?.values());
  const order = [...first, ...Array.from({ length: count }, (_, i) => i).filter((i) => !first.has(i))];
  let left = targets;
  for (const i of order) {
    if (i >= count || left.length === 0) continue;
    const { frame } = evaluate(i);
    for (const target of left) if (reaches(target, frame)) found.set(keyOfTarget(target), i);
    left = left.filter((target) => !found.has(keyOfTarget(target)));
  }
  return found;
}
