// What a book's first statement calls it, for lists: the engine is not asked for a text that may be
// half-written. Goes through the text once, whatever it holds.

/** The first text in quotes of the statement that begins with `book`; "" where there is none. */
export function titleIn(text: string, most = 300): string {
  const begin = text.startsWith("book ") ? 0 : text.indexOf("\nbook ") + 1;
  if (begin === 0 && !text.startsWith("book ")) return "";
  for (let at = begin; at < text.length; at += 1) {
    const sign = text[at];
    // The statement goes on over lines that do not begin at the left edge.
    if (sign === "\n" && !/[ \t]/.test(text[at + 1] ?? "")) return "";
    if (sign === '"') return quoted(text, at + 1).slice(0, most);
  }
  return "";
}

/** From `at` to the next quotation mark that has no stroke before it; "" where none closes it. */
function quoted(text: string, at: number): string {
  for (let end = at; end < text.length; end += 1) {
    if (text[end] === "\\") end += 1;
    else if (text[end] === '"') return text.slice(at, end);
  }
  return "";
}
