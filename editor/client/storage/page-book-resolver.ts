// The books that another book may stand on: the shop's sealed editions, those that come with the program and
// those kept in this browser as last accepted. They are fetched only for a book that names another, and only
// once.
import { dependenciesOf } from "../../../engine/index.ts";
import type { BrowserStorage } from "./browser-storage.ts";
import { shippedBook, shippedBooks } from "./shipped.ts";

/**
 * The texts at hand for this text, but for itself; none where it names no other book. `fromHost` gives those
 * of the shop's host.
 */
export async function booksAtHand(
  text: string,
  storage: BrowserStorage | undefined,
  fromHost: (text: string) => Promise<readonly string[]> = () => Promise.resolve([]),
): Promise<readonly string[]> {
  if (dependenciesOf(text).length === 0) return [];
  const sealed = await fromHost(text).catch(() => []);
  const shipped = await Promise.all(shippedBooks.map(shippedBook));
  const keys = (await storage?.books().catch(() => [])) ?? [];
  const kept = await Promise.all(keys.map(({ key }) => storage?.book(key).catch(() => undefined)));
  // A sealed one stands before one kept under its name, and that before a shipped one, as they do where a job
  // chooses its book.
  const texts = [...sealed, ...kept.map((book) => book?.accepted), ...shipped];
  return [...new Set(texts)].filter((one): one is string => one !== undefined && one !== text);
}
