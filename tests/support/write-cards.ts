// The card of each worked example that has all answers, for every shipped book, as the terminal prints it.
// `npx tsx tests/support/write-cards.ts` writes them to tests/rulesets/cards, where a test holds them against
// the books: read what changed before it is kept.
import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { argv } from "node:process";
import { fileURLToPath } from "node:url";
import { readBook, showJob, workJob } from "../../engine/index.ts";
import { card } from "../../editor/terminal/work.ts";

export const CARDS = new URL("../rulesets/cards/", import.meta.url);
const BOOKS = new URL("../../rulesets/", import.meta.url);

/**
 * Every card by the name of its file, `BOOK.EXAMPLE.txt`: of each example that comes out ready, and of each
 * that is to, whatever it comes out as.
 */
export function cardsOfBooks(): ReadonlyMap<string, string> {
  const texts = readdirSync(BOOKS)
    .filter((file) => file.endsWith(".bevel"))
    .sort()
    .map((file) => readFileSync(new URL(file, BOOKS), "utf8"));
  const out = new Map<string, string>();
  for (const text of texts) {
    const book = readBook(
      text,
      undefined,
      texts.filter((one) => one !== text),
    );
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

/** Writes all cards and takes away those that no book has any more. */
function writeCards(): void {
  mkdirSync(CARDS, { recursive: true });
  const cards = cardsOfBooks();
  for (const file of readdirSync(CARDS)) if (!cards.has(file)) rmSync(new URL(file, CARDS));
  for (const [file, text] of cards) writeFileSync(new URL(file, CARDS), text);
}

if (argv[1] === fileURLToPath(import.meta.url)) writeCards();
