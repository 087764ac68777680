// The card of each worked example that has all answers, for every shipped book, as the terminal prints it.
// `npx tsx tests/support/write-cards.ts` writes them to tests/rulesets/cards, where a test holds them against
// the books: read what changed before it is kept.
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { argv } from "node:process";
import { fileURLToPath } from "node:url";
import { type Book, contentHashOf, engineVersion, readBook, showJob, workJob } from "../../engine/index.ts";
import { card } from "../../editor/terminal/work.ts";

export const CARDS = new URL("../rulesets/cards/", import.meta.url);
/** By which engine the stored cards were made, of which texts. */
export const MADE_BY = new URL("../rulesets/cards-made-by.json", import.meta.url);
const BOOKS = new URL("../../rulesets/", import.meta.url);

/** Hashes in hex: of a book's text with all that it depends on, and of its stored cards. */
export interface MadeBy {
  readonly engine: string;
  readonly books: Readonly<Record<string, { readonly text: string; readonly cards: string }>>;
}

export function shippedBooks(): readonly Book[] {
  const texts = readdirSync(BOOKS)
    .filter((file) => file.endsWith(".bevel"))
    .sort()
    .map((file) => readFileSync(new URL(file, BOOKS), "utf8"));
  return texts.map((text) =>
    readBook(
      text,
      undefined,
      texts.filter((one) => one !== text),
    ),
  );
}

/**
 * Every card by the name of its file, `BOOK.EXAMPLE.txt`: of each example that comes out ready, and of each
 * that is to, whatever it comes out as.
 */
export function cardsOfBooks(books: readonly Book[] = shippedBooks()): ReadonlyMap<string, string> {
  const out = new Map<string, string>();
  for (const book of books) {
    for (const { name, title, answers, expects } of book.worked) {
      const view = showJob(workJob(book, answers));
      // A book of sums is ready without an answer, and tells nobody to do anything.
      const ready = view.state === "ready" && view.steps.length > 0;
      if (!ready && !expects.some(({ what, wanted }) => what === "the job to be" && wanted === "ready"))
        continue;
      out.set(
        `${book.name}.${name}.txt`,
        `${title}\n\n${card(`${book.name}, edition ${book.edition ?? "?"}: ${book.title}`, view, false)}\n`,
      );
    }
  }
  return out;
}

/** What these cards are made by: this engine, and these books. */
export function madeBy(books: readonly Book[], cards: ReadonlyMap<string, string>): MadeBy {
  const ofBook = (book: Book) =>
    [...cards].filter(([file]) => file.startsWith(`${book.name}.`)).sort(([a], [b]) => (a < b ? -1 : 1));
  return {
    engine: engineVersion,
    books: Object.fromEntries(
      books.flatMap((book) => {
        const own = ofBook(book);
        const hash = createHash("sha256").update(JSON.stringify(own)).digest("hex");
        return own.length === 0 ? [] : [[book.name, { text: contentHashOf(book), cards: hash }]];
      }),
    ),
  };
}

/**
 * What must be done before these cards may be stored in place of those made before; undefined where nothing.
 * The same engine must give the same cards for the same book: that is what `engineVersion` promises.
 */
export function mustRaise(before: MadeBy, now: MadeBy): string | undefined {
  if (before.engine !== now.engine) return undefined;
  const changed = Object.entries(now.books).flatMap(([name, { text, cards }]) => {
    const old = before.books[name];
    return old?.text === text && old.cards !== cards ? [name] : [];
  });
  return changed.length === 0
    ? undefined
    : `Cards of ${changed.join(", ")} changed, but the text of the book did not: the engine gives another ` +
        "card for the same book and answers. Raise engineVersion in engine/version.ts " +
        `(it is ${now.engine}), ` +
        "then run npx tsx tests/support/write-cards.ts";
}

/** Writes all cards, removes those that no book has any more, and notes what made them. */
function writeCards(): void {
  mkdirSync(CARDS, { recursive: true });
  const books = shippedBooks();
  const cards = cardsOfBooks(books);
  for (const file of readdirSync(CARDS)) if (!cards.has(file)) rmSync(new URL(file, CARDS));
  for (const [file, text] of cards) writeFileSync(new URL(file, CARDS), text);
  const now = madeBy(books, cards);
  const before = JSON.parse(readFileSync(MADE_BY, "utf8")) as MadeBy;
  const refusal = mustRaise(before, now);
  if (refusal === undefined) {
    writeFileSync(MADE_BY, `${JSON.stringify(now, undefined, 2)}\n`);
    return;
  }
  console.error(refusal);
  process.exitCode = 1;
}

if (argv[1] === fileURLToPath(import.meta.url)) writeCards();
