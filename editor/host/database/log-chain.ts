// The log of who did what: lines are only ever added, and each carries the hash of itself and of the line
// before it, so that a line that was changed, removed or inserted shows. Lines cut off at the end show
// against a newest hash that was noted elsewhere, as backups do.
import { createHash } from "node:crypto";
import type { Kysely } from "kysely";
import type { Tables } from "./tables.ts";

export type LogBody = Readonly<Record<string, unknown>>;
export const firstHash = "0".repeat(64);

export const sha256 = (content: string | Uint8Array): string =>
  createHash("sha256").update(content).digest("hex");

/** Enough of the hash of a token to tell it from all others; it opens nothing. */
export const tokenName = (hashed: string): string => hashed.slice(0, 16);

/** The content hash of a row, whatever the order of its columns. */
export const rowHash = (row: Readonly<Record<string, unknown>>): string =>
  sha256(JSON.stringify(Object.entries(row).sort(([a], [b]) => (a < b ? -1 : 1))));

export const hashOf = (line: Omit<Tables["log"], "hash">): string =>
  sha256(JSON.stringify([line.seq, line.at, line.who, line.what, line.body, line.before]));

/**
 * Adds a line inside the transaction of the change that it records; the caller holds the lock for writing.
 * Comes back with the line's number.
 */
export async function appendLog(
  tx: Kysely<Tables>,
  at: number,
  who: string,
  what: string,
  body: LogBody,
): Promise<number> {
  const last = await tx
    .selectFrom("log")
    .select(["seq", "hash"])
    .orderBy("seq", "desc")
    .limit(1)
    .executeTakeFirst();
  const line = {
    seq: (last?.seq ?? 0) + 1,
    at,
    who,
    what,
    body: JSON.stringify(body),
    before: last?.hash ?? firstHash,
  };
  await tx
    .insertInto("log")
    .values({ ...line, hash: hashOf(line) })
    .execute();
  return line.seq;
}

/** The lines after `after`, the oldest first. */
export const linesAfter = (db: Kysely<Tables>, after: number, limit: number): Promise<Tables["log"][]> =>
  db.selectFrom("log").selectAll().where("seq", ">", after).orderBy("seq").limit(limit).execute();
