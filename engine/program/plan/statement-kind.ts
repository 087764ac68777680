// Which kind of statement it counts as, and whether it owns its name.
import type { CheckedBook, Entry } from "../../language/check/book.ts";
import { STATEMENT_WORDS } from "../../language/syntax/statement-words.ts";

/**
 * The kind of a statement, guessed where it cannot be read. A line with a text that begins with no word of
 * the language may have been written as a stop, and counts as one.
 */
export function statementKind({ statement: { body, text }, from }: Entry): string {
  // A book whose base is not available may lack a stop: nothing is released.
  if (from?.withholds !== undefined) return "stop";
  if (body.keyword !== "unreadable") return body.keyword;
  return !STATEMENT_WORDS.some((word) => word === body.meant) && text.includes('"') ? "stop" : body.meant;
}

/** A second statement of one name is checked but owns no register. */
export function ownsName(checked: CheckedBook, i: number): boolean {
  const { statement } = checked.entries[i]!;
  if (statement.name === undefined) return true;
  return (
    checked.byName.get(statement.name.text) === i ||
    checked.byName.get(`${statement.body.keyword} ${statement.name.text}`) === i
  );
}
