// The state of a job in a few words, beside its mark: what is still to answer, or how much work there is.
import { isRefused } from "../../core/job-state.ts";
import type { JobView } from "../../core/view.ts";
import { minutesWords } from "../ui/parts/state-words.ts";
import type { Say } from "../ui/words/words.ts";
import { cardTotals, toMeasureAgain } from "./card-facts.ts";

/**
 * `left` is how many questions are still to be answered. Answers that cannot be used come before the state.
 */
export function stateLine(job: JobView, left: number, say: Say): string {
  const unusable = job.findings.length;
  if (unusable > 0 && !isRefused(job.state))
    return unusable === 1 ? say("state.unusable.one") : say("state.unusable", { count: unusable });
  switch (job.state) {
    case "ready": {
      const totals = cardTotals(job.steps);
      const steps =
        job.steps.length === 1 ? say("state.steps.one") : say("state.steps", { count: job.steps.length });
      return totals.takes > 0
        ? say("state.of-work", { steps, time: minutesWords(totals.takes, say) })
        : steps;
    }
    case "waiting":
      if (toMeasureAgain(job)) return say("state.measure-again");
      if (left === 0) return say("state.for-an-answer");
      return left === 1 ? say("state.for.one") : say("state.for", { count: left });
    case "stopped":
    case "referred":
      return say("state.withheld");
    case "impossible":
      return say("state.no-steps");
  }
}
