// Texts of books by content hash: those of sealed editions, those that a device has delivered because it
// worked a job by them, and every version of every draft.
import { dependenciesOf, unbundled } from "../../../engine/index.ts";
import type { BookRef } from "../../../core/record.ts";
import { isPlainText } from "../../../core/schemas/plain-text.ts";
import type { BookByPrint } from "../../../core/schemas/host.ts";
import type { Database } from "./database.ts";
import { versionText } from "./draft-versions.ts";
import { sha256 } from "./log-chain.ts";
import { Trouble, unplain } from "../trouble.ts";

async function textByHash(database: Database, hash: string): Promise<string | undefined> {
  const kept = await database.db
    .selectFrom("texts")
    .select("text")
    .where("print", "=", hash)
    .executeTakeFirst();
  if (kept !== undefined) return kept.text;
  const version = await database.db
    .selectFrom("draft_history")
    .select(["book", "version"])
    .where("print", "=", hash)
    .orderBy("version")
    .limit(1)
    .executeTakeFirst();
  return version === undefined ? undefined : versionText(database.db, version.book, version.version);
}

/**
 * The book of a content hash, and what it depends on as far as that is kept: of a sealed edition exactly what
 * it was sealed with.
 */
export async function bookByHash(database: Database, hash: string): Promise<BookByPrint | undefined> {
  const kept = await textByHash(database, hash);
  if (kept === undefined) return undefined;
  const { text, under } = unbundled(kept);
  if (under !== undefined) return { text, under: [...under] };
  const sealed = await database.db
    .selectFrom("editions")
    .select("stands")
    .where("print", "=", hash)
    .orderBy("at")
    .limit(1)
    .executeTakeFirst();
  if (sealed === undefined) return dependenciesOf(text).length > 0 ? { text } : { text, under: [] };
  const texts = await Promise.all(
    (JSON.parse(sealed.stands) as BookRef[]).map((ref) => textByHash(database, ref.print)),
  );
  return { text, under: texts.filter((one) => one !== undefined) };
}

/**
 * Stores a text under its content hash; false if it is there already. Throws a `Trouble` if the hash is
 * another text's.
 */
export async function keepText(
  database: Database,
  who: string,
  hash: string,
  text: string,
): Promise<boolean> {
  if (!isPlainText(text)) throw unplain();
  if (sha256(text) !== hash)
    throw new Trouble(422, "The text is not the one that the print names. Nothing was kept.");
  return database.write(who, async (tx, log) => {
    if (
      (await tx.selectFrom("texts").select("print").where("print", "=", hash).executeTakeFirst()) !==
      undefined
    )
      return false;
    await tx.insertInto("texts").values({ print: hash, text }).execute();
    // Jobs that waited for this text can be worked again now.
    await tx
      .updateTable("jobs")
      .set({ agreement: "waiting" })
      .where("print", "=", hash)
      .where("agreement", "=", "book unknown")
      .execute();
    await log("text", { print: hash });
    return true;
  });
}
