// Which marks a text may hold wherever it crosses a border: what a keyboard makes. One database would cut a
// text at other marks, another refuse it, and a reader see something else than what is stored.

/** Control marks other than tab and line ends, and halves of pairs that stand alone. */
const unfit = /(?![\t\n\r])\p{Cc}|\p{Surrogate}/u;

export const isPlainText = (text: string): boolean => !unfit.test(text);

/** The path to the first text in a value that is not plain; undefined where all are. Names count as well. */
export function unplainIn(value: unknown, path: readonly string[] = []): readonly string[] | undefined {
  if (typeof value === "string") return isPlainText(value) ? undefined : path;
  if (typeof value !== "object" || value === null) return undefined;
  for (const [name, one] of Object.entries(value)) {
    if (!isPlainText(name)) return path;
    const found = unplainIn(one, [...path, name]);
    if (found !== undefined) return found;
  }
  return undefined;
}
