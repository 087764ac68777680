// A book that depends on others, kept as one text with all of those, so that a job can be worked again years
// later with exactly the books that it was made with. A book that names no other is its own text alone.
import { MAX_BOOKS_UNDER } from "../../../core/limits.ts";
import { dependenciesOf } from "../syntax/dependencies.ts";

export interface BundledBook {
  readonly text: string;
  /** Texts of the books it depends on; undefined where they were not kept with it. */
  readonly under: readonly string[] | undefined;
}

/**
 * The one text that a book and the books it depends on are kept as. `under` undefined: they are not known, or
 * are named elsewhere.
 */
export const bundled = (text: string, under: readonly string[] | undefined): string =>
  under === undefined || dependenciesOf(text).length === 0
    ? text
    : JSON.stringify({ texts: [text, ...under] });

/**
 * The book and those it depends on, in what `bundled` gave; any other text is a book of its own. No book's
 * text begins with a bracket.
 */
export function unbundled(bundle: string): BundledBook {
  const alone: BundledBook = { text: bundle, under: undefined };
  if (!bundle.startsWith('{"texts":[')) return alone;
  try {
    const { texts } = JSON.parse(bundle) as { readonly texts: readonly unknown[] };
    const [text, ...under] = texts.filter((one) => typeof one === "string");
    return text !== undefined && under.length <= MAX_BOOKS_UNDER && bundled(text, under) === bundle
      ? { text, under }
      : alone;
  } catch {
    return alone;
  }
}
