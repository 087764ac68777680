// Saves what is good of a damaged data file into a backup, and lists what is not. Works on a copy, so that
// nothing is changed; reads by the numbers of the rows, so that a damaged page costs the rows on it alone.
import { copyFile, mkdtemp, rename, rm } from "node:fs/promises";
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { Kysely, sql } from "kysely";
import { type Backup, type Row, targetTrouble, writeBackup } from "./backup-file.ts";
import { fileName } from "./database.ts";
import { orDamaged } from "./each-row.ts";
import { openFileDatabase } from "./file-database.ts";
import { hashOf, sha256 } from "./log-chain.ts";
import { migrationsFor } from "./migrations.ts";
import { type TableName, type Tables, tableKeys } from "./tables.ts";
import { Trouble } from "../trouble.ts";

export interface Salvage {
  readonly backup: Backup;
  /** What could not be saved, a sentence each. */
  readonly lost: readonly string[];
}

/** Throws a `Trouble` where there is no file, nothing of it can be read, or none can be written. */
export async function salvage(folder: string, file: string): Promise<Salvage> {
  const path = join(folder, fileName);
  if (!existsSync(path)) throw new Trouble(400, `There is no data file ${path}.`);
  const part = `${file}.part`;
  const lost: string[] = [];
  let copy: string | undefined;
  try {
    copy = await mkdtemp(join(dirname(file), ".salvage-"));
    for (const end of ["", "-wal"])
      if (existsSync(path + end)) await copyFile(path + end, join(copy, fileName + end));
    const { dialect } = openFileDatabase(join(copy, fileName));
    const db = new Kysely<Tables>({ dialect });
    try {
      const backup = await writeBackup(part, await formOf(db), goodRows(db, lost));
      await rename(part, file);
      return { backup, lost };
    } finally {
      await db.destroy().catch(() => undefined);
    }
  } catch (cause) {
    await rm(part, { force: true }).catch(() => undefined);
    throw targetTrouble(cause, file);
  } finally {
    if (copy !== undefined) await rm(copy, { recursive: true, force: true }).catch(() => undefined);
  }
}

/** The newest step that was taken; where that cannot be read, this version's. */
async function formOf(db: Kysely<Tables>): Promise<string> {
  const rows = await sql<{ name: string }>`select name from kysely_migration`.execute(db).catch(orDamaged);
  const known = Object.keys(migrationsFor("file")).sort();
  return (
    rows?.rows
      .map((row) => row.name)
      .sort()
      .at(-1) ?? known.at(-1)!
  );
}

function goodRows(db: Kysely<Tables>, lost: string[]): (table: TableName) => AsyncIterable<Row> {
  const books = new Set<string>();
  return async function* (table) {
    const name = table.replaceAll("_", " ");
    for await (const row of byNumber(db, table, (from, to) => lost.push(lostWords(name, from, to)))) {
      const key = tableKeys.find((one) => one.table === table)!.key.map((one) => row[one]);
      if (!isGood(table, row)) lost.push(`The row ${key.join(" ")} of ${name} is damaged.`);
      else {
        if (table === "books") books.add(row["name"] as string);
        // Folded anew from the entries that are left.
        yield table === "jobs" && "fold" in row ? { ...row, fold: 0 } : row;
      }
    }
    // Drafts and editions cannot stand without their book.
    if (table === "books") yield* missingBooks(db, books);
  };
}

const lostWords = (name: string, from: number, to: number): string =>
  from === to
    ? `Row number ${from} of ${name} cannot be read.`
    : `Rows number ${from} to ${to} of ${name}, as far as there are any, cannot be read.`;

async function* missingBooks(db: Kysely<Tables>, known: ReadonlySet<string>): AsyncIterable<Row> {
  const named = new Set<string>();
  for (const table of ["drafts", "draft_history", "editions"] as const)
    for await (const row of byNumber(db, table, () => undefined))
      if (typeof row["book"] === "string" && !known.has(row["book"])) named.add(row["book"]);
  for (const name of named) yield { name, title: "", begun: 0 };
}

/** The rows of a table by their numbers; `unread` hears of those that cannot be read. */
async function* byNumber(
  db: Kysely<Tables>,
  table: TableName,
  unread: (from: number, to: number) => void,
): AsyncIterable<Row> {
  const on = sql.table(table);
  const last = await sql<{ last: number | null }>`select max(rowid) as last from ${on}`
    .execute(db)
    .catch(orDamaged);
  // Where not even the last can be found, as far as a shop ever comes.
  const most = last === undefined ? 1 << 24 : (last.rows[0]?.last ?? 0);
  const width = tableKeys.find((one) => one.table === table)!.page;
  const parts: [number, number][] = most < 1 ? [] : [[1, most]];
  for (let part = parts.pop(); part !== undefined; part = parts.pop()) {
    const [from, to] = part;
    const read = sql<Row>`select rowid as number_of_row, * from ${on}
      where rowid between ${sql.lit(from)} and ${sql.lit(to)} order by rowid limit ${sql.lit(width)}`;
    const found = await read.execute(db).catch(orDamaged);
    if (found === undefined) {
      if (from === to) unread(from, to);
      else {
        const middle = Math.floor((from + to) / 2);
        parts.push([middle + 1, to], [from, middle]);
      }
      continue;
    }
    for (const { number_of_row: _, ...row } of found.rows) yield row;
    const end = found.rows.at(-1)?.["number_of_row"] as number | undefined;
    if (found.rows.length === width && end !== undefined && end < to) parts.push([end + 1, to]);
  }
}

const mayBeMissing = new Set([
  ...["whole", "change", "reason", "edition", "signed_at", "signed_by", "trace", "closed_at", "closed_by"],
  "skew",
]);
const numbers = new Set([
  ...["begun", "version", "at", "number", "edition", "changed", "signed_at", "after_signing", "delivered_at"],
  ...["bytes", "made", "seq", "line", "skew", "closed_at", "fold"],
]);
const binary = new Set(["content", "trace"]);

/** Of the right kind in each column, and where it has a hash of its own, what the hash stands for. */
function isGood(table: TableName, row: Row): boolean {
  for (const [name, value] of Object.entries(row)) {
    if (value === null ? mayBeMissing.has(name) : isOfKind(name, value)) continue;
    return false;
  }
  switch (table) {
    case "texts":
    case "drafts":
      return sha256(row["text"] as string) === row["print"];
    case "photos":
      return sha256(row["content"] as Uint8Array) === row["print"];
    case "job_entries":
      return sha256(row["body"] as string) === row["print"];
    case "log":
      return hashOf(row as unknown as Tables["log"]) === row["hash"];
    default:
      return true;
  }
}

function isOfKind(name: string, value: unknown): boolean {
  if (numbers.has(name)) return Number.isSafeInteger(value);
  return binary.has(name) ? value instanceof Uint8Array : typeof value === "string";
}
