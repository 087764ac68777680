// What the job card adds up and lists, worked out apart from how it is drawn.
import type { Reason } from "../../core/reason.ts";
import type { Answers, AskView, CardLine, JobView, Shown } from "../../core/view.ts";
import type { Ticked } from "../client/storage/stored-work.ts";

export interface Totals {
  /** Minutes of work and of waiting; 0 where no step gives a time. */
  readonly takes: number;
  readonly waits: number;
  /** Steps that give neither, so that the sum is not read as all there is. */
  readonly untimed: number;
}

export function cardTotals(steps: readonly CardLine[]): Totals {
  return {
    takes: steps.reduce((sum, step) => sum + (step.minutes?.takes ?? 0), 0),
    waits: steps.reduce((sum, step) => sum + (step.minutes?.waits ?? 0), 0),
    untimed: steps.filter((step) => step.minutes === undefined).length,
  };
}

/**
 * Questions whose answers the card rests on: all answered, also those taken where the technician could not
 * tell.
 */
export function answeredAsks(asks: readonly AskView[], answers: Answers): readonly AskView[] {
  return asks.filter((ask) => answers[ask.name] !== undefined);
}

/** Why there is no work to give: each reason once, with the values that it belongs to. */
export function reasons(job: JobView): readonly {
  readonly says: string;
  readonly cause: Reason | undefined;
  readonly of: readonly { readonly name: string }[];
}[] {
  // The engine says which lines are kept back; where it does not, every value without a number is told.
  if (job.blocked !== undefined && job.blocked.length > 0)
    return job.blocked.map(({ says, ids, cause }) => ({ says, cause, of: ids.map((name) => ({ name })) }));
  const found = new Map<string, Shown[]>();
  for (const value of job.values) {
    if (value.state !== "impossible") continue;
    const says = value.reason ?? value.text;
    const same = found.get(says);
    if (same) same.push(value);
    else found.set(says, [value]);
  }
  return [...found].map(([says, of]) => ({ says, cause: of[0]?.cause, of }));
}

/** Whether any line shown rests on common practice alone. */
export function restsOnPractice(job: JobView): boolean {
  return [...job.stops, ...job.cautions, ...job.steps].some((line) => line.basis === "practice");
}

/** The ticks with one step ticked, for the words that it has now, or no longer ticked. */
export function withTick(ticked: Ticked, step: CardLine, is: boolean): Ticked {
  const { [step.id]: _was, ...kept } = ticked;
  return is ? { ...kept, [step.id]: step.text } : kept;
}

/** The job waits for nothing but a measurement that is sharper than its tolerance. */
export const toMeasureAgain = ({ state, waiting, doubts }: JobView): boolean =>
  state === "waiting" &&
  doubts?.measureAgain !== undefined &&
  doubts.open.length > 0 &&
  waiting[0] === doubts.measureAgain;
