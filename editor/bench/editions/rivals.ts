// The texts that the book on the bench can be held against: as it was last accepted, the other books kept in this browser, and those that come with the program.
import type { Bench } from "../store/bench.ts";
import { shippedBook, shippedBooks } from "../store/shipped.ts";

export interface Rival {
  readonly key: string;
  /** "as last accepted", "road-panels, as it comes with the program". */
  readonly says: string;
  /** Undefined where it cannot be fetched. */
  readonly text: () => Promise<string | undefined>;
}

export function rivalsOf(bench: Bench): readonly Rival[] {
  const { desk, books, key, snapshot } = bench.state();
  const own = snapshot?.name ?? key;
  const shipped = [...shippedBooks].sort((a, b) => Number(b === own) - Number(a === own));
  return [
    { key: "accepted", says: "the same book as last accepted", text: async () => desk.accepted },
    ...shipped.map((name): Rival => ({ key: `shipped ${name}`, says: `${name}, as it comes with the program`, text: () => shippedBook(name) })),
    ...books.filter((book) => book.key !== key).map((book): Rival => ({ key: `kept ${book.key}`, says: `${book.key}, kept in this browser`, text: () => bench.textOf(book.key) })),
  ];
}
