// Keys for lists of texts, of which two may be alike.

/** Each text behind its key: the text itself, with a number where it came before. */
export function withKeys(texts: readonly string[]): readonly (readonly [key: string, text: string])[] {
  const seen = new Map<string, number>();
  return texts.map((text) => {
    const before = seen.get(text) ?? 0;
    seen.set(text, before + 1);
    return [before === 0 ? text : `${text} ${before + 1}`, text];
  });
}
