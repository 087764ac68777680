// Of everything that breaks a law, the shortest: what a person has to read when a law fails.

/**
 * Runs a law over many texts and gives the shortest text that breaks it, with what it says; undefined where
 * none does.
 */
export function smallestBreak(
  texts: Iterable<string>,
  law: (text: string) => string | undefined,
): string | undefined {
  let least: { readonly text: string; readonly says: string } | undefined;
  for (const text of texts) {
    if (least !== undefined && text.length >= least.text.length) continue;
    const says = law(text);
    if (says !== undefined) least = { text, says };
  }
  return least && `${least.says}\n--- in ---\n${least.text}`;
}

/** The same, and then lines are taken out of the text for as long as it still breaks the law. */
export function shrunkBreak(
  texts: Iterable<string>,
  law: (text: string) => string | undefined,
): string | undefined {
  for (const text of texts) {
    if (law(text) === undefined) continue;
    let lines = text.split("\n");
    for (let i = 0; i < lines.length; ) {
      const fewer = [...lines.slice(0, i), ...lines.slice(i + 1)];
      if (law(fewer.join("\n")) !== undefined) {
        lines = fewer;
        i = 0;
      } else i++;
    }
    const small = lines.join("\n");
    return `${law(small)}\n--- in ---\n${small}`;
  }
  return undefined;
}
