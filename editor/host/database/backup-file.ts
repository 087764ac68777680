// A backup: all rows of all tables as they stood at one moment, as packed lines of JSON, the same for both
// databases, so that a backup of one can be put back into the other. Its last line holds the counts and the
// hash of all before it.
import { createHash } from "node:crypto";
import { createReadStream, createWriteStream } from "node:fs";
import { open, rename, rm } from "node:fs/promises";
import { dirname } from "node:path";
import { StringDecoder } from "node:string_decoder";
import { pipeline } from "node:stream/promises";
import { createGunzip, createGzip } from "node:zlib";
import { Readable } from "node:stream";
import { type Kysely, sql } from "kysely";
import { liftGuards, putGuards } from "./write-once-triggers.ts";
import { foldOldJobs } from "./job-fold.ts";
import { attestation } from "./attest.ts";
import { appendLog } from "./log-chain.ts";
import { fillLines } from "./received-lines.ts";
import type { Database } from "./database.ts";
import { type TableName, type Tables, tableKeys } from "./tables.ts";
import { troubleOf } from "./database-errors.ts";
import { Trouble } from "../trouble.ts";
import { verifyLog } from "./verify.ts";

export interface Backup {
  readonly rows: number;
  readonly counts: Readonly<Record<string, number>>;
  readonly head?: string | undefined;
  readonly made: number;
  /** Of the database that it was made of. */
  readonly form: string;
}

const format = 1;
/** From this form on the log has the hashes of all rows. */
const attestedForm = "0004-attested";

/** Writes a backup while the database is in use; the file is there whole or not at all. */
export async function backUp(database: Database, file: string): Promise<Backup> {
  const part = `${file}.part`;
  try {
    // One moment for all tables: what is written meanwhile is in the next backup.
    const backup = await database.db.connection().execute(async (db) => {
      // A transaction that only reads, which keeps nobody from writing.
      await sql
        .raw(
          database.sort === "server" ? "begin isolation level repeatable read read only" : "begin deferred",
        )
        .execute(db);
      try {
        return await writeRows(database, db, part);
      } finally {
        await sql`rollback`.execute(db);
      }
    });
    const handle = await open(part, "r+");
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(part, file);
    const folder = await open(dirname(file) || ".", "r").catch(() => undefined);
    await folder?.sync().catch(() => undefined);
    await folder?.close();
    return backup;
  } catch (cause) {
    await rm(part, { force: true }).catch(() => undefined);
    throw targetTrouble(cause, file);
  }
}

/** Why a file cannot be written, in a sentence; the cause itself where it is not the target's. */
export function targetTrouble(cause: unknown, file: string): unknown {
  const code = (cause as { code?: string }).code;
  if (code === "ENOENT" || code === "EISDIR" || code === "ENOTDIR")
    return new Trouble(
      400,
      `The backup cannot be written to ${file}: there is no such folder, or it is one itself.`,
    );
  if (code === "EACCES" || code === "EPERM" || code === "EROFS")
    return new Trouble(400, `The backup cannot be written to ${file}: this account may not write there.`);
  if (code === "ENOSPC" || code === "EDQUOT")
    return new Trouble(
      507,
      `The disk is full, so there is no backup at ${file}. The shop's data is as it was.`,
    );
  return troubleOf(cause) ?? cause;
}

function writeRows(database: Database, tx: Kysely<Tables>, file: string): Promise<Backup> {
  return writeBackup(file, database.form, async function* (table) {
    const { key, page } = tableKeys.find((one) => one.table === table)!;
    for (let last: Row | undefined; ; ) {
      const found = await pageOf(tx, table, key, page, last);
      yield* found;
      last = found.at(-1);
      if (found.length < page) return;
    }
  });
}

export type Row = Record<string, unknown>;

/** Writes the rows of all tables as `rowsOf` gives them. `form` is that of the database they come from. */
export async function writeBackup(
  file: string,
  form: string,
  rowsOf: (table: TableName) => AsyncIterable<Row>,
): Promise<Backup> {
  const made = Date.now();
  const hash = createHash("sha256");
  const counts: Record<string, number> = {};
  let rows = 0;
  let head: string | undefined;
  const line = (value: unknown): string => {
    const text = `${JSON.stringify(value)}\n`;
    hash.update(text);
    return text;
  };
  async function* lines(): AsyncGenerator<string> {
    yield line({ bevelbook: "backup", format, form, made });
    for (const { table } of tableKeys) {
      let count = 0;
      for await (const row of rowsOf(table)) {
        yield line([table, packed(row)]);
        count += 1;
        if (table === "log") head = row["hash"] as string;
      }
      counts[table] = count;
      rows += count;
    }
    yield `${JSON.stringify({ end: true, counts, hash: hash.digest("hex") })}\n`;
  }
  await pipeline(Readable.from(lines()), createGzip({ level: 6 }), createWriteStream(file, { mode: 0o600 }));
  return { rows, counts, head, made, form };
}

async function pageOf(
  tx: Kysely<Tables>,
  table: TableName,
  key: readonly string[],
  page: number,
  last: Record<string, unknown> | undefined,
): Promise<Record<string, unknown>[]> {
  const columns = sql.join(key.map((name) => sql.ref(name)));
  const after =
    last === undefined ? sql`` : sql`where (${columns}) > (${sql.join(key.map((name) => last[name]))})`;
  return (
    await sql<
      Record<string, unknown>
    >`select * from ${sql.table(table)} ${after} order by ${columns} limit ${sql.lit(page)}`.execute(tx)
  ).rows;
}

/** Bytes as text: everything else is JSON already. */
const packed = (row: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(
    Object.entries(row).map(([name, value]) => [
      name,
      value instanceof Uint8Array ? { bytes: Buffer.from(value).toString("base64") } : value,
    ]),
  );
const unpacked = (row: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(
    Object.entries(row).map(([name, value]) => [
      name,
      typeof value === "object" && value !== null && "bytes" in value
        ? Buffer.from(value.bytes as string, "base64")
        : value,
    ]),
  );

type Line = [TableName, Record<string, unknown>];

/**
 * Reads a whole backup and changes nothing; a file that is missing, cut off or changed is refused with a
 * Trouble.
 */
export const readBackup = (database: Database, file: string): Promise<Backup> =>
  readThrough(database, file, async () => undefined);

/**
 * Replaces all data by a backup in one transaction: whole or not at all. Reads the file to
 * its end first.
 */
export async function restore(database: Database, file: string, who: string): Promise<Backup> {
  // Before anything is touched: a file that is cut off or changed is refused.
  const found = await readBackup(database, file);
  await database.write(who, async (tx, _tell, at) => {
    const before = await tx
      .selectFrom("log")
      .select(["seq", "hash"])
      .orderBy("seq", "desc")
      .limit(1)
      .executeTakeFirst();
    await liftGuards(tx, database.sort);
    for (const { table } of [...tableKeys].reverse()) await sql`delete from ${sql.table(table)}`.execute(tx);
    let waiting: Line[] = [];
    const flush = async (): Promise<void> => {
      if (waiting.length === 0) return;
      const rows = waiting.map(([, row]) => unpacked(row));
      await tx
        .insertInto(waiting[0]![0])
        .values(rows as never)
        .execute();
      waiting = [];
    };
    await readThrough(database, file, async (line) => {
      if (
        waiting.length > 0 &&
        (waiting[0]![0] !== line[0] || waiting.length >= (line[0] === "photos" ? 1 : 100))
      )
        await flush();
      waiting.push(line);
    });
    await flush();
    // A backup of an earlier form.
    await fillLines(tx);
    await foldOldJobs(tx);
    // Whoever was signed in before signs in again: roles and passwords may be others now.
    for (const table of ["sessions", "invitations"] as const) await tx.deleteFrom(table).execute();
    await putGuards(tx, database.sort);
    // What comes of a form without hashes of its rows gets them.
    const older = found.form < attestedForm ? await attestation(tx) : undefined;
    await appendLog(tx, at, who, "restored", {
      made: found.made,
      rows: found.rows,
      ...(before === undefined ? {} : { left: before }),
    });
    if (older !== undefined) await appendLog(tx, at, who, "attested", older);
  });
  return found;
}

/** Reads the whole file, hands out each row, and makes sure that it came to its end unchanged. */
async function readThrough(
  database: Database,
  file: string,
  take: (line: Line) => Promise<void>,
): Promise<Backup> {
  const bad = (why: string): Trouble => new Trouble(422, `${file} ${why} Nothing was put back.`);
  const counts: Record<string, number> = {};
  const hash = createHash("sha256");
  let made: number | undefined;
  let form = "";
  let rows = 0;
  let head: string | undefined;
  let ended = false;
  const known = new Set<string>(tableKeys.map((one) => one.table));
  const stream = createReadStream(file).on("error", (cause) => packedStream.destroy(cause));
  const packedStream = createGunzip();
  stream.pipe(packedStream);
  try {
    for await (const text of linesOf(packedStream)) {
      if (ended) throw bad("goes on after its end.");
      const value = JSON.parse(text) as
        | Line
        | {
            bevelbook?: string;
            format?: number;
            form?: string;
            made?: number;
            end?: boolean;
            counts?: Record<string, number>;
            hash?: string;
          };
      if (made === undefined) {
        if (Array.isArray(value) || value.bevelbook !== "backup") throw bad("is not a backup of Bevelbook.");
        if ((value.format ?? 0) > format || (value.form ?? "") > database.form)
          throw bad("was made by a newer version of Bevelbook.");
        made = value.made ?? 0;
        form = value.form ?? "";
      } else if (Array.isArray(value)) {
        if (!known.has(value[0])) throw bad("holds a table that this version does not know.");
        counts[value[0]] = (counts[value[0]] ?? 0) + 1;
        rows += 1;
        if (value[0] === "log") head = value[1]["hash"] as string;
        await take(value);
      } else {
        if (
          value.hash !== hash.digest("hex") ||
          Object.entries(value.counts ?? {}).some(([table, count]) => (counts[table] ?? 0) !== count)
        )
          throw bad("was changed since it was made.");
        ended = true;
      }
      if (!ended) hash.update(`${text}\n`);
    }
  } catch (cause) {
    if (cause instanceof Trouble) throw cause;
    const code = (cause as { code?: string }).code ?? "";
    if (code === "ENOENT") throw new Trouble(400, `There is no file ${file}.`);
    if (code === "EACCES" || code === "EISDIR") throw new Trouble(400, `${file} cannot be read.`);
    if (code.startsWith("Z_") || cause instanceof SyntaxError)
      throw bad(code === "Z_BUF_ERROR" ? "is cut off." : "is not a backup of Bevelbook, or it is damaged.");
    throw cause;
  } finally {
    stream.destroy();
  }
  if (!ended) throw bad(made === undefined ? "is not a backup of Bevelbook." : "is cut off.");
  return { rows, counts, head, made: made!, form };
}

/**
 * Lines end with a line feed and with nothing else: texts may hold other marks that some readers take for
 * one.
 */
async function* linesOf(stream: AsyncIterable<Buffer>): AsyncGenerator<string> {
  const decoder = new StringDecoder("utf8");
  let parts: string[] = [];
  for await (const chunk of stream) {
    const pieces = decoder.write(chunk).split("\n");
    for (const piece of pieces.slice(0, -1)) {
      yield parts.join("") + piece;
      parts = [];
    }
    parts.push(pieces.at(-1)!);
  }
  const rest = parts.join("") + decoder.end();
  if (rest !== "") yield rest;
}

/** After a restore: whether the log that came back is whole. */
export const restoredWhole = async (database: Database, backup: Backup): Promise<readonly string[]> =>
  (await verifyLog(database, backup.head)).troubles;
