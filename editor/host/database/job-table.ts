// Jobs in the database: entries as tablets deliver them, late, twice or out of order, and each job folded
// from its entries.
import { sql } from "kysely";
import { type JobEntry, type JobRecord, type KeptEntry, foldJob } from "../../../core/record.ts";
import {
  MAX_ENTRY_BYTES,
  MAX_JOB_CHARACTERS,
  MAX_JOB_ENTRIES,
  exceedsBytes,
  mebibytes,
} from "../../../core/limits.ts";
import { jobEntry } from "../../../core/schemas/record.ts";
import type {
  Agreement,
  AnswersList,
  Delivered,
  EntryList,
  JobFull,
  JobLine,
  JobList,
} from "../../../core/schemas/host.ts";
import { unplainIn } from "../../../core/schemas/plain-text.ts";
import { entryColumns, keptEntry, updateJob } from "./job-fold.ts";
import { sha256 } from "./log-chain.ts";
import { nameKeyOf } from "../people/name-key.ts";
import { missingPhotos } from "./photos.ts";
import { searchPatterns } from "./search.ts";
import type { Database } from "./database.ts";
import type { Tables } from "./tables.ts";
import { Trouble, unplain } from "../trouble.ts";

/** A transaction on the shop's tables. */
type Transaction = Database["db"];

/** Who is signed in where entries are delivered; without `id` on the shop's own machine, where nobody is. */
export interface Deliverer {
  readonly name: string;
  readonly id?: string;
}

/**
 * Stores each entry that can be taken, once, all in one transaction. An entry that cannot be understood is
 * reported and does not hold back the others. `sent` is the device's clock when it delivered.
 */
export async function deliver(
  database: Database,
  who: Deliverer,
  given: readonly unknown[],
  sent?: number,
): Promise<Delivered> {
  const { good, refused } = readEntries(given, await strangersTo(database, who));
  const by = who.id === undefined ? {} : { by: who.name };
  if (good.size === 0) return { taken: [], known: [], refused, at: Date.now(), ...by };
  return database.write(who.name, async (tx, log, at) => {
    const stored = await storedHashes(tx, [...good.keys()]);
    const fresh: { readonly entry: JobEntry; readonly body: string; readonly hash: string }[] = [];
    const known: string[] = [];
    const room = jobRoom(tx);
    for (const [id, { entry, place }] of good) {
      const body = JSON.stringify(entry);
      const hash = sha256(body);
      const old = stored.get(id);
      const full = old === undefined ? await room(entry.job, body) : undefined;
      if (full !== undefined) refused.push({ place, id, says: full });
      else if (old === undefined) fresh.push({ entry, body, hash });
      else if (old === hash) known.push(id);
      else
        refused.push({
          place,
          id,
          says: "There is another entry of this id already; entries are never changed. That one stays.",
        });
    }
    if (fresh.length > 0) {
      const jobs = [...new Set(fresh.map(({ entry }) => entry.job))];
      const line = await log("entries", {
        jobs,
        entries: fresh.map(({ entry, hash }) => [entry.id, hash]),
        ...(sent === undefined ? {} : { sent }),
      });
      const received = {
        delivered_by: who.name,
        delivered_at: at,
        line,
        skew: sent === undefined ? null : sent - at,
      };
      await insertEntries(
        tx,
        fresh.map(({ entry: { id, job, at: made, device }, body, hash }) => ({
          id,
          job,
          at: made,
          device,
          print: hash,
          body,
          ...received,
        })),
      );
      for (const job of jobs) await updateJob(tx, job);
    }
    return { taken: fresh.map(({ entry }) => entry.id), known, refused, at, ...by };
  });
}

/** Why an entry finds no room in its job any more; undefined where it does, and then it is counted. */
function jobRoom(tx: Transaction): (job: string, body: string) => Promise<string | undefined> {
  const jobs = new Map<string, { entries: number; characters: number }>();
  return async (job, body) => {
    if (exceedsBytes(body, MAX_ENTRY_BYTES))
      return `An entry has at most ${mebibytes(MAX_ENTRY_BYTES)}. This one was not kept.`;
    const has = jobs.get(job) ?? (await sizeOfJob(tx, job));
    jobs.set(job, has);
    if (has.entries >= MAX_JOB_ENTRIES || has.characters + body.length > MAX_JOB_CHARACTERS)
      return `This job is full: it has ${has.entries} entries. Begin another job for what is left.`;
    has.entries += 1;
    has.characters += body.length;
    return undefined;
  };
}

async function sizeOfJob(tx: Transaction, job: string) {
  const { entries, characters } = await tx
    .selectFrom("job_entries")
    .select((e) => [
      e.fn.countAll<number>().as("entries"),
      sql<number>`coalesce(sum(length(body)), 0)`.as("characters"),
    ])
    .where("job", "=", job)
    .executeTakeFirstOrThrow();
  return { entries: Number(entries), characters: Number(characters) };
}

/** The content hashes of those that are stored. */
async function storedHashes(tx: Transaction, ids: readonly string[]): Promise<ReadonlyMap<string, string>> {
  const stored = await tx
    .selectFrom("job_entries")
    .select(["id", "print"])
    .where("id", "in", [...ids])
    .execute();
  return new Map(stored.map((row) => [row.id, row.print]));
}

/** The entries that can be understood, by id, and what is wrong with the others. */
function readEntries(given: readonly unknown[], says: SaysOfSignature) {
  const good = new Map<string, { readonly entry: JobEntry; readonly place: number }>();
  const refused: Delivered["refused"] = [];
  given.forEach((one, place) => {
    const read = jobEntry.safeParse(one);
    const marks = unplainIn(one);
    const wrong = read.success
      ? marks === undefined
        ? says(read.data)
        : unplain(marks.join(".")).message
      : read.error.issues.map((issue) => `${issue.path.join(".")}: ${issue.message}`).join("; ");
    if (read.success && wrong === undefined) {
      if (!good.has(read.data.id)) good.set(read.data.id, { entry: read.data, place });
      return;
    }
    const named = typeof one === "object" && one !== null && "id" in one && typeof one.id === "string";
    refused.push({
      place,
      ...(named ? { id: (one.id as string).slice(0, 100) } : {}),
      says: wrong!.slice(0, 500),
    });
  });
  return { good, refused };
}

/** Why a signature is not taken; undefined where it is. */
type SaysOfSignature = (entry: JobEntry) => string | undefined;

/**
 * Refuses a signature in the name of somebody else whom the host knows. Other entries of somebody else are
 * taken: on a shared tablet the next person delivers them, and who did so stands beside them.
 */
async function strangersTo(database: Database, who: Deliverer): Promise<SaysOfSignature> {
  if (who.id === undefined) return () => undefined;
  const own = nameKeyOf(who.name);
  const known = await database.db.selectFrom("people").select("name_key").execute();
  const people = new Set(known.map((row) => row.name_key));
  return (entry) => {
    if (entry.does !== "sign") return undefined;
    const other =
      entry.by !== undefined && nameKeyOf(entry.by) !== own
        ? entry.by
        : nameKeyOf(entry.name) !== own && people.has(nameKeyOf(entry.name))
          ? entry.name
          : undefined;
    return other === undefined
      ? undefined
      : `This was signed as ${other.slice(0, 80)}, and ${who.name} is signed in. ` +
          "Whoever signed signs in and delivers it.";
  };
}

/** In parts: a statement takes a limited number of values. */
async function insertEntries(tx: Transaction, rows: readonly Tables["job_entries"][]): Promise<void> {
  for (let i = 0; i < rows.length; i += 100)
    await tx
      .insertInto("job_entries")
      .values(rows.slice(i, i + 100))
      .execute();
}

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
      "closed_at",
      "closed_by",
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
  const entries = new Map<string, KeptEntry[]>(jobs.map(({ id }) => [id, []]));
  // A statement takes a limited number of values.
  const ids = [...entries.keys()];
  for (let i = 0; i < ids.length; i += 100) {
    const rows = await database.db
      .selectFrom("job_entries")
      .select(["job", ...entryColumns])
      .where("job", "in", ids.slice(i, i + 100))
      .execute();
    for (const row of rows) entries.get(row.job)?.push(keptEntry(row));
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
    | "closed_at"
    | "closed_by"
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
  ...(row.closed_at === null ? {} : { closedAt: row.closed_at }),
  ...(row.closed_by === null ? {} : { closedBy: row.closed_by }),
  agreement: row.agreement,
  after: row.after_signing,
});

/** The job as its entries make it. Throws a `Trouble` if there is none. */
export async function jobRecordOf(database: Database, id: string): Promise<JobRecord> {
  const entries = await database.db
    .selectFrom("job_entries")
    .select(entryColumns)
    .where("job", "=", id)
    .execute();
  if (entries.length === 0) throw new Trouble(404, "There is no job of this id.");
  return foldJob(id, entries.map(keptEntry));
}

/** The entries of a job in the host's order, from the one at `skip` on. */
export async function entriesOf(
  database: Database,
  id: string,
  skip: number,
  limit: number,
): Promise<EntryList> {
  const rows = await database.db
    .selectFrom("job_entries")
    .select(entryColumns)
    .where("job", "=", id)
    .orderBy("line")
    .orderBy("at")
    .orderBy("id")
    .offset(skip)
    .limit(limit + 1)
    .execute();
  if (rows.length === 0 && skip === 0) throw new Trouble(404, "There is no job of this id.");
  return {
    entries: rows.slice(0, limit).map(keptEntry) as EntryList["entries"],
    more: rows.length > limit,
  };
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
    await log("worked again", {
      job: id,
      ...agreement,
      ...(trace === null ? {} : { trace: sha256(trace) }),
    });
  });
}

export const traceOf = async (database: Database, id: string): Promise<Uint8Array | undefined> =>
  (await database.db.selectFrom("jobs").select("trace").where("id", "=", id).executeTakeFirst())?.trace ??
  undefined;
