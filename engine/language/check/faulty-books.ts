// Errors of the books underneath, named at the line of the own text that brings the book in. What the own
// text replaces or drops is no error any more; everything else makes the whole faulty.
import type { Finding } from "../../../core/view.ts";
import type { Span } from "../../../core/span.ts";
import type { Composition } from "../layers/compose.ts";
import type { Item } from "../layers/item.ts";
import type { CheckedBook, Entry } from "./book.ts";
import { toFinding } from "./findings/index.ts";

/** A book underneath, and its findings at places in its own whole text. */
export interface KnownBook {
  readonly start: number;
  readonly of: Composition;
  readonly raw: readonly Finding[];
}

export interface FaultyBook {
  readonly entry: Entry;
  readonly finding: Finding;
}

const FAULTY = "use/faulty";
const MOST_NAMED = 4;

/** These are handed on to each book above by themselves. */
const HANDED_ON: ReadonlySet<string> = new Set(["use/missing", "use/circle", "use/deep"]);

export function faultyBooks(checked: CheckedBook, known: readonly KnownBook[]): readonly FaultyBook[] {
  return known.flatMap((book): FaultyBook[] => {
    const line = lineThatNames(checked, book.of.name);
    if (line === undefined) return [];
    const left = errorsOf(book).filter((error) => isLeft(checked, book, line.amends, error.at));
    return left.length === 0 ? [] : [{ entry: line.entry, finding: named(checked, line, left) }];
  });
}

interface BookError {
  readonly at: Span;
  readonly says: string;
}

/**
 * The book's errors, each once, at places in the whole. What it says of books underneath it is taken apart.
 */
function errorsOf({ raw, start }: KnownBook): readonly BookError[] {
  const errors = new Map<string, BookError>();
  for (const finding of raw) {
    if (finding.weight !== "error" || HANDED_ON.has(finding.code)) continue;
    for (const { at, says } of finding.code === FAULTY ? finding.also : [finding]) {
      const moved = { start: at.start + start, end: at.end + start };
      errors.set(`${moved.start} ${moved.end} ${says}`, { at: moved, says });
    }
  }
  return [...errors.values()];
}

interface NamingLine {
  readonly entry: Entry;
  readonly at: Span;
  readonly amends: boolean;
}

/** The own line that amends or uses the book. */
function lineThatNames(checked: CheckedBook, name: string): NamingLine | undefined {
  for (const entry of checked.entries) {
    const { body, name: own } = entry.statement;
    if (entry.from?.own !== true) continue;
    if (body.keyword === "book" && body.amends?.name.text === name)
      return { entry, at: body.amends.name.at, amends: true };
    if (body.keyword === "use" && own?.text === name) return { entry, at: own.at, amends: false };
  }
  return undefined;
}

/**
 * Whether the place belongs to a statement that still counts. Of a book that is amended, lines such as `drop`
 * have had their effect, and so have their errors; a used book gives its values only.
 */
function isLeft(checked: CheckedBook, { of, start }: KnownBook, amends: boolean, at: Span): boolean {
  if (checked.entries.some((entry) => entry.from?.own === false && covers(entry, at, 0))) return true;
  return amends && !of.items.some((item) => !isSpent(item) && covers(item, at, start));
}

const covers = ({ piece }: Pick<Item, "piece">, at: Span, by: number): boolean => {
  const [from, to] = [piece.at.start + by, piece.at.end + by];
  if (at.start >= from && at.start < to) return true;
  return (piece.lines ?? []).some((line, i, lines) => {
    const length = (lines[i + 1]?.from ?? piece.text.length) - line.from;
    return at.start >= line.at + by && at.start < line.at + by + length;
  });
};

const isSpent = ({ statement: { body } }: Item): boolean =>
  body.keyword === "book" || body.keyword === "use" || body.keyword === "drop" || body.keyword === "add";

function named(checked: CheckedBook, line: NamingLine, errors: readonly BookError[]): Finding {
  const [{ at, says }] = errors as readonly [BookError];
  const under = checked.composition?.under.findLast((one) => one.start <= at.start);
  const facts = {
    name: under?.name,
    edition: under?.edition,
    count: errors.length,
    says,
    also: errors.slice(0, MOST_NAMED).map((one) => ({ absolute: one.at, says: one.says })),
  };
  return toFinding({ code: FAULTY, at: line.at, facts }, line.entry.piece);
}
