// Finds the texts that a book depends on: among the shop's sealed editions, the books kept in this browser
// and those that come with the program.
import type { EngineClient } from "../../client/engine/client.ts";
import type { JobPageCalls } from "../../client/engine/messages.ts";
import { booksAtHand } from "../../client/storage/page-book-resolver.ts";
import type { BrowserStorage } from "../../client/storage/browser-storage.ts";
import { dependenciesOf } from "../../../engine/index.ts";
import type { KeptText } from "../store/record-storage.ts";
import type { Sealed } from "../store/sealed-books.ts";

export interface BookSources {
  readonly engine: EngineClient<JobPageCalls>;
  readonly storage: BrowserStorage | undefined;
  /** The shop's sealed editions; they come before books of the same name that are kept or shipped. */
  readonly sealed: () => Sealed;
}

/** Every text on this device that the book could depend on. */
const textsAtHand = (text: string, { storage, sealed }: BookSources): Promise<readonly string[]> =>
  booksAtHand(text, storage, () =>
    Promise.resolve(sealed().books.flatMap((one) => [one.text, ...one.under])),
  );

/** A book that was kept without the texts it depends on is given those on this device now. */
export async function withDependencies(
  book: KeptText | undefined,
  sources: BookSources,
): Promise<KeptText | undefined> {
  return book === undefined || book.under !== undefined
    ? book
    : { ...book, under: await textsAtHand(book.text, sources) };
}

/**
 * The texts on this device that the book really depends on: they belong to its content hash. Undefined for a
 * book that names no other.
 */
export async function dependencyTexts(
  text: string,
  sources: BookSources,
): Promise<readonly string[] | undefined> {
  if (dependenciesOf(text).length === 0) return undefined;
  const texts = await textsAtHand(text, sources);
  return (await sources.engine.ask((to) => to.ground(text, texts))) ?? texts;
}
