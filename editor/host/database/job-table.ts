// Jobs in the database: entries as tablets deliver them, late, twice or out of order, and each job folded
// from its entries.
import { sql } from "kysely";
import { type JobEntry, type JobRecord, foldJob } from "../../../core/record.ts";
import { jobEntry } from "../../../core/schemas/record.ts";
import type {
  Agreement,
  AnswersList,
  Delivered,
  JobFull,
  JobLine,
  JobList,
} from "../../../core/schemas/host.ts";
import { sha256 } from "./log-chain.ts";
import { missingPhotos } from "./photos.ts";
import { searchPatterns } from "./search.ts";
import type { Database } from "./database.ts";
import type { Tables } from "./tables.ts";
import { Trouble } from "../trouble.ts";

/** A transaction on the shop's tables. */
type Transaction = Database["db"];

/**
 * Stores each entry that can be taken, once, all in one transaction. An entry that cannot be understood is
 * reported and does not hold back the others.
 */
export async function deliver(
  database: Database,
  who: string,
  given: readonly unknown[],
): Promise<Delivered> {
  const { good, refused } = readEntries(given);
  if (good.size === 0) return { taken: [], known: [], refused };
  return database.write(who, async (tx, log, at) => {
    const stored = await tx
      .selectFrom("job_entries")
      .select(["id", "print"])
      .where("id", "in", [...good.keys()])
      .execute();
    const hashes = new Map(stored.map((row) => [row.id, row.print]));
    const fresh: Tables["job_entries"][] = [];
    const known: string[] = [];
    for (const [id, entry] of good) {
      const body = JSON.stringify(entry);
      const hash = sha256(body);
      const old = hashes.get(id);
      if (old === undefined) fresh.push(entryRow(entry, body, hash, who, at));
      else if (old === hash) known.push(id);
      else
        refused.push({
          place: given.findIndex((one) => (one as { id?: unknown }).id === id),
          id,
          says: "There is another entry of this id already; entries are never changed. That one stays.",
        });
    }
    if (fresh.length > 0) {
      await insertEntries(tx, fresh);
      const touched = [...new Set(fresh.map((row) => row.job))];
      for (const job of touched) await updateJob(tx, job, fresh);
      await log("entries", { jobs: touched, entries: fresh.map((row) => [row.id, row.print]) });
    }
    return { taken: fresh.map((row) => row.id), known, refused };
  });
}

/** The entries that can be understood, by id, and what is wrong with the others. */
function readEntries(given: readonly unknown[]) {
  const good = new Map<string, JobEntry>();
  const refused: Delivered["refused"] = [];
  given.forEach((one, place) => {
    const read = jobEntry.safeParse(one);
    if (read.success) {
      if (!good.has(read.data.id)) good.set(read.data.id, read.data);
      return;
    }
    const named = typeof one === "object" && one !== null && "id" in one && typeof one.id === "string";
    const says = read.error.issues.map((issue) => `${issue.path.join(".")}: ${issue.message}`).join("; ");
    refused.push({
      place,
      ...(named ? { id: (one.id as string).slice(0, 100) } : {}),
      says: says.slice(0, 500),
    });
  });
  return { good, refused };
}

const entryRow = (
  entry: JobEntry,
  body: string,
  hash: string,
  who: string,
  at: number,
): Tables["job_entries"] => ({
  id: entry.id,
  job: entry.job,
  at: entry.at,
  device: entry.device,
  delivered_by: who,
  delivered_at: at,
  print: hash,
  body,
});

/** In parts: a statement takes a limited number of values. */
async function insertEntries(tx: Transaction, rows: readonly Tables["job_entries"][]): Promise<void> {
  for (let i = 0; i < rows.length; i += 100)
    await tx
      .insertInto("job_entries")
      .values(rows.slice(i, i + 100))
      .execute();
}

/** Folds the job from all its entries; `fresh` are those that just came, of this job and of others. */
async function updateJob(
  tx: Transaction,
  job: string,
  fresh: readonly Tables["job_entries"][],
): Promise<void> {
  const entries = await tx.selectFrom("job_entries").select("body").where("job", "=", job).execute();
  const old = await tx
    .selectFrom("jobs")
    .select(["agreement", "trace", "signed_at", "print"])
    .where("id", "=", job)
    .executeTakeFirst();
  const bodies = entries.map((entry) => JSON.parse(entry.body) as JobEntry);
  const row = rowOf(foldJob(job, bodies));
  // Entries after the signing, which is every tick of the clean-up, do not change the card.
  const same =
    old !== undefined &&
    old.signed_at === row.signed_at &&
    old.print === row.print &&
    old.agreement !== "not signed" &&
    !fresh.some((one) => one.job === job && one.at <= (row.signed_at ?? 0));
  const next = same ? { ...row, agreement: old.agreement, trace: old.trace } : row;
  await tx
    .insertInto("jobs")
    .values(next)
    .onConflict((c) => c.column("id").doUpdateSet(next))
    .execute();
}

function rowOf(job: JobRecord): Tables["jobs"] {
  const words = [
    job.title,
    job.book?.name,
    ...job.used.flatMap((one) => [one.what, one.amount, one.lot, one.note]),
    ...job.notes.map((one) => one.text),
    ...job.photos.map((one) => one.caption),
    job.signed?.name,
    job.signed?.note,
    ...job.after.flatMap((one) =>
      one.does === "used" ? [one.what, one.lot] : one.does === "note" ? [one.text] : [],
    ),
  ];
  return {
    id: job.id,
    title: storable(job.title),
    book: storable(job.book?.name ?? ""),
    edition: job.book?.edition ?? null,
    print: job.book?.print ?? "",
    state: job.signed === undefined ? "open" : "signed",
    begun: job.begun,
    changed: job.changed,
    signed_at: job.signed?.at ?? null,
    signed_by: job.signed === undefined ? null : storable(job.signed.name),
    after_signing: job.after.length,
    search: storable(
      words
        .filter((word) => word)
        .join("\n")
        .toLowerCase()
        .slice(0, 100_000),
    ),
    agreement: job.signed === undefined ? "not signed" : "waiting",
    trace: null,
  };
}

/** Without the marks that a server's text column refuses; the entry itself keeps them, written as escapes. */
const storable = (text: string): string => text.replace(/[\0\p{Surrogate}]/gu, " ");

export interface JobQuery {
  readonly search?: string | undefined;
  readonly book?: string | undefined;
  readonly state?: "open" | "signed" | undefined;
  readonly before?: string | undefined;
  readonly limit: number;
}

/**
 * The last changed first; each word of the search must be in the title, the book, what was used, its lots,
 * the notes or the name under it.
 */
export async function listJobs(
  database: Database,
  { search, book, state, before, limit }: JobQuery,
): Promise<JobList> {
  let query = database.db
    .selectFrom("jobs")
    .select([
      "id",
      "title",
      "book",
      "edition",
      "print",
      "state",
      "begun",
      "changed",
      "signed_at",
      "signed_by",
      "agreement",
      "after_signing",
    ]);
  for (const pattern of searchPatterns(search))
    query = query.where(sql<boolean>`search like ${pattern} escape '\\'`);
  if (book !== undefined) query = query.where("book", "=", book);
  if (state !== undefined) query = query.where("state", "=", state);
  if (before !== undefined) {
    const [, changed, id] = /^(\d{1,16})-(.{1,50})$/.exec(before) ?? [];
    if (changed === undefined || id === undefined)
      throw new Trouble(400, "`before` is not one that a list has given.");
    query = query.where((e) =>
      e.or([
        e("changed", "<", Number(changed)),
        e.and([e("changed", "=", Number(changed)), e("id", "<", id)]),
      ]),
    );
  }
  const found = await query
    .orderBy("changed", "desc")
    .orderBy("id", "desc")
    .limit(limit + 1)
    .execute();
  const shown = found.slice(0, limit);
  const last = shown.at(-1);
  return {
    jobs: shown.map(lineOf),
    ...(found.length > limit && last ? { next: `${last.changed}-${last.id}` } : {}),
  };
}

/** The answers of many jobs at once, in the order of the list. */
export async function answersOf(database: Database, query: JobQuery): Promise<AnswersList> {
  const { jobs, next } = await listJobs(database, query);
  const entries = new Map<string, JobEntry[]>(jobs.map(({ id }) => [id, []]));
  // A statement takes a limited number of values.
  const ids = [...entries.keys()];
  for (let i = 0; i < ids.length; i += 100) {
    const rows = await database.db
      .selectFrom("job_entries")
      .select(["job", "body"])
      .where("job", "in", ids.slice(i, i + 100))
      .execute();
    for (const row of rows) entries.get(row.job)?.push(JSON.parse(row.body) as JobEntry);
  }
  return {
    jobs: jobs.map(({ id, title }) => ({
      id,
      title,
      answers: { ...foldJob(id, entries.get(id) ?? []).answers },
    })),
    ...(next === undefined ? {} : { next }),
  };
}

const lineOf = (
  row: Pick<
    Tables["jobs"],
    | "id"
    | "title"
    | "book"
    | "edition"
    | "print"
    | "state"
    | "begun"
    | "changed"
    | "signed_at"
    | "signed_by"
    | "agreement"
    | "after_signing"
  >,
): JobLine => ({
  id: row.id,
  title: row.title,
  book: row.book,
  ...(row.edition === null ? {} : { edition: row.edition }),
  print: row.print,
  state: row.state,
  begun: row.begun,
  changed: row.changed,
  ...(row.signed_at === null ? {} : { signedAt: row.signed_at }),
  ...(row.signed_by === null ? {} : { signedBy: row.signed_by }),
  agreement: row.agreement,
  after: row.after_signing,
});

/** The job as its entries make it. Throws a `Trouble` if there is none. */
export async function jobRecordOf(database: Database, id: string): Promise<JobRecord> {
  const entries = await database.db.selectFrom("job_entries").select("body").where("job", "=", id).execute();
  if (entries.length === 0) throw new Trouble(404, "There is no job of this id.");
  return foldJob(
    id,
    entries.map((entry) => JSON.parse(entry.body) as JobEntry),
  );
}

export async function fullJob(database: Database, id: string): Promise<JobFull> {
  const job = await jobRecordOf(database, id);
  const row = await database.db
    .selectFrom("jobs")
    .select("agreement")
    .where("id", "=", id)
    .executeTakeFirst();
  // Read from entries that the schema has let in; only the reader's marks of what is never changed differ.
  return {
    job: job as unknown as JobFull["job"],
    agreement: row?.agreement ?? "not signed",
    missingPhotos: await missingPhotos(
      database,
      job.photos.map((photo) => photo.photo),
    ),
  };
}

/** Signed jobs that were not worked again yet. */
export const jobsWaiting = async (database: Database): Promise<string[]> =>
  (
    await database.db
      .selectFrom("jobs")
      .select("id")
      .where("agreement", "=", "waiting")
      .orderBy("changed")
      .limit(50)
      .execute()
  ).map((row) => row.id);

/** Keeps what came of working a signed card again; nothing if the job has changed meanwhile. */
export async function keepAgreement(
  database: Database,
  id: string,
  print: string,
  agreement: Agreement,
  trace: Uint8Array | null,
): Promise<void> {
  await database.write("the host", async (tx, log) => {
    const row = await tx
      .selectFrom("jobs")
      .select(["agreement", "print"])
      .where("id", "=", id)
      .executeTakeFirst();
    if (row === undefined || row.agreement !== "waiting" || row.print !== print) return;
    await tx
      .updateTable("jobs")
      .set({ agreement: agreement.says, trace: trace === null ? null : Buffer.from(trace) })
      .where("id", "=", id)
      .execute();
    await log("worked again", { job: id, ...agreement });
  });
}

export const traceOf = async (database: Database, id: string): Promise<Uint8Array | undefined> =>
  (await database.db.selectFrom("jobs").select("trace").where("id", "=", id).executeTakeFirst())?.trace ??
  undefined;
