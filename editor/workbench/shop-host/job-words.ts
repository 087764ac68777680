// What is said of jobs on the shelf: whether a signed card comes out the same, and what was done, entry by
// entry.
import type { JobEntry } from "../../../core/record.ts";
import type { Agreement, JobLine } from "../../../core/schemas/host.ts";

export function agreementWords(says: JobLine["agreement"]): string {
  switch (says) {
    case "not signed":
      return "not signed";
    case "waiting":
      return "waits to be worked again";
    case "same":
      return "worked again: the same";
    case "differs":
      return "worked again: it differs";
    case "book unknown":
      return "its book is not on the shelf";
    case "cannot be worked":
      return "cannot be worked again";
  }
}

export function againWords(agreement: Agreement): string {
  const by =
    agreement.then === undefined || agreement.then === agreement.now
      ? ""
      : ` It was signed with version ${agreement.then} of the engine and is worked now ` +
        `with ${agreement.now}.`;
  switch (agreement.says) {
    case "same":
      return `The same numbers, stops, cautions and steps come out.${by}`;
    case "differs":
      return (
        (agreement.differences.length === 1
          ? "1 thing comes"
          : `${agreement.differences.length} things come`) + ` out otherwise.${by}`
      );
    case "not signed":
      return "The job is not signed, so there is no card to compare with.";
    case "book unknown":
      return "The book that it was worked by is not on the shelf. A tablet that has it will deliver it.";
    case "cannot be worked":
      return "The engine came to no end with its book.";
  }
}

/** One entry in a few words. */
export function entryWords(entry: JobEntry): string {
  switch (entry.does) {
    case "begin":
      return `called it “${entry.title}”`;
    case "answer":
      return entry.text === undefined
        ? `took back the answer to ${entry.ask}`
        : `answered ${entry.ask} with ${entry.text}`;
    case "tick":
      return entry.text === undefined ? `took back the tick of ${entry.step}` : `ticked ${entry.text}`;
    case "used":
      return entry.what === undefined
        ? "took back a line of what was used"
        : `used ${[entry.amount, entry.what].filter(Boolean).join(" ")}` +
            (entry.lot ? `, lot ${entry.lot}` : "");
    case "photo":
      return entry.type === undefined
        ? "took back a photograph"
        : `added a photograph${entry.caption ? `: ${entry.caption}` : ""}`;
    case "note":
      return entry.text === undefined ? "took back a note" : `noted: ${entry.text}`;
    case "timer":
      return entry.ends === undefined ? "put a timer away" : `started a timer: ${entry.says ?? ""}`;
    case "sign":
      return `signed again as ${entry.name}`;
  }
}

export interface Listed {
  readonly jobs: readonly JobLine[];
  readonly next?: string | undefined;
}

/**
 * A list, its newest rows asked for again: what lies behind them stays. Only the newest where so much is new
 * that rows between would be missing.
 */
export function withNewest(old: Listed, newest: Listed): Listed {
  const last = newest.jobs.at(-1);
  const known = new Set(old.jobs.map((job) => job.id));
  if (last === undefined || newest.next === undefined || !newest.jobs.some((job) => known.has(job.id)))
    return newest;
  const there = new Set(newest.jobs.map((job) => job.id));
  return {
    jobs: [
      ...newest.jobs,
      ...old.jobs.filter(
        (job) =>
          !there.has(job.id) &&
          (job.changed < last.changed || (job.changed === last.changed && job.id < last.id)),
      ),
    ],
    next: old.next,
  };
}
