// Which of the books given is meant by a name and an edition.
import { headOf } from "../syntax/dependencies.ts";

export interface Found {
  readonly text: string;
  readonly name: string;
  readonly edition: number | undefined;
  /** Set where the edition that was asked for cannot be found: whether the one taken is later or earlier. */
  readonly moved?: "later" | "earlier";
}

/**
 * The edition asked for, else the nearest later, else the nearest earlier; with no edition asked for, the
 * latest. Of two texts of one edition the first of `bookTexts`.
 */
export function findBook(
  bookTexts: readonly string[],
  name: string,
  edition: number | undefined,
): Found | undefined {
  const all = bookTexts.flatMap((text) => {
    const head = headOf(text);
    return head?.name === name ? [{ text, ...head }] : [];
  });
  const number = (one: Found) => one.edition ?? 0;
  const byEdition = [...all].sort((a, b) => number(a) - number(b));
  const latest = byEdition.find((one) => number(one) === number(byEdition.at(-1)!));
  if (edition === undefined) return latest;
  const exact = byEdition.find((one) => one.edition === edition);
  if (exact !== undefined) return exact;
  const later = byEdition.find((one) => number(one) > edition);
  if (later !== undefined) return { ...later, moved: "later" };
  return latest && { ...latest, moved: "earlier" };
}
