// The books that another book may stand on: those that come with the program and those kept in this browser as last
// accepted. They are fetched only for a book that names another, and only once.
import type { Keep } from "./keep.ts";
import { namesOthers } from "./names-others.ts";
import { shippedBook, shippedBooks } from "./shipped.ts";

/** The texts at hand for this text, but for itself; none where it names no other book. */
export async function booksAtHand(text: string, keep: Keep | undefined): Promise<readonly string[]> {
  if (!namesOthers(text)) return [];
  const shipped = await Promise.all(shippedBooks.map(shippedBook));
  const keys = await keep?.books().catch(() => []) ?? [];
  const kept = await Promise.all(keys.map(({ key }) => keep?.book(key).catch(() => undefined)));
  // One kept under the name of a shipped one stands before it, as it does where a job chooses its book.
  const texts = [...kept.map((book) => book?.accepted), ...shipped];
  return [...new Set(texts)].filter((one): one is string => one !== undefined && one !== text);
}
