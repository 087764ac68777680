// In which order the technician meets the questions of a book.
import type { Answers, AskView, JobView } from "../../../core/view.ts";

export interface AskGroups {
  /** Answers that cannot be used first, then what the job waits for, the one that settles most in front. */
  readonly toAsk: readonly AskView[];
  readonly answered: readonly AskView[];
  /** Not answered, and nothing waits for them. */
  readonly notNeeded: readonly AskView[];
}

/** Every ask stands in exactly one group; `answered` and `notNeeded` keep the order of the book. */
export function groupAsks(asks: readonly AskView[], answers: Answers, job: JobView): AskGroups {
  const faulty = new Set(job.findings.map((finding) => finding.ask));
  const place = new Map(job.waiting.map((name, at) => [name, at]));
  const again = asks.filter((ask) => faulty.has(ask.name) && answers[ask.name] !== undefined);
  const waits = asks
    .filter((ask) => place.has(ask.name) && !again.includes(ask))
    .sort((a, b) => (place.get(a.name) ?? 0) - (place.get(b.name) ?? 0));
  const toAsk = [...again, ...waits];
  const rest = asks.filter((ask) => !toAsk.includes(ask));
  return {
    toAsk,
    answered: rest.filter((ask) => answers[ask.name] !== undefined),
    notNeeded: rest.filter((ask) => answers[ask.name] === undefined),
  };
}
