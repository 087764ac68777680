// A spread of made-up jobs for comparing two books: seeded, so it is the same each time, and chosen so
// that together the jobs reach every chart row, alternative and line that can be found. What chance does not
// reach in time is looked for by proof.
import type { Answers } from "../../../core/view.ts";
import type { Plan } from "../../program/plan/plan.ts";
import { CANNOT_TELL } from "../verify/box.ts";
import { typed } from "../verify/job-boxes.ts";
import { Proof } from "../verify/prove.ts";
import { type Target, neverGoal, reaches, targetsOf } from "../verify/reach.ts";
import { type Ask, sliceOf } from "../verify/slice.ts";
import { sampleValue } from "../verify/samples.ts";
import { seeded } from "../../../core/seeded.ts";
import { type Evaluation, asksOf, evaluate, worker } from "../../program/eval/evaluate.ts";

export interface MadeUpJobs {
  readonly jobs: readonly Answers[];
  /**
   * Targets of all the books that a job of the spread or one given reaches; and targets in all but those
   * proved to be out of reach.
   */
  readonly reached: number;
  readonly toReach: number;
}

/** Boxes that the search for one target may cost. */
const MOST_BOXES = 400;
/** Jobs made up by chance before proof takes over. */
const MOST_RANDOM_JOBS = 4000;

/** How often an ask is left blank that has a value then. */
const BLANK = 0.15;

interface Side {
  readonly plan: Plan;
  readonly run: ReturnType<typeof worker>;
  readonly order: readonly string[];
  readonly left: Set<Target>;
}

type Values = ReadonlyMap<string, number>;
/** Each ask by its name, as every book has it. */
type AskTable = ReadonlyMap<string, readonly Ask[]>;

/**
 * At least `count` jobs, more where reaching every target takes more. `given`: real jobs, worked by each of
 * the plans: what they reach is not looked for again, and half of the spread are neighbours of theirs.
 */
export function madeUpJobs(
  plans: readonly Plan[],
  count: number,
  seed: number,
  given: readonly (readonly Evaluation[])[],
): MadeUpJobs {
  const sides = plans.map(
    (plan): Side => ({
      plan,
      run: worker(plan),
      order: asksOf(plan).map((block) => block.entry.statement.name!.text),
      left: new Set(targetsOf(plan)),
    }),
  );
  const all = openIn(sides);
  sides.forEach((side, s) => {
    for (const job of given)
      for (const target of side.left) if (reaches(target, job[s]!.frame)) side.left.delete(target);
  });
  const asks = askTable(plans);
  const chance = seeded(seed);
  const models = given.map((job) => valuesOf(job[0]!, asks)).filter((one) => one.size > 0);
  const jobs: Values[] = [];
  const plain: Values[] = [];
  for (let n = 0; n < MOST_RANDOM_JOBS && (openIn(sides) > 0 || plain.length < count); n++) {
    const values = madeUp(
      asks,
      chance() < 0.5 && models.length > 0 ? models[Math.floor(chance() * models.length)]! : undefined,
      chance,
    );
    if (reach(sides, values, asks)) jobs.push(values);
    else if (plain.length < count) plain.push(values);
  }
  let never = 0;
  for (const side of sides)
    for (const target of [...side.left]) {
      if (!side.left.has(target)) continue;
      const proof = new Proof(side.plan, neverGoal(target));
      while (!proof.over && proof.looked < MOST_BOXES) proof.advance(100);
      const { verdict } = proof;
      switch (verdict.is) {
        case "open":
          break;
        case "proved":
          side.left.delete(target);
          never++;
          break;
        case "broken": {
          // The proof names the answers that it needs; the others are made up to complete the job.
          const values = new Map(madeUp(asks, undefined, chance));
          proof.slice.asks.forEach((ask, i) => values.set(ask.name, verdict.job[i]!));
          reach(sides, values, asks);
          jobs.push(values);
        }
      }
    }
  const chosen = [...jobs, ...plain.slice(0, Math.max(0, count - jobs.length))];
  const toReach = all - never;
  return {
    jobs: chosen.map((values) => answersIn(values, asks)),
    reached: toReach - openIn(sides),
    toReach,
  };
}

const answersIn = (values: Values, asks: AskTable): Answers =>
  Object.fromEntries([...values].map(([name, value]) => [name, typed(asks.get(name)![0]!, value)]));

const openIn = (sides: readonly Side[]): number => sides.reduce((sum, side) => sum + side.left.size, 0);

/** Takes off what this job reaches; true if it was the first to reach something. */
function reach(sides: readonly Side[], values: Values, asks: AskTable): boolean {
  let fresh = false;
  for (const side of sides) {
    if (side.left.size === 0) continue;
    const answers = side.order.map((name) => values.get(name) ?? Number.NaN);
    const frame = answers.includes(CANNOT_TELL)
      ? evaluate(side.plan, answersIn(values, asks)).frame
      : side.run(Float64Array.from(answers));
    for (const target of side.left)
      if (reaches(target, frame)) {
        side.left.delete(target);
        fresh = true;
      }
  }
  return fresh;
}

/** A job from nothing, or one that differs from a real job in a few answers. */
function madeUp(asks: AskTable, model: Values | undefined, chance: () => number): Values {
  const few = 3 / Math.max(3, asks.size);
  return new Map(
    [...asks].map(([name, both]) => {
      const kept = model?.get(name);
      // A blank has a value of its own where a book takes one.
      if (both.some((one) => one.block.entry.checked.ask?.blank !== undefined) && chance() < BLANK)
        return [name, Number.NaN] as const;
      return [
        name,
        kept !== undefined && chance() > few
          ? kept
          : sampleValue(
              both[0]!,
              both.flatMap((one) => [...one.cuts]),
              0.5,
              chance,
            ),
      ] as const;
    }),
  );
}

function valuesOf(job: Evaluation, asks: AskTable): Values {
  return new Map(
    [...asks.keys()].flatMap((name) => {
      const given = job.given.get(name);
      return given?.is === "value" ? [[name, given.value] as const] : [];
    }),
  );
}

function askTable(plans: readonly Plan[]): AskTable {
  const table = new Map<string, Ask[]>();
  for (const plan of plans) {
    const places = plan.blocks.flatMap((block) => [
      ...block.outputs,
      ...(block.when >= 0 ? [block.when] : []),
    ]);
    for (const ask of sliceOf(plan, places).asks) table.set(ask.name, [...(table.get(ask.name) ?? []), ask]);
  }
  return table;
}
