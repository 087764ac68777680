// Sealed editions: numbered, rising, never changed. What a book was sealed in spite of stays beside it for
// good.
import { sql } from "kysely";
import type { BookRef } from "../../../core/record.ts";
import type {
  BookList,
  Edition,
  EditionLine,
  EditionList,
  Fault,
  VerificationSummary,
} from "../../../core/schemas/host.ts";
import type { Database } from "./database.ts";
import { rowHash } from "./log-chain.ts";
import type { Tables } from "./tables.ts";
import { searchPatterns } from "./search.ts";
import { Trouble } from "../trouble.ts";

export interface Sealing {
  readonly book: string;
  readonly number: number;
  readonly title: string;
  readonly print: string;
  readonly text: string;
  readonly stands: readonly BookRef[];
  readonly why: string;
  readonly standing: VerificationSummary;
  readonly faults: readonly Fault[];
  readonly reason?: string | undefined;
}

/** Seals an edition; its number must be above all of the book's before. */
export async function seal(
  database: Database,
  who: string,
  { text, ...sealing }: Sealing,
): Promise<EditionLine> {
  return database.write(who, async (tx, log, at) => {
    const { book, number, title, print, why } = sealing;
    const last = await tx
      .selectFrom("editions")
      .select(["number"])
      .where("book", "=", book)
      .orderBy("number", "desc")
      .limit(1)
      .executeTakeFirst();
    if (last !== undefined && number <= last.number)
      throw new Trouble(
        409,
        `Edition ${last.number} of ${book} is sealed already. ` +
          `Give this one a higher number: book ${book}, edition ${last.number + 1}.`,
      );
    await tx
      .insertInto("books")
      .values({ name: book, title, begun: at })
      .onConflict((c) => c.column("name").doUpdateSet({ title }))
      .execute();
    await tx
      .insertInto("texts")
      .values({ print, text })
      .onConflict((c) => c.column("print").doNothing())
      .execute();
    const row = {
      book,
      number,
      title,
      print,
      stands: JSON.stringify(sealing.stands),
      who,
      at,
      why,
      standing: JSON.stringify(sealing.standing),
      faults: JSON.stringify(sealing.faults),
      reason: sealing.reason ?? null,
    };
    await tx.insertInto("editions").values(row).execute();
    await tx
      .updateTable("jobs")
      .set({ agreement: "waiting" })
      .where("print", "=", print)
      .where("agreement", "=", "book unknown")
      .execute();
    await log("edition", {
      book,
      number,
      print,
      ...(sealing.standing.fingerprint === undefined ? {} : { fingerprint: sealing.standing.fingerprint }),
      faults: sealing.faults.length,
      row: rowHash(row),
      ...(sealing.reason === undefined ? {} : { reason: sealing.reason }),
    });
    return lineOf(row);
  });
}

export const lastNumber = async (database: Database, book: string): Promise<number | undefined> =>
  (
    await database.db
      .selectFrom("editions")
      .select("number")
      .where("book", "=", book)
      .orderBy("number", "desc")
      .limit(1)
      .executeTakeFirst()
  )?.number;

const lineOf = (row: Tables["editions"]): EditionLine => ({
  book: row.book,
  number: row.number,
  title: row.title,
  print: row.print,
  who: row.who,
  at: row.at,
  why: row.why,
  stands: JSON.parse(row.stands) as EditionLine["stands"],
  standing: JSON.parse(row.standing) as VerificationSummary,
  faults: JSON.parse(row.faults) as Fault[],
  ...(row.reason === null ? {} : { reason: row.reason }),
});

/** Editions of one book, or of all, the newest first. `skip` counts from the newest. */
export async function listEditions(
  database: Database,
  {
    book,
    search,
    skip = 0,
    limit,
  }: {
    readonly book?: string | undefined;
    readonly search?: string | undefined;
    readonly skip?: number | undefined;
    readonly limit: number;
  },
): Promise<EditionList> {
  let query = database.db.selectFrom("editions").selectAll();
  if (book !== undefined) query = query.where("book", "=", book);
  const words = sql`lower(book || ' ' || title || ' ' || why || ' ' || who)`;
  for (const pattern of searchPatterns(search))
    query = query.where(sql<boolean>`${words} like ${pattern} escape '\\'`);
  const found = await query
    .orderBy("at", "desc")
    .orderBy("book")
    .orderBy("number", "desc")
    .offset(skip)
    .limit(limit + 1)
    .execute();
  return { editions: found.slice(0, limit).map(lineOf), more: found.length > limit };
}

/** Throws a `Trouble` if there is none. */
export async function editionOf(database: Database, book: string, number: number): Promise<Edition> {
  const row = await database.db
    .selectFrom("editions")
    .innerJoin("texts", "texts.print", "editions.print")
    .selectAll("editions")
    .select("texts.text")
    .where("book", "=", book)
    .where("number", "=", number)
    .executeTakeFirst();
  if (row === undefined) throw new Trouble(404, `There is no sealed edition ${number} of ${book}.`);
  return { ...lineOf(row), text: row.text };
}

/** All books with their newest edition and their draft, by name. */
export async function listBooks(database: Database): Promise<BookList> {
  const books = await database.db.selectFrom("books").selectAll().orderBy("name").execute();
  const drafts = new Map(
    (await database.db.selectFrom("drafts").select(["book", "version", "who", "at"]).execute()).map(
      ({ book, ...draft }) => [book, draft],
    ),
  );
  const newest = await database.db
    .selectFrom("editions")
    .select(["book", "number", "print", "at", "faults"])
    .where("number", "=", (q) =>
      q
        .selectFrom("editions as other")
        .select((e) => e.fn.max("other.number").as("number"))
        .whereRef("other.book", "=", "editions.book"),
    )
    .execute();
  const editions = new Map(
    newest.map(({ book, faults, ...edition }) => [
      book,
      { ...edition, faults: (JSON.parse(faults) as Fault[]).length },
    ]),
  );
  return {
    books: books.map(({ name, title }) => ({
      name,
      title,
      ...(editions.has(name) ? { edition: editions.get(name)! } : {}),
      ...(drafts.has(name) ? { draft: drafts.get(name)! } : {}),
    })),
  };
}
