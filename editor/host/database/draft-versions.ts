// Drafts: the one text of a book that is being written, with every version it ever had. A save names the
// version that it changed; if another came in between, nothing is overwritten and both are put together for
// the person to save.
import { mergeTexts } from "../../../core/merge.ts";
import { isPlainText } from "../../../core/schemas/plain-text.ts";
import { titleIn } from "../../../core/title-in.ts";
import type { DraftConflict, DraftHistory, DraftSaved } from "../../../core/schemas/host.ts";
import { giveWay } from "./each-row.ts";
import { sha256 } from "./log-chain.ts";
import type { Database } from "./database.ts";
import { type Splice, spliceBetween, withSplice } from "./text-delta.ts";
import type { Tables } from "./tables.ts";
import { Trouble, unplain } from "../trouble.ts";
import { type Kysely, type Transaction, sql } from "kysely";

/** Versions read at once for a list. */
const atATime = 20;
/** Every so many versions the whole text is kept. */
const wholeEvery = 64;

export type Save =
  | { readonly is: "saved"; readonly saved: DraftSaved }
  | { readonly is: "conflict"; readonly conflict: DraftConflict };
export type KeptDraft = Tables["drafts"];

/**
 * Line ends made alike. Throws a `Trouble` for what is no text: one of the databases would refuse it, the
 * other mangle it.
 */
export function plainText(text: string): string {
  if (!isPlainText(text)) throw unplain();
  return text.replace(/\r\n?/g, "\n");
}

export const draftOf = (database: Database, book: string): Promise<KeptDraft | undefined> =>
  database.db.selectFrom("drafts").selectAll().where("book", "=", book).executeTakeFirst();

/**
 * Saves the text if it was made from the newest version, or says the same; else reports the conflict and
 * changes nothing.
 */
export async function saveDraft(
  database: Database,
  who: string,
  book: string,
  given: { readonly base: number; readonly text: string; readonly device?: string | undefined },
): Promise<Save> {
  const text = plainText(given.text);
  const print = sha256(text);
  const saved = await database.write(who, async (tx, log, at): Promise<Saved> => {
    const old = await tx.selectFrom("drafts").selectAll().where("book", "=", book).executeTakeFirst();
    if (old?.print === print) return { is: "saved", saved: { version: old.version, print, at: old.at } };
    if ((old?.version ?? 0) !== given.base) {
      if (old === undefined || given.base > old.version)
        throw new Trouble(409, `There is no version ${given.base} of the draft of ${book}. Load it anew.`);
      return { is: "behind", base: given.base === 0 ? "" : await versionText(tx, book, given.base), old };
    }
    const version = given.base + 1;
    const title = titleIn(text);
    await tx
      .insertInto("books")
      .values({ name: book, title, begun: at })
      .onConflict((c) => c.column("name").doUpdateSet({ title }))
      .execute();
    const row = { book, version, text, print, who, at };
    await tx
      .insertInto("drafts")
      .values(row)
      .onConflict((c) => c.column("book").doUpdateSet(row))
      .execute();
    const change =
      old !== undefined && version % wholeEvery !== 0 ? spliceBetween(old.text, text) : undefined;
    await tx
      .insertInto("draft_history")
      .values({
        book,
        version,
        who,
        at,
        print,
        whole: change === undefined ? text : null,
        change: change === undefined ? null : JSON.stringify(change),
      })
      .execute();
    await log("draft", {
      book,
      version,
      print,
      ...(given.device === undefined ? {} : { device: given.device }),
    });
    return { is: "saved", saved: { version, print, at } };
  });
  // Apart from the transaction, so that nobody who writes waits for it.
  return saved.is === "saved" ? saved : { is: "conflict", conflict: conflictOf(book, text, saved) };
}

type Saved =
  | { readonly is: "saved"; readonly saved: DraftSaved }
  | { readonly is: "behind"; readonly base: string; readonly old: KeptDraft };

function conflictOf(
  book: string,
  text: string,
  { base, old }: Extract<Saved, { is: "behind" }>,
): DraftConflict {
  const { text: merged, clashes } = mergeTexts(base, text, old.text);
  const were = clashes.length === 1 ? "One statement was" : `${clashes.length} statements were`;
  const fit =
    clashes.length === 0
      ? "Both changes fit together."
      : `${were} changed by both; both stand in the merged text.`;
  return {
    says: `${old.who} saved ${book} in between. ${fit}`,
    theirs: { version: old.version, text: old.text, who: old.who, at: old.at },
    merged,
    clashes: [...clashes],
  };
}

/** The text of any version that was ever saved. Throws a `Trouble` if there is none. */
export async function versionText(
  db: Kysely<Tables> | Transaction<Tables>,
  book: string,
  version: number,
): Promise<string> {
  const from = Math.max(1, version - (version % wholeEvery));
  const rows = await db
    .selectFrom("draft_history")
    .select(["version", "whole", "change"])
    .where("book", "=", book)
    .where("version", ">=", from)
    .where("version", "<=", version)
    .orderBy("version")
    .execute();
  if (rows.at(-1)?.version !== version)
    throw new Trouble(404, `There is no version ${version} of the draft of ${book}.`);
  let text = "";
  for (const row of rows) text = row.whole ?? withSplice(text, JSON.parse(row.change!) as Splice);
  return text;
}

/** Versions before `before`, the newest first. */
export async function draftVersions(
  database: Database,
  book: string,
  before: number | undefined,
  limit: number,
): Promise<DraftHistory> {
  const versions: DraftHistory["versions"][number][] = [];
  let last = before;
  // A few at a time: each change may be as long as a book, and others go first in between.
  while (versions.length <= limit) {
    const found = await database.db
      .selectFrom("draft_history")
      .select([
        "version",
        "who",
        "at",
        "print",
        "change",
        sql<number>`length(coalesce(whole, ''))`.as("size"),
      ])
      .where("book", "=", book)
      .$if(last !== undefined, (q) => q.where("version", "<", last!))
      .orderBy("version", "desc")
      .limit(Math.min(atATime, limit + 1 - versions.length))
      .execute();
    if (found.length === 0) break;
    for (const { version, who, at, print, change, size } of found) {
      const splice = change === null ? { removed: 0, inserted: "" } : (JSON.parse(change) as Splice);
      versions.push({
        version,
        who,
        at,
        print,
        added: change === null && version === 1 ? size : splice.inserted.length,
        removed: splice.removed,
      });
    }
    last = found.at(-1)!.version;
    await giveWay();
  }
  return { versions: versions.slice(0, limit), more: versions.length > limit };
}
