// Where statements and parts begin, seen only from the left edge of the lines: enough
// for choosing what to colour and what to fold, without reading the language.

/** Whether a line begins a statement: a character other than a blank or a comment stands at its left edge. */
const beginsStatement = (line: string): boolean =>
  line !== "" && !/^[\s]/.test(line) && !line.startsWith("--");

/** How far a search for the beginning of a statement goes before it gives up, in lines. */
const FURTHEST = 2000;

/** The lines (from 1, both included) that hold `from` to `to` and only whole statements. */
export function wholeStatements(
  lineAt: (line: number) => string,
  count: number,
  from: number,
  to: number,
): { from: number; to: number } {
  let first = Math.max(1, Math.min(from, count));
  const stop = Math.max(1, first - FURTHEST);
  while (first > stop && !beginsStatement(lineAt(first))) first -= 1;
  let last = Math.max(first, Math.min(to, count));
  const end = Math.min(count, last + FURTHEST);
  while (last < end && !beginsStatement(lineAt(last + 1))) last += 1;
  return { from: first, to: last };
}

/** Each part as lines from its heading to the last line before the next part that is not blank. */
export function partFolds(lineAt: (line: number) => string, count: number): { start: number; end: number }[] {
  const folds: { start: number; end: number }[] = [];
  let start = 0;
  let written = 0;
  const close = () => {
    if (start > 0 && written > start) folds.push({ start, end: written });
  };
  for (let line = 1; line <= count; line += 1) {
    const text = lineAt(line);
    if (/^part\b/.test(text)) {
      close();
      start = line;
    }
    if (text.trim() !== "") written = line;
  }
  close();
  return folds;
}
