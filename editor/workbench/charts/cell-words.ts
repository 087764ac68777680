// The words offered while a cell of a chart is written. Pure.

/** The word being typed, and what is written before it; only conditions take several, with commas. */
export function lastWord(
  text: string,
  several: boolean,
): { readonly before: string; readonly typed: string } {
  const comma = several ? text.lastIndexOf(",") : -1;
  return comma < 0
    ? { before: "", typed: text.trim() }
    : { before: `${text.slice(0, comma)}, `, typed: text.slice(comma + 1).trim() };
}

/**
 * Words that contain what is typed, those that begin with it first; words already in the cell are left out.
 */
export function wordsThatFit(words: readonly string[], typed: string, before: string): readonly string[] {
  const there = new Set(before.split(",").map((word) => word.trim()));
  const sought = typed.toLowerCase();
  const fit = words.filter((word) => !there.has(word) && word.toLowerCase().includes(sought));
  const begins = (word: string): boolean => word.toLowerCase().startsWith(sought);
  return [...fit.filter(begins), ...fit.filter((word) => !begins(word))];
}

/** The cell after a word is taken: it joins those before it; `any` is the only word. */
export const withWord = (word: string, before: string): string =>
  word === "any" ? word : `${before}${word}`;
