// What is said of jobs on the shelf: whether a signed card comes out the same, and what was done, entry by
// entry.
import type { JobEntry, Received } from "../../../core/record.ts";
import type { Revision } from "../../../core/revisions.ts";
import type { Agreement, JobLine } from "../../../core/schemas/host.ts";
import { when } from "./edition-words.ts";

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
    case "leave":
      if (entry.text === undefined) return `took back that ${entry.step} was left out`;
      return `${entry.how === "not-needed" ? "did not need" : "skipped"} ${entry.text}: ${entry.reason}`;
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
      return `signed as ${entry.name}`;
  }
}

/** Milliseconds that a device's clock may differ before it is told. */
const skewTold = 2 * 60_000;

/**
 * Who delivered it and when by the host, with a word where somebody else is named in it and where the
 * device's clock was wrong.
 */
export function receivedWords({ by, at, skew }: Received, named?: string): string {
  const other = named === undefined || sameName(named, by) ? "" : ", who is somebody else";
  const clock =
    skew === undefined || Math.abs(skew) < skewTold
      ? ""
      : `; the device's clock was ${spanWords(Math.abs(skew))} ${skew > 0 ? "ahead" : "behind"}`;
  return `delivered by ${by}${other}, ${when(at)}${clock}`;
}

export const sameName = (a: string, b: string): boolean => {
  const key = (name: string): string => name.normalize("NFKC").trim().toLowerCase().replace(/\s+/g, " ");
  return key(a) === key(b);
};

function spanWords(milliseconds: number): string {
  const minutes = Math.round(milliseconds / 60_000);
  if (minutes < 120) return `${minutes} minutes`;
  if (minutes < 48 * 60) return `${Math.round(minutes / 60)} hours`;
  const days = Math.round(minutes / 1440);
  return days < 730 ? `${days} days` : `${Math.round(days / 365)} years`;
}

/** An entry behind the signing: what it would change, both as it was and as it says. */
export function revisionWords({ entry, of, was, now }: Revision): string {
  if (of === undefined || was === undefined || now === was) return entryWords(entry);
  return `${entryWords(entry)} (was ${was || "empty"})`;
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
