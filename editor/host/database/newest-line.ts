// The newest line of the log, kept in a file of its own beside the data: a database that lost its last writes
// looks whole from the inside, and this shows that it is not.
import { closeSync, existsSync, openSync, readFileSync, writeSync } from "node:fs";
import { join } from "node:path";
import { type Kysely, sql } from "kysely";
import { sha256 } from "./log-chain.ts";
import type { Tables } from "./tables.ts";

export interface NewestLine {
  readonly seq: number;
  readonly hash: string;
  /** By the host's clock. */
  readonly at: number;
}

export const newestName = "newest-line";
/** Bytes of each of the two places that are written in turn, so that one is always whole. */
const place = 256;

/** The line that was written last; undefined where there is no file or nothing in it can be read. */
export function readNewest(folder: string): NewestLine | undefined {
  const file = join(folder, newestName);
  if (!existsSync(file)) return undefined;
  const text = readFileSync(file, "latin1");
  const found = [text.slice(0, place), text.slice(place, 2 * place)].flatMap((one) => parsed(one) ?? []);
  return found.sort((a, b) => b.seq - a.seq)[0];
}

function parsed(text: string): NewestLine | undefined {
  const [sum, body] = [text.slice(0, 64), text.slice(65).trimEnd()];
  if (sha256(body) !== sum) return undefined;
  return JSON.parse(body) as NewestLine;
}

export interface NewestKeeper {
  /** Never throws: a disk that does not take it is told of elsewhere. */
  keep(line: NewestLine): void;
  close(): void;
}

export function openNewest(folder: string): NewestKeeper {
  const path = join(folder, newestName);
  let file: number | undefined;
  let last = 0;
  const write = (at: number, text: string): void => {
    writeSync(file!, text, at * place, "latin1");
  };
  return {
    keep: ({ seq, hash, at }) => {
      try {
        if (file === undefined) {
          last = readNewest(folder)?.seq ?? 0;
          file = openSync(path, existsSync(path) ? "r+" : "w+", 0o600);
        }
        const body = JSON.stringify({ seq, hash, at });
        const text = `${sha256(body)} ${body}`.padEnd(place - 1).concat("\n");
        write(seq % 2, text);
        // After a restore the log is another one: what was kept of the one before is over.
        if (seq < last) write((seq + 1) % 2, text);
        last = seq;
      } catch {
        /* The next line is kept, or the one after it. */
      }
    },
    close: () => {
      if (file !== undefined) closeSync(file);
      file = undefined;
    },
  };
}

/** What the kept line says that the database does not; undefined where both agree, or nothing was kept. */
export async function lostLines(
  db: Kysely<Tables>,
  kept: NewestLine | undefined,
): Promise<{ readonly from: number; readonly to: number } | undefined> {
  if (kept === undefined) return undefined;
  const there = await db.selectFrom("log").select("hash").where("seq", "=", kept.seq).executeTakeFirst();
  if (there?.hash === kept.hash) return undefined;
  // A backup was put back since, here or by another host on the same database.
  const restored = await db
    .selectFrom("log")
    .select("seq")
    .where("what", "=", "restored")
    .where("at", ">=", kept.at)
    .limit(1)
    .executeTakeFirst();
  if (restored !== undefined) return undefined;
  const last = await db.selectFrom("log").select("seq").orderBy("seq", "desc").limit(1).executeTakeFirst();
  return { from: Math.min((last?.seq ?? 0) + 1, kept.seq), to: kept.seq };
}

/** What the file's own check of its structure finds; empty where it is sound. */
export async function structureFaults(db: Kysely<Tables>): Promise<readonly string[]> {
  const { rows } = await sql<{ quick_check: string }>`select quick_check from pragma_quick_check(20)`.execute(
    db,
  );
  return rows.map((row) => row.quick_check).filter((one) => one !== "ok");
}
