// Before a book is sealed the host reads and proves it itself: nobody's word is taken for it.
import type { EditionLine, Fault, SealProgress, SealRequest } from "../../../core/schemas/host.ts";
import { plainText } from "../database/draft-versions.ts";
import { lastNumber, seal } from "../database/editions.ts";
import { sha256 } from "../database/log-chain.ts";
import type { Database } from "../database/database.ts";
import { Trouble } from "../trouble.ts";
import type { AskedBy, EngineThreads } from "./engine-threads.ts";
import { withDependencies } from "./dependencies-of.ts";
import type { Checked, Progress, Proved } from "./thread-messages.ts";

export type Sealed =
  | { readonly is: "sealed"; readonly edition: EditionLine }
  | { readonly is: "refused"; readonly says: string; readonly faults: readonly Fault[] };

/**
 * Verdicts of the last few texts, so that the second try, with its reason, need not wait for the proof again.
 */
const remembered = new Map<string, Proved>();
const remember = 20;
/** Faults that a refusal names. */
const mostFaults = 200;

/** How far the sealing of a book is, by book, for each host's engine. */
const running = new WeakMap<EngineThreads, Map<string, SealProgress>>();

/** How far the sealing of this book is; `none` where none is on. */
export const sealProgressOf = (threads: EngineThreads, book: string): SealProgress =>
  running.get(threads)?.get(book) ?? { is: "none" };

/** What is to be sealed, and by whom. */
export interface Sealing {
  readonly who: string;
  readonly book: string;
  readonly given: SealRequest;
  readonly proofSeconds: number;
  /** Ends it when the client has gone. */
  readonly signal?: AbortSignal;
}

/**
 * Seals the text as the next edition; a book with faults only for a written reason, which stays beside it.
 * Throws a `Trouble` where the text is not the next edition of this book.
 */
export async function sealEdition(
  database: Database,
  threads: EngineThreads,
  { who, book, given, proofSeconds, signal }: Sealing,
): Promise<Sealed> {
  const by: AskedBy = { who, ...(signal === undefined ? {} : { signal }) };
  const text = plainText(given.text);
  const { checked, texts, refs } = await withDependencies(database, threads, text, by);
  const number = nextNumber(checked, book, await lastNumber(database, book));
  const hash = sha256(text);
  const key = [hash, ...refs.map((ref) => ref.print), proofSeconds].join(" ");
  const proved =
    remembered.get(key) ??
    (await withProgress(threads, book, (tell) =>
      threads.ask({ asks: "prove", text, under: texts, seconds: proofSeconds }, by, tell),
    ));
  remembered.set(key, proved);
  if (remembered.size > remember) remembered.delete(remembered.keys().next().value!);

  const faults = [...checked.faults, ...proved.faults];
  const reason = given.reason?.trim();
  if (faults.length > 0 && !reason) {
    const has = faults.length === 1 ? "a fault" : `${faults.length} faults`;
    const shown = faults.length > mostFaults ? `The first ${mostFaults} are shown. ` : "";
    return {
      is: "refused",
      says:
        `The book has ${has}. ${shown}It is sealed in spite of that only for a written reason, ` +
        "which stays beside the edition.",
      faults: faults.slice(0, mostFaults),
    };
  }
  const edition = await seal(database, who, {
    book,
    number,
    title: checked.title,
    print: hash,
    text,
    stands: refs,
    why: given.why,
    standing: proved.standing,
    faults,
    ...(faults.length > 0 ? { reason } : {}),
  });
  return { is: "sealed", edition };
}

/** Keeps how far `prove` is where `sealProgressOf` finds it, as long as it goes on. */
async function withProgress<Value>(
  threads: EngineThreads,
  book: string,
  prove: (tell: (progress: Progress) => void) => Promise<Value>,
): Promise<Value> {
  const books = running.get(threads) ?? new Map<string, SealProgress>();
  running.set(threads, books);
  books.set(book, { is: "waiting" });
  try {
    return await prove(({ settled, all }) => books.set(book, { is: "proving", settled, all }));
  } finally {
    books.delete(book);
  }
}

/** The number in the book's first line. Throws where the text is another book or the number is not higher. */
function nextNumber({ name, edition }: Checked, book: string, last: number | undefined): number {
  if (name !== book)
    throw new Trouble(
      422,
      name === ""
        ? "The text does not begin as a book does, so it has no name. Nothing was sealed."
        : `The text is the book ${name}, not ${book}. Nothing was sealed.`,
    );
  const line = `book ${book}, edition ${(last ?? 0) + 1}`;
  if (edition === undefined)
    throw new Trouble(422, `The book gives no edition. Write it in its first line: ${line}.`);
  if (last !== undefined && edition <= last)
    throw new Trouble(
      409,
      `Edition ${last} of ${book} is sealed already. Give this one a higher number: ${line}.`,
    );
  return edition;
}
