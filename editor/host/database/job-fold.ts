// The row of a job, made from its entries in the order in which the host received them, for lists and for
// searching.
import type { Kysely } from "kysely";
import { type JobEntry, type JobRecord, type KeptEntry, foldJob } from "../../../core/record.ts";
import type { Tables } from "./tables.ts";
import { trouble } from "../trouble.ts";

/** Raised when rows come out otherwise than before: older ones are made anew. */
const foldVersion = 1;

type EntryRow = Pick<Tables["job_entries"], "body" | "line" | "delivered_at" | "delivered_by" | "skew">;

/** The columns that `keptEntry` reads. */
export const entryColumns = ["body", "line", "delivered_at", "delivered_by", "skew"] as const;

/** The entry as it came, with how the host came by it. */
export const keptEntry = (row: EntryRow): KeptEntry => ({
  ...entryIn(row.body),
  received: {
    line: row.line,
    at: row.delivered_at,
    by: row.delivered_by,
    ...(row.skew === null ? {} : { skew: row.skew }),
  },
});

function entryIn(body: string): JobEntry {
  try {
    return JSON.parse(body) as JobEntry;
  } catch {
    // It was JSON when it was written.
    throw trouble("data-damaged");
  }
}

/** Folds the job from all its entries and keeps the row. */
export async function updateJob(db: Kysely<Tables>, job: string): Promise<void> {
  const entries = await db.selectFrom("job_entries").select(entryColumns).where("job", "=", job).execute();
  const old = await db
    .selectFrom("jobs")
    .select(["agreement", "trace", "closed_at", "print", "fold"])
    .where("id", "=", job)
    .executeTakeFirst();
  const row = rowOf(foldJob(job, entries.map(keptEntry)));
  // What stands behind the signing does not change the card.
  const same =
    old !== undefined &&
    old.fold === foldVersion &&
    old.closed_at !== null &&
    old.closed_at === row.closed_at &&
    old.print === row.print;
  const next = same ? { ...row, agreement: old.agreement, trace: old.trace } : row;
  await db
    .insertInto("jobs")
    .values(next)
    .onConflict((c) => c.column("id").doUpdateSet(next))
    .execute();
}

/** Jobs whose rows an earlier version has made. */
export const oldJobs = async (db: Kysely<Tables>): Promise<readonly string[]> =>
  (await db.selectFrom("jobs").select("id").where("fold", "<", foldVersion).limit(100).execute()).map(
    (row) => row.id,
  );

/** Makes rows anew that an earlier version has made, and those of jobs that have entries and no row. */
export async function foldOldJobs(db: Kysely<Tables>): Promise<void> {
  const unlisted = await db
    .selectFrom("job_entries")
    .leftJoin("jobs", "jobs.id", "job_entries.job")
    .select("job_entries.job")
    .distinct()
    .where("jobs.id", "is", null)
    .execute();
  for (const { job } of unlisted) await updateJob(db, job);
  for (let old = await oldJobs(db); old.length > 0; old = await oldJobs(db))
    for (const id of old) await updateJob(db, id);
}

export function rowOf(job: JobRecord): Tables["jobs"] {
  const { signed } = job;
  return {
    id: job.id,
    title: storable(job.title),
    book: storable(job.book?.name ?? ""),
    edition: job.book?.edition ?? null,
    print: job.book?.print ?? "",
    state: signed === undefined ? "open" : "signed",
    begun: job.begun,
    changed: job.changed,
    signed_at: signed?.at ?? null,
    signed_by: signed === undefined ? null : storable(signed.name),
    after_signing: job.after.length,
    search: searchText(job),
    agreement: signed === undefined ? "not signed" : "waiting",
    trace: null,
    closed_at: signed?.received?.at ?? null,
    closed_by: signed?.received?.by ?? null,
    fold: foldVersion,
  };
}

function searchText(job: JobRecord): string {
  const words = [
    job.title,
    job.book?.name,
    ...job.used.flatMap((one) => [one.what, one.amount, one.lot, one.note]),
    ...job.notes.map((one) => one.text),
    ...job.photos.map((one) => one.caption),
    job.signed?.name,
    job.signed?.received?.by,
    job.signed?.note,
    ...job.after.flatMap((one) =>
      one.does === "used" ? [one.what, one.lot] : one.does === "note" ? [one.text] : [],
    ),
  ];
  return storable(
    words
      .filter((word) => word)
      .join("\n")
      .toLowerCase()
      .slice(0, 100_000),
  );
}

/** Without the marks that a server's text column refuses; the entry itself keeps them, written as escapes. */
const storable = (text: string): string => text.replace(/[\0\p{Surrogate}]/gu, " ");
