// In the technician's worker, fetched for a book that names others: which of the available texts it depends
// on.
import { readBook } from "../../../engine/index.ts";
import type { JobPageCalls } from "./messages.ts";

/**
 * With these alone it is the same book: which text a name means is decided among the texts of that name by
 * edition, and where two have the same edition by their order, which is kept.
 */
export const dependencies: JobPageCalls["ground"] = (text, available) => {
  const found = new Map(
    readBook(text, undefined, available).under.map((one) => [
      one.text,
      { name: one.name, edition: one.edition ?? -1, place: available.indexOf(one.text) },
    ]),
  );
  return [...found]
    .sort(([, a], [, b]) =>
      a.name < b.name ? -1 : a.name > b.name ? 1 : a.edition - b.edition || a.place - b.place,
    )
    .map(([one]) => one);
};
