// Texts of books by print: those of sealed editions, those that a device has delivered because it worked a
// job by them, and every version of every draft.
import { dependenciesOf, unbundled } from "../../../engine/index.ts";
import type { BookRef } from "../../../core/record.ts";
import type { BookByPrint } from "../../../core/schemas/host.ts";
import type { Database } from "./database.ts";
import { versionText } from "./drafts.ts";
import { sha256 } from "./log.ts";
import { Trouble } from "./database-errors.ts";

async function textByPrint(database: Database, print: string): Promise<string | undefined> {
  const kept = await database.db
    .selectFrom("texts")
    .select("text")
    .where("print", "=", print)
    .executeTakeFirst();
  if (kept !== undefined) return kept.text;
  const version = await database.db
    .selectFrom("draft_history")
    .select(["book", "version"])
    .where("print", "=", print)
    .orderBy("version")
    .limit(1)
    .executeTakeFirst();
  return version === undefined ? undefined : versionText(database.db, version.book, version.version);
}

/**
 * The book of a print, and what it stands on as far as that is kept: of a sealed edition exactly what it was
 * sealed upon.
 */
export async function bookByPrint(database: Database, print: string): Promise<BookByPrint | undefined> {
  const kept = await textByPrint(database, print);
  if (kept === undefined) return undefined;
  const { text, under } = unbundled(kept);
  if (under !== undefined) return { text, under: [...under] };
  const sealed = await database.db
    .selectFrom("editions")
    .select("stands")
    .where("print", "=", print)
    .orderBy("at")
    .limit(1)
    .executeTakeFirst();
  if (sealed === undefined) return dependenciesOf(text).length > 0 ? { text } : { text, under: [] };
  const texts = await Promise.all(
    (JSON.parse(sealed.stands) as BookRef[]).map((ref) => textByPrint(database, ref.print)),
  );
  return { text, under: texts.filter((one) => one !== undefined) };
}

/**
 * Keeps a text under its print; false if it is there already. Throws a `Trouble` if the print is another
 * text's.
 */
export async function keepText(
  database: Database,
  who: string,
  print: string,
  text: string,
): Promise<boolean> {
  if (sha256(text) !== print)
    throw new Trouble(422, "The text is not the one that the print names. Nothing was kept.");
  return database.write(who, async (tx, tell) => {
    if (
      (await tx.selectFrom("texts").select("print").where("print", "=", print).executeTakeFirst()) !==
      undefined
    )
      return false;
    await tx.insertInto("texts").values({ print, text }).execute();
    // Jobs that waited for this text can be worked again now.
    await tx
      .updateTable("jobs")
      .set({ agreement: "waiting" })
      .where("print", "=", print)
      .where("agreement", "=", "book unknown")
      .execute();
    await tell("text", { print });
    return true;
  });
}
