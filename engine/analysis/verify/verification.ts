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
import { type Goal, goalsOf } from "./goal.ts";
import { Proof } from "./prove.ts";
import { type Target, neverGoal, reaches, targetsOf } from "./reach.ts";
import { sameSlice, sliceOf } from "./slice.ts";
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
}

export class Verification {
  readonly plan: Plan;
  readonly #goals: readonly { readonly goal: Goal; readonly task: Task }[];
  /** Without a task where a worked example reaches it. */
  readonly #targets: readonly { readonly target: Target; readonly task: Task | undefined }[];
  /** In the order of their turns. */
  readonly #tasks: readonly Task[];
  readonly #examples: readonly ReadonlyMap<string, number>[];
  readonly #works: (plan: Plan, answers: Answers) => Evaluation;
  readonly #old: ReadonlyMap<string, Proof>;
  #round = 0;
  #turn = 0;

  /**
   * `examples`: the worked examples' jobs; `works` works a job whole, to tell what comes out in a broken one.
   */
  constructor(
    plan: Plan,
    examples: readonly Evaluation[],
    works: (plan: Plan, answers: Answers) => Evaluation,
    before?: Verification,
  ) {
    this.plan = plan;
    this.#works = works;
    this.#examples = examples.map(
      (job) =>
        new Map(
          [...job.given].flatMap(([name, given]) =>
            given.is === "value" ? [[name, given.value] as const] : [],
          ),
        ),
    );
    const kept = before === undefined || before.plan.registers !== plan.registers ? [] : [...before.#tasks];
    this.#old = new Map(
      kept.flatMap(({ goal, proof }) =>
        proof === undefined || proof.verdict.is === "open" ? [] : [[keyOf(goal()), proof] as const],
      ),
    );
    this.#goals = goalsOf(plan).map((goal) => ({
      goal,
      task: { goal: () => goal, most: MAX_BOXES, proof: undefined },
    }));
    this.#targets = targetsOf(plan).map((target) => ({
      target,
      task: examples.some((job) => reaches(target, job.frame))
        ? undefined
        : { goal: () => neverGoal(target), most: MOST_REACH, proof: undefined },
    }));
    this.#tasks = [...this.#goals, ...this.#targets].flatMap(({ task }) => task ?? []);
  }

  /**
   * Looks at about so many boxes more, and at no more once it is late; true when there is no more to do.
   * However small the portion, something is looked at.
   */
  advance(boxes: number, late: () => boolean = () => false): boolean {
    let left = boxes;
    let moved = false;
    const isOver = () => moved && (left <= 0 || late());
    for (; this.#round < ROUNDS.length; this.#round++, this.#turn = 0)
      for (; this.#turn < this.#tasks.length; this.#turn++) {
        const task = this.#tasks[this.#turn]!;
        const most = Math.min(task.most, ROUNDS[this.#round]!);
        if (task.proof === undefined) {
          if (isOver()) return false;
          task.proof = this.#proofOf(task.goal());
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
    return true;
  }

  #proofOf(goal: Goal): Proof {
    const fresh = new Proof(this.plan, goal, this.#examples);
    const old = this.#old.get(keyOf(goal));
    return old !== undefined && sameSlice(old.slice, fresh.slice) ? old : fresh;
  }

  view(): VerificationView {
    const goals = this.#goals.map(({ goal, task }) => this.#goalView(goal, task.proof));
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
        task?.proof?.verdict.is === "proved"
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

  #goalView(goal: Goal, proof: Proof | undefined): GoalView {
    const base = { id: goal.id, sort: goal.sort, says: goal.says };
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
    const example = this.#examples[0];
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

/** Whether there is no more to do for it: settled, or as much was looked at as is allowed. */
const isDone = ({ proof, most }: Task): boolean =>
  proof !== undefined && (proof.over || proof.looked >= most);

const keyOf = (goal: Goal): string => `${goal.id} ${goal.sort} ${goal.says}`;
