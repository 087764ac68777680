// Reads the heads of `book` and `use` statements without the parser: a book's name and edition, and the books
// it depends on. Everything that asks what a text depends on asks here, also the pages, whose own scripts do
// without the parser. A test compares the answers with the parser's.
import { readNumber } from "./literals.ts";
import { splitBook } from "./split.ts";

/** A book as a text names it. */
export interface NamedBook {
  readonly name: string;
  /** Undefined where the text names no edition. */
  readonly edition: number | undefined;
}

/** What a book statement says before its clauses. */
export interface BookHead extends NamedBook {
  readonly amends?: NamedBook;
}

/** The book statement comes first; a text without one is not searched to its end. In characters. */
const LONGEST_SEARCH = 20_000;

/** The head of a text's book statement; undefined where it has none. */
export function headOf(text: string): BookHead | undefined {
  for (const piece of splitBook(text.slice(0, LONGEST_SEARCH))) {
    const head = readHead(piece.text);
    if (head?.word === "book")
      return { ...head.named, ...(head.amends === undefined ? {} : { amends: head.amends }) };
  }
  return undefined;
}

/**
 * The books that a text uses or amends, in the order in which it names them. A head counts even while the
 * rest of its statement cannot be read.
 */
export function dependenciesOf(text: string): readonly NamedBook[] {
  const found: NamedBook[] = [];
  let amends = false;
  for (const piece of splitBook(text)) {
    const head = readHead(piece.text);
    if (head?.word === "use") found.push(head.named);
    // A second book statement is a mistake; the first one that amends a book counts.
    if (head?.word !== "book" || head.amends === undefined || amends) continue;
    amends = true;
    found.push(head.amends);
  }
  return found;
}

interface Head {
  readonly word: "book" | "use";
  readonly named: NamedBook;
  readonly amends?: NamedBook;
}

const GAP = /(?:[ \t\r\n\u00a0\ufeff]|--[^\n]*)*/y;
const NAME = /\p{L}[\p{L}\p{M}\p{N}]*(?:-[\p{L}\p{M}\p{N}]+)*/uy;
const NUMBER = /\d+[ ]+\d+\/\d+|\d+\/\d+|\d+(?:\.\d+)?(?:[eE][-+]?\d+)?/y;
const COMMA = /,/y;

/** `book NAME[, edition N][, amends NAME[, edition N]]` or `use NAME[, edition N]`, as in the grammar. */
function readHead(statement: string): Head | undefined {
  const word = /^(?:book|use)(?=\s)/.exec(statement)?.[0] as Head["word"] | undefined;
  if (word === undefined) return undefined;
  let at = word.length;
  const take = (pattern: RegExp): string | undefined => {
    GAP.lastIndex = at;
    GAP.exec(statement);
    pattern.lastIndex = GAP.lastIndex;
    const found = pattern.exec(statement)?.[0];
    if (found !== undefined) at = pattern.lastIndex;
    return found;
  };
  /** `, edition N` or `, amends NAME`: what follows the word, or undefined with nothing taken. */
  const clause = (name: "edition" | "amends", value: RegExp): string | undefined => {
    const before = at;
    const found = take(COMMA) !== undefined && take(NAME) === name ? take(value) : undefined;
    if (found === undefined) at = before;
    return found;
  };
  const edition = (): number | undefined => {
    const number = clause("edition", NUMBER);
    return number === undefined ? undefined : readNumber(number);
  };
  const name = take(NAME);
  if (name === undefined) return undefined;
  const named = { name, edition: edition() };
  const amended = word === "book" ? clause("amends", NAME) : undefined;
  return { word, named, ...(amended === undefined ? {} : { amends: { name: amended, edition: edition() } }) };
}
