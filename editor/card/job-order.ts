// In which order the technician meets the questions of a book.
import type { Answers, AskView, JobView, RelevantQuestionsView } from "../../core/view.ts";

export interface AskGroups {
  /** Answers that cannot be used first, then what the job waits for, the one that settles most in front. */
  readonly toAsk: readonly AskView[];
  readonly answered: readonly AskView[];
  /** Not answered and not waited for, but a caution may still rest on them. */
  readonly cautions: readonly AskView[];
  /** Proved: whatever is answered, the card says the same. */
  readonly needless: readonly AskView[];
  /** Not answered, and nothing waits for them. */
  readonly notNeeded: readonly AskView[];
}

/**
 * Every ask stands in exactly one group; all groups but `toAsk` keep the order of the book. With `matters`
 * the one that is proved to settle soonest comes first; what the job waits for stays to be asked even where
 * it is proved not to matter, last.
 */
export function groupAsks(
  asks: readonly AskView[],
  answers: Answers,
  job: JobView,
  matters?: RelevantQuestionsView,
): AskGroups {
  const faulty = new Set(job.findings.map((finding) => finding.ask));
  const place = new Map(inOrder(job.waiting, matters).map((name, at) => [name, at]));
  const again = asks.filter((ask) => faulty.has(ask.name) && answers[ask.name] !== undefined);
  const waits = asks
    .filter((ask) => place.has(ask.name) && !again.includes(ask))
    .sort((a, b) => (place.get(a.name) ?? 0) - (place.get(b.name) ?? 0));
  const toAsk = [...again, ...waits];
  const rest = asks.filter((ask) => !toAsk.includes(ask));
  const open = rest.filter((ask) => answers[ask.name] === undefined);
  const mayBring = new Set(job.cautions.flatMap((caution) => caution.mayApply ?? []));
  const cautions = open.filter(
    ({ name }) => mayBring.has(name) || (job.state === "ready" && matters?.ask.includes(name) === true),
  );
  const needless = open.filter(
    (ask) => !cautions.includes(ask) && matters?.needless.includes(ask.name) === true,
  );
  return {
    toAsk,
    answered: rest.filter((ask) => answers[ask.name] !== undefined),
    cautions,
    needless,
    notNeeded: open.filter((ask) => !cautions.includes(ask) && !needless.includes(ask)),
  };
}

/** Names that `matters` puts in order come first, in that order. */
function inOrder(waiting: readonly string[], matters: RelevantQuestionsView | undefined): readonly string[] {
  if (matters === undefined) return waiting;
  const first = matters.ask.filter((name) => waiting.includes(name));
  return [...first, ...waiting.filter((name) => !first.includes(name))];
}
