// A stretch of text: from the first character to just before `end`, counted in
// UTF-16 units, as JavaScript strings are.
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** One change to a text: the stretch `at` gives way to `text`. */
export interface TextEdit {
  readonly at: Span;
  readonly text: string;
}

/**
 * Applies edits that do not overlap; they may come in any order and are given in the offsets of the old text.
 */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  const ordered = [...edits].sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end);
  let out = "";
  let done = 0;
  for (const edit of ordered) {
    out += text.slice(done, edit.at.start) + edit.text;
    done = edit.at.end;
  }
  return out + text.slice(done);
}
