// Composes a text with the books that it depends on, and shows what came out of it in short lines.
import { type Composition, composeBook } from "../../engine/language/layers/compose.ts";
import type { Item } from "../../engine/language/layers/item.ts";
import { parseStatement } from "../../engine/language/syntax/parse.ts";
import { splitBook } from "../../engine/language/syntax/split.ts";
import type { Statement } from "../../engine/language/syntax/tree.ts";

export function compose(text: string, ...books: readonly string[]): Composition {
  const pieces = splitBook(text);
  const statements = pieces.map((piece) => parseStatement(piece.text));
  return composeBook(text, pieces, statements, books);
}

/** The tree of one statement. */
export const parse = (text: string): Statement => parseStatement(text);

const wordOf = ({ body }: Statement): string => (body.keyword === "unreadable" ? body.meant : body.keyword);

/** `figure wide@house of house, hidden as wide`. */
export function short({ statement, from }: Item): string {
  const name = statement.name === undefined ? "" : ` ${statement.name.text}`;
  const more = [
    ...(from.hidden === undefined ? [] : [`hidden as ${from.hidden}`]),
    ...(from.beneath === undefined ? [] : [`beneath ${from.beneath}`]),
    ...(from.was === undefined ? [] : [`over ${from.was.layer}`]),
  ];
  return [`${wordOf(statement)}${name} of ${from.layer}`, ...more].join(", ");
}

/** Each finding of the composing with the statement that it is at. */
export const faultsOf = ({ items }: Composition): readonly string[] =>
  items.flatMap((item) => item.faults.map((fault) => `${fault.code} at ${short(item)}`));
