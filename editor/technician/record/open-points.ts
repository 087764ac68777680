// What is still open when a job is to be signed. Steps that are neither done nor left out, and timers that
// run, keep it from being signed; a broken promise has to be told with a note.
import { isRefused } from "../../../core/job-state.ts";
import type { JobRecord } from "../../../core/record.ts";
import type { JobView } from "../../../core/view.ts";

export type OpenPoint =
  | { readonly is: "unticked"; readonly id: string; readonly place: number; readonly text: string }
  | { readonly is: "timer"; readonly id: string; readonly says: string; readonly ends: number }
  | { readonly is: "broken"; readonly id: string; readonly says: string };

/**
 * Steps neither ticked nor left out with the words that they have now, timers that still run, promises that
 * this job breaks.
 */
export function openPoints(record: JobRecord, job: JobView, now: number): readonly OpenPoint[] {
  return [
    ...job.steps.flatMap((step, n): OpenPoint[] =>
      record.ticked[step.id] === step.text || record.left[step.id]?.text === step.text
        ? []
        : [{ is: "unticked", id: step.id, place: n + 1, text: step.text }],
    ),
    ...record.timers
      .filter((timer) => timer.ends > now)
      .map((timer): OpenPoint => ({ is: "timer", id: timer.timer, says: timer.says, ends: timer.ends })),
    ...job.broken.map((promise): OpenPoint => ({ is: "broken", id: promise.id, says: promise.says })),
  ];
}

/** Whether it has to be settled first: a note does not make up for it. */
export const isInTheWay = (point: OpenPoint): boolean => point.is !== "broken";

/** Steps are released, or a stop stands: only then is there something to put a name to. */
export const canSign = (job: JobView): boolean => job.state === "ready" || isRefused(job.state);
