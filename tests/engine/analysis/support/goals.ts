// Whether a job really breaks a goal, told by what a technician would see of it, not by the proof.
import type { GoalView } from "../../../../core/view.ts";
import { type Book, showJob, workJob } from "../../../../engine/index.ts";
import { brokenBy } from "./standing.ts";

export function brokenGoal(book: Book, goal: GoalView): boolean {
  const view = showJob(workJob(book, goal.job!));
  if (view.stops.length > 0) return false;
  switch (goal.sort) {
    case "promise":
      return brokenBy(book, goal.job!, goal.id);
    // A number or a condition without a value keeps the whole card back.
    case "numbers":
    case "condition":
      return view.state === "impossible";
    case "chart":
      return (
        view.values.find(
          (value) => `chart ${value.name}` === goal.id || goal.id === `chart ${value.name.split(".")[0]}`,
        )!.state === "impossible"
      );
    case "card":
      return view.state === "ready" && view.steps.length === 0;
  }
}
