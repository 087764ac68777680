// Promises that hold as the dials are set, asked again for every setting within their spans.
import type { Answers, SettingsView } from "../../../core/view.ts";
import type { Plan } from "../../program/plan/plan.ts";
import { settledAtOnce } from "./at-once.ts";
import { type Goal, placesOf } from "./goal.ts";
import { answersOf } from "./job-boxes.ts";
import { Lemmas } from "./lemmas.ts";
import { type NamedJob, Proof } from "./prove.ts";
import { hasRowsEndingAtDials, withFreeDials } from "./settings.ts";
import { type Slice, isDialAsk, sliceOf, turnedDials } from "./slice.ts";

/** Boxes that one promise may cost. */
const MOST_BOXES = 40;
const ROUNDS = [20, MOST_BOXES];

/** Whether a job breaks a promise with the dials set so: the book is read and worked with those settings. */
export type BreaksWith = (id: string, dials: Answers, job: Answers) => boolean;

interface Beside {
  readonly examples: readonly NamedJob[];
  readonly breaksWith: BreaksWith;
  readonly before: EverySetting | undefined;
}

interface Task {
  readonly goal: Goal;
  readonly slice: Slice;
  proof: Proof | undefined;
  found: SettingsView | undefined;
}

export class EverySetting {
  readonly #plan: Plan;
  readonly #tasks: ReadonlyMap<string, Task>;
  readonly #lemmas: Lemmas;
  readonly #examples: readonly NamedJob[];
  readonly #set: ReadonlyMap<string, number>;
  readonly #breaksWith: BreaksWith;
  #looked = false;
  #round = 0;

  /**
   * `goals`: promises that hold as the dials are set; `examples`: jobs that a break should look like;
   * `before`: what was found before an edit. A dial that was turned changes nothing of it.
   */
  constructor(plan: Plan, goals: readonly Goal[], { examples, breaksWith, before }: Beside) {
    this.#plan = withFreeDials(plan);
    this.#set = settingsOf(plan);
    this.#examples = [new Map(), ...examples].map((job) => new Map([...job, ...this.#set]));
    this.#breaksWith = breaksWith;
    const isFree = this.#plan.blocks.some((block) => isDialAsk({ block }) && block.answer >= 0);
    this.#tasks = new Map(isFree ? goals.map((goal) => [goal.id, this.#taskOf(goal, before)]) : []);
    const open = [...this.#tasks.values()].filter((task) => task.found === undefined);
    this.#lemmas = new Lemmas(
      this.#plan,
      open.map((task) => task.goal),
    );
  }

  #taskOf(goal: Goal, before: EverySetting | undefined): Task {
    const slice = sliceOf(this.#plan, placesOf(goal), true);
    const old = before === undefined ? undefined : before.#tasks.get(goal.id);
    if (
      old?.found !== undefined &&
      old.found.verdict !== "broken" &&
      old.goal.says === goal.says &&
      turnedDials(old.slice, slice)?.length === 0
    )
      return { goal, slice, proof: undefined, found: old.found };
    const found: SettingsView | undefined = hasRowsEndingAtDials(slice, this.#plan)
      ? { verdict: "not settled", bound: "chart rows" }
      : slice.asks.some(isDialAsk)
        ? undefined
        : { verdict: "proved" };
    return { goal, slice, proof: undefined, found };
  }

  /** Looks at about so many boxes more, and at no more once it is late; true when there is no more to do. */
  advance(boxes: number, late: () => boolean): boolean {
    if (!this.#looked && !this.#lemmas.advance(boxes, late)) return false;
    if (!this.#looked) this.#lookAtOnce();
    let left = boxes;
    for (; this.#round < ROUNDS.length; this.#round++)
      for (const task of this.#tasks.values()) {
        if (task.found !== undefined) continue;
        task.proof ??= this.#proofOf(task);
        const { proof } = task;
        while (!proof.over && proof.looked < ROUNDS[this.#round]!) {
          if (left <= 0 || late()) return false;
          const before = proof.looked;
          proof.advance(Math.max(1, Math.min(left, ROUNDS[this.#round]! - before)), late);
          left -= Math.max(1, proof.looked - before);
        }
        if (proof.over || proof.looked >= MOST_BOXES) task.found = this.#foundBy(task.goal, proof);
      }
    return true;
  }

  #lookAtOnce(): void {
    this.#looked = true;
    const open = [...this.#tasks.values()].filter((task) => task.found === undefined);
    const goals = open.map((task) => task.goal);
    const holds = settledAtOnce(this.#plan, goals, this.#lemmas.known);
    open.forEach((task, i) => {
      if (holds[i]) task.found = { verdict: "proved" };
    });
  }

  #proofOf({ goal, slice }: Task): Proof {
    // Each dial at its ends is tried first, in a few jobs.
    const turned = slice.asks
      .filter(isDialAsk)
      .flatMap(({ name, range }) =>
        this.#examples
          .slice(0, 4)
          .flatMap((job) => [range.low, range.high].map((value) => new Map([...job, [name, value]]))),
      );
    return new Proof(this.#plan, goal, {
      seeds: turned,
      examples: this.#examples,
      safe: this.#lemmas.known,
      slice,
    });
  }

  #foundBy(goal: Goal, { slice, verdict, over }: Proof): SettingsView {
    if (verdict.is === "proved") return { verdict: "proved" };
    if (verdict.is === "open") return { verdict: "not settled", bound: over ? "digits" : "boxes" };
    const all = Object.entries(answersOf(slice, verdict.job));
    const turned = new Set(
      slice.asks.flatMap((ask, i) =>
        isDialAsk(ask) && verdict.job[i] !== this.#set.get(ask.name) ? [ask.name] : [],
      ),
    );
    const isDial = new Set(slice.asks.filter(isDialAsk).map((ask) => ask.name));
    const dials = Object.fromEntries(all.filter(([name]) => turned.has(name)));
    const job = Object.fromEntries(all.filter(([name]) => !isDial.has(name)));
    // What breaks whatever is answered needs no answers.
    const shown = [{}, job].find((answers) => this.#breaksWith(goal.id, dials, answers));
    return shown === undefined
      ? { verdict: "not settled", bound: "digits" }
      : { verdict: "broken", dials, job: shown };
  }

  /** What is known of a promise; undefined where it is not among those that hold as set. */
  viewOf(goal: Goal): SettingsView | undefined {
    const task = this.#tasks.get(goal.id);
    return task && (task.found ?? { verdict: "looking" });
  }
}

/** The value of each dial as it is set. */
function settingsOf(plan: Plan): ReadonlyMap<string, number> {
  return new Map(
    plan.blocks.flatMap((block): [string, number][] => {
      const { entry, constants } = block;
      if (entry.statement?.body.keyword !== "dial" || constants.length !== 1) return [];
      return [[entry.statement.name!.text, constants[0]!.value]];
    }),
  );
}
