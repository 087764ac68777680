// The dependencies of a book: the sealed editions in this database that it names, and those that they name.
import type { BookRef } from "../../../core/record.ts";
import type { Database } from "../database/database.ts";
import { bookByHash } from "../database/texts.ts";
import type { AskedBy, EngineThreads } from "./engine-threads.ts";
import type { Checked } from "./thread-messages.ts";

export interface Dependencies {
  readonly checked: Checked;
  readonly texts: readonly string[];
  readonly refs: readonly BookRef[];
}

/** Longest chain of dependencies. */
const deepest = 20;

/**
 * Reads the book with everything that it depends on and that is in the database. What is missing is among its
 * faults, as the engine words it.
 */
export async function withDependencies(
  database: Database,
  threads: EngineThreads,
  text: string,
  by: AskedBy = {},
): Promise<Dependencies> {
  const under = new Map<string, { readonly text: string; readonly ref: BookRef }>();
  for (let depth = 0; ; depth += 1) {
    const texts = [...under.values()].map((one) => one.text);
    const checked = await threads.ask({ asks: "check", text, under: texts }, by);
    let more = false;
    for (const { name, edition, here } of checked.stands) {
      const key = `${name} ${edition ?? ""}`;
      if (here || under.has(key) || depth >= deepest) continue;
      const row = await database.db
        .selectFrom("editions")
        .innerJoin("texts", "texts.print", "editions.print")
        .select(["editions.number", "editions.print", "texts.text"])
        .where("book", "=", name)
        .$if(edition !== undefined, (q) => q.where("number", "=", edition!))
        .orderBy("number", "desc")
        .limit(1)
        .executeTakeFirst();
      if (row === undefined) continue;
      under.set(key, { text: row.text, ref: { name, edition: row.number, print: row.print, sealed: true } });
      more = true;
    }
    if (!more) return { checked, texts, refs: [...under.values()].map((one) => one.ref) };
  }
}

/**
 * The book of this content hash with the texts that it depends on. Where they were not kept with it, they are
 * those in the database now: it is a draft, or a book that an earlier page delivered without them.
 */
export async function bookWithDependencies(
  database: Database,
  threads: EngineThreads,
  hash: string,
  by: AskedBy = {},
): Promise<{ readonly text: string; readonly under: readonly string[] } | undefined> {
  const found = await bookByHash(database, hash);
  return (
    found && {
      text: found.text,
      under: found.under ?? (await withDependencies(database, threads, found.text, by)).texts,
    }
  );
}
