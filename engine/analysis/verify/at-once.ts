// What one look at the whole book settles, before any goal is looked at by itself: goals that hold for all
// jobs taken as one box.
import type { Plan } from "../../program/plan/plan.ts";
import { Runner, wholeBox } from "./box.ts";
import { type Goal, placesOf, shownBy } from "./goal.ts";
import { sliceOf } from "./slice.ts";

/** For each goal, whether it holds. `safe`: see `Intervals`. */
export function settledAtOnce(
  plan: Plan,
  goals: readonly Goal[],
  safe: Uint8Array | undefined,
): readonly boolean[] {
  if (goals.length === 0) return [];
  const slice = sliceOf(plan, goals.flatMap(placesOf), true);
  const places = goals.flatMap((goal) => goal.want.places);
  const runner = new Runner(plan, slice, places, safe);
  const intervals = runner.box(wholeBox(runner));
  return goals.map((goal) => shownBy(goal, intervals) !== undefined);
}
