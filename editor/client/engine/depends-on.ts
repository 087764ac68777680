// In the technician's worker, fetched for a book that names others: which of the texts at hand it stands on.
import { readBook } from "../../../engine/index.ts";
import type { JobPageCalls } from "./messages.ts";

/**
 * Read upon these alone it is the same book: which text is meant by a name is decided among those of that
 * name by edition, and where two have the same one by the order at hand, which is kept.
 */
export const dependencies: JobPageCalls["ground"] = (text, atHand) => {
  const found = new Map(
    readBook(text, undefined, atHand).under.map((one) => [
      one.text,
      { name: one.name, edition: one.edition ?? -1, place: atHand.indexOf(one.text) },
    ]),
  );
  return [...found]
    .sort(([, a], [, b]) =>
      a.name < b.name ? -1 : a.name > b.name ? 1 : a.edition - b.edition || a.place - b.place,
    )
    .map(([one]) => one);
};
