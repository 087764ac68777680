// Which timers are shown: those that run or are over and not yet put away, of every job on the device, the
// one that ends first in front.
import type { JobRecord, TimerLine } from "../../../core/record.ts";

export interface ShownTimer extends TimerLine {
  readonly job: string;
  readonly title: string;
  readonly over: boolean;
  /** Of a signed job: nothing more is written there, it is only put out of sight. */
  readonly signed: boolean;
}

/** A timer of a signed job goes by itself so long after its end. */
const signedStays = 10 * 60_000;

export function shownTimers(jobs: readonly JobRecord[], now: number): readonly ShownTimer[] {
  return jobs
    .flatMap((job) =>
      job.timers.map(
        (timer): ShownTimer => ({
          ...timer,
          job: job.id,
          title: job.title || job.book?.name || "",
          over: timer.ends <= now,
          signed: job.signed !== undefined,
        }),
      ),
    )
    .filter((timer) => !timer.signed || timer.ends + signedStays > now)
    .sort((a, b) => a.ends - b.ends || (a.timer < b.timer ? -1 : 1));
}

/** Timers that came to their end after `before`, up to `now`: those that have to sound. */
export const justOver = (timers: readonly ShownTimer[], before: number, now: number): readonly ShownTimer[] =>
  timers.filter((timer) => timer.ends > before && timer.ends <= now);
