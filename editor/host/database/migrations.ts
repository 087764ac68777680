// The steps from one form of the database to the next, in order. A step that has been in anyone's hands is
// never changed: a new one follows.
import { type Kysely, type Migration, sql } from "kysely";
import { attestation } from "./attest.ts";
import { appendLog } from "./log-chain.ts";
import { fillLines } from "./received-lines.ts";
import { type Sort, liftGuards, putGuards } from "./write-once-triggers.ts";
import type { Tables } from "./tables.ts";

/** By name; they are done in the order of their names. */
export const migrationsFor = (sort: Sort): Readonly<Record<string, Migration>> => ({
  "0001-first": first(sort),
  "0002-people": people,
  "0003-received": received(sort),
  "0004-attested": attested,
});

/** From here on the log has a hash of every row that stays. */
const attested: Migration = {
  up: async (db: Kysely<unknown>) => {
    const tables = db as Kysely<Tables>;
    const body = await attestation(tables);
    if (body !== undefined) await appendLog(tables, Date.now(), "the host", "attested", body);
  },
};

/** The host's own order of entries, and when and from whom a signature came. */
function received(sort: Sort): Migration {
  return {
    up: async (db: Kysely<unknown>) => {
      await db.schema
        .alterTable("job_entries")
        .addColumn("line", whole, (c) => c.notNull().defaultTo(0))
        .execute();
      await db.schema.alterTable("job_entries").addColumn("skew", whole).execute();
      await db.schema.alterTable("jobs").addColumn("closed_at", whole).execute();
      await db.schema.alterTable("jobs").addColumn("closed_by", "text").execute();
      await db.schema
        .alterTable("jobs")
        .addColumn("fold", whole, (c) => c.notNull().defaultTo(0))
        .execute();
      const tables = db as Kysely<Tables>;
      await liftGuards(tables, sort, ["job_entries"]);
      await fillLines(tables);
      await putGuards(tables, sort, ["job_entries"]);
    },
  };
}

function first(sort: Sort): Migration {
  return {
    up: async (db: Kysely<unknown>) => {
      const bytes = sort === "server" ? "bytea" : "blob";
      await createBooks(db);
      await createEditions(db);
      await createJobs(db, bytes);
      await createPhotosAndLog(db, bytes);
      await putGuards(db as Kysely<Tables>, sort, [
        "texts",
        "editions",
        "job_entries",
        "photos",
        "log",
        "draft_history",
      ]);
    },
  };
}

/** Whole numbers of up to 64 bits. */
const whole = "bigint";

async function createBooks(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable("books")
    .addColumn("name", "text", (c) => c.primaryKey())
    .addColumn("title", "text", (c) => c.notNull())
    .addColumn("begun", whole, (c) => c.notNull())
    .execute();
  await db.schema
    .createTable("drafts")
    .addColumn("book", "text", (c) => c.primaryKey().references("books.name"))
    .addColumn("version", whole, (c) => c.notNull())
    .addColumn("text", "text", (c) => c.notNull())
    .addColumn("print", "text", (c) => c.notNull())
    .addColumn("who", "text", (c) => c.notNull())
    .addColumn("at", whole, (c) => c.notNull())
    .execute();
  await db.schema
    .createTable("draft_history")
    .addColumn("book", "text", (c) => c.notNull().references("books.name"))
    .addColumn("version", whole, (c) => c.notNull())
    .addColumn("who", "text", (c) => c.notNull())
    .addColumn("at", whole, (c) => c.notNull())
    .addColumn("print", "text", (c) => c.notNull())
    .addColumn("whole", "text")
    .addColumn("change", "text")
    .addPrimaryKeyConstraint("draft_history_key", ["book", "version"])
    .execute();
  await db.schema.createIndex("draft_history_print").on("draft_history").column("print").execute();
}

async function createEditions(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable("texts")
    .addColumn("print", "text", (c) => c.primaryKey())
    .addColumn("text", "text", (c) => c.notNull())
    .execute();
  await db.schema
    .createTable("editions")
    .addColumn("book", "text", (c) => c.notNull().references("books.name"))
    .addColumn("number", whole, (c) => c.notNull())
    .addColumn("title", "text", (c) => c.notNull())
    .addColumn("print", "text", (c) => c.notNull())
    .addColumn("stands", "text", (c) => c.notNull())
    .addColumn("who", "text", (c) => c.notNull())
    .addColumn("at", whole, (c) => c.notNull())
    .addColumn("why", "text", (c) => c.notNull())
    .addColumn("standing", "text", (c) => c.notNull())
    .addColumn("faults", "text", (c) => c.notNull())
    .addColumn("reason", "text")
    .addPrimaryKeyConstraint("editions_key", ["book", "number"])
    .execute();
  await db.schema.createIndex("editions_print").on("editions").column("print").execute();
}

/** `bytes` is the database's type for them. */
async function createJobs(db: Kysely<unknown>, bytes: string): Promise<void> {
  await db.schema
    .createTable("jobs")
    .addColumn("id", "text", (c) => c.primaryKey())
    .addColumn("title", "text", (c) => c.notNull())
    .addColumn("book", "text", (c) => c.notNull())
    .addColumn("edition", whole)
    .addColumn("print", "text", (c) => c.notNull())
    .addColumn("state", "text", (c) => c.notNull())
    .addColumn("begun", whole, (c) => c.notNull())
    .addColumn("changed", whole, (c) => c.notNull())
    .addColumn("signed_at", whole)
    .addColumn("signed_by", "text")
    .addColumn("after_signing", whole, (c) => c.notNull())
    .addColumn("search", "text", (c) => c.notNull())
    .addColumn("agreement", "text", (c) => c.notNull())
    .addColumn("trace", sql.raw(bytes))
    .execute();
  await db.schema.createIndex("jobs_changed").on("jobs").columns(["changed", "id"]).execute();
  await db.schema.createIndex("jobs_waiting").on("jobs").column("agreement").execute();
  await db.schema
    .createTable("job_entries")
    .addColumn("id", "text", (c) => c.primaryKey())
    .addColumn("job", "text", (c) => c.notNull())
    .addColumn("at", whole, (c) => c.notNull())
    .addColumn("device", "text", (c) => c.notNull())
    .addColumn("delivered_by", "text", (c) => c.notNull())
    .addColumn("delivered_at", whole, (c) => c.notNull())
    .addColumn("print", "text", (c) => c.notNull())
    .addColumn("body", "text", (c) => c.notNull())
    .execute();
  await db.schema.createIndex("job_entries_job").on("job_entries").column("job").execute();
}

async function createPhotosAndLog(db: Kysely<unknown>, bytes: string): Promise<void> {
  await db.schema
    .createTable("photos")
    .addColumn("print", "text", (c) => c.primaryKey())
    .addColumn("type", "text", (c) => c.notNull())
    .addColumn("bytes", whole, (c) => c.notNull())
    .addColumn("who", "text", (c) => c.notNull())
    .addColumn("at", whole, (c) => c.notNull())
    .addColumn("content", sql.raw(bytes), (c) => c.notNull())
    .execute();
  await db.schema
    .createTable("log")
    .addColumn("seq", whole, (c) => c.primaryKey())
    .addColumn("at", whole, (c) => c.notNull())
    .addColumn("who", "text", (c) => c.notNull())
    .addColumn("what", "text", (c) => c.notNull())
    .addColumn("body", "text", (c) => c.notNull())
    .addColumn("before", "text", (c) => c.notNull())
    .addColumn("hash", "text", (c) => c.notNull())
    .execute();
}

const people: Migration = {
  up: async (db: Kysely<unknown>) => {
    await db.schema
      .createTable("people")
      .addColumn("id", "text", (c) => c.primaryKey())
      .addColumn("name", "text", (c) => c.notNull())
      .addColumn("name_key", "text", (c) => c.notNull().unique())
      .addColumn("role", "text", (c) => c.notNull())
      .addColumn("password", "text", (c) => c.notNull())
      .addColumn("made", "bigint", (c) => c.notNull())
      .execute();
    await db.schema
      .createTable("sessions")
      .addColumn("token", "text", (c) => c.primaryKey())
      .addColumn("person", "text", (c) => c.notNull())
      .addColumn("begun", "bigint", (c) => c.notNull())
      .addColumn("seen", "bigint", (c) => c.notNull())
      .addColumn("device", "text", (c) => c.notNull())
      .execute();
    await db.schema.createIndex("sessions_person").on("sessions").column("person").execute();
    await db.schema
      .createTable("invitations")
      .addColumn("token", "text", (c) => c.primaryKey())
      .addColumn("role", "text", (c) => c.notNull())
      .addColumn("person", "text")
      .addColumn("who", "text", (c) => c.notNull())
      .addColumn("made", "bigint", (c) => c.notNull())
      .addColumn("ends", "bigint", (c) => c.notNull())
      .execute();
    await db.schema
      .createTable("attempts")
      .addColumn("key", "text", (c) => c.primaryKey())
      .addColumn("failures", "bigint", (c) => c.notNull())
      .addColumn("at", "bigint", (c) => c.notNull())
      .addColumn("until", "bigint", (c) => c.notNull())
      .execute();
  },
};
