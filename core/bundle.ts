// A book that stands on others, kept as one text with all that it stood on, so that a job can be worked again
// years later on exactly the ground that it was made on. A book that names no other is its own text alone.

/** Whether a text uses or amends another book, seen without reading it. */
export const namesOthers = (text: string): boolean => /^(?:use\s|book\s[^\n]*\bamends\b)/m.test(text);

export interface Parted {
  readonly text: string;
  /** Texts that it stood on; undefined where that was not kept with it. */
  readonly under: readonly string[] | undefined;
}

/** Texts underneath that a bundle may hold: as many as a book may bring in. */
export const mostUnder = 100;

/**
 * The one text that a book and its ground are kept as. `under` undefined: the ground is not known, or is
 * named elsewhere.
 */
export const bundled = (text: string, under: readonly string[] | undefined): string =>
  under === undefined || !namesOthers(text) ? text : JSON.stringify({ texts: [text, ...under] });

/**
 * The book and its ground in what `bundled` gave; any other text is a book of its own. No book's text begins
 * with a bracket.
 */
export function parted(bundle: string): Parted {
  const alone: Parted = { text: bundle, under: undefined };
  if (!bundle.startsWith('{"texts":[')) return alone;
  try {
    const { texts } = JSON.parse(bundle) as { readonly texts: readonly unknown[] };
    const [text, ...under] = texts.filter((one) => typeof one === "string");
    return text !== undefined && under.length <= mostUnder && bundled(text, under) === bundle
      ? { text, under }
      : alone;
  } catch {
    return alone;
  }
}
