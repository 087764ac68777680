// The line of the log that each entry was received with, for entries that were stored before it stood beside
// them: in a database of an earlier form, and in a backup of one.
import type { Kysely } from "kysely";
import { linesAfter } from "./log-chain.ts";
import type { Tables } from "./tables.ts";

/** Needs the guard of the entries lifted. */
export async function fillLines(db: Kysely<Tables>): Promise<void> {
  const missing = await db
    .selectFrom("job_entries")
    .select("id")
    .where("line", "=", 0)
    .limit(1)
    .executeTakeFirst();
  if (missing === undefined) return;
  for (let seq = 0; ; ) {
    const page = await linesAfter(db, seq, 500);
    for (const line of page) {
      seq = line.seq;
      const ids = line.what === "entries" ? idsIn(line.body) : [];
      for (let i = 0; i < ids.length; i += 100)
        await db
          .updateTable("job_entries")
          .set({ line: line.seq })
          .where("id", "in", ids.slice(i, i + 100))
          .where("line", "=", 0)
          .execute();
    }
    if (page.length < 500) return;
  }
}

function idsIn(body: string): readonly string[] {
  try {
    return (JSON.parse(body) as { entries?: [string, string][] }).entries?.map(([id]) => id) ?? [];
  } catch {
    // A line that cannot be read was changed; its hash says so when the log is verified.
    return [];
  }
}
