// Reads a small book and draws its findings under the words they point at, as comments of the language.
// This is the one place where the tests of the language know how findings are asked for.
import type { Finding } from "../../core/view.ts";
import { readBook } from "../../engine/index.ts";

/**
 * The book with its findings drawn in:
 *
 *     figure width = 3 mm + 2 kg
 *     --             ^^^^^^^^^^^ unit/mismatch
 *
 * Marks that are already drawn are taken out first, so that a book drawn rightly comes back as it was. Where
 * a drawn mark goes on with a colon, the finding's sentence is drawn as well.
 */
export function annotate(drawn: string, shelf: readonly string[] = []): string {
  const text = withoutMarks(drawn);
  const wordy = new Set([...drawn.matchAll(/^--[ ^]*\^ ([a-z-]+\/[a-z-]+):/gm)].map((match) => match[1]!));
  const byLine = new Map<number, Finding[]>();
  for (const finding of readBook(text, undefined, shelf).findings) {
    const line = lineAt(text, finding.at.start);
    byLine.set(line, [...(byLine.get(line) ?? []), finding]);
  }
  let from = 0;
  return text
    .split("\n")
    .flatMap((line, number) => {
      const start = from;
      from += line.length + 1;
      const found = (byLine.get(number) ?? []).sort(
        (a, b) => a.at.start - b.at.start || a.at.end - b.at.end || (a.code < b.code ? -1 : 1),
      );
      return [line, ...found.map((finding) => mark(finding, start, line.length, wordy.has(finding.code)))];
    })
    .join("\n");
}

export const withoutMarks = (drawn: string): string =>
  drawn
    .split("\n")
    .filter((line) => !/^--[ ^]*\^ [a-z-]+\/[a-z-]+/.test(line))
    .join("\n");

/** A mark that would stand under the comment's own sign begins behind it. */
function mark({ at, code, says }: Finding, start: number, length: number, wordy: boolean): string {
  const from = Math.max(2, at.start - start);
  const to = Math.max(from + 1, Math.min(at.end - start, length));
  return `--${" ".repeat(from - 2)}${"^".repeat(to - from)} ${code}${wordy ? `: ${says}` : ""}`;
}

const lineAt = (text: string, offset: number): number => text.slice(0, offset).split("\n").length - 1;
