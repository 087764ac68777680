// The name at a position in the text: what it is, where it is defined, all its occurrences, and renaming it.
import type { Span, TextEdit } from "../../core/span.ts";
import type { Book } from "../api/book.ts";
import { internalsOf } from "../api/book.ts";
import { isFunction } from "../language/check/call.ts";
import type { Entry } from "../language/check/book.ts";
import { parseStatement } from "../language/syntax/parse.ts";
import { placed, splitBook } from "../language/syntax/split.ts";
import { cutText } from "../language/syntax/text.ts";
import * as T from "../language/syntax/tokens.ts";

const NAME = /^[\p{L}][\p{L}\p{M}\p{N}]*(?:-[\p{L}\p{M}\p{N}]+)*$/u;

/** The name at this offset, where it is defined, and all its occurrences; undefined where there is none. */
export function occurrencesAt(
  book: Book,
  offset: number,
): { readonly name: string; readonly set: Span; readonly all: readonly Span[] } | undefined {
  const word = wordAt(book.text, offset);
  if (word === undefined) return undefined;
  const { checked } = internalsOf(book);
  const name = book.text.slice(word.start, word.end);
  const own = ownEntries(book);
  const within = own.find((entry) => entry.piece.at.start <= word.start && word.end <= entry.piece.at.end);
  if (within === undefined || !namesOf(within).some((at) => at.start === word.start)) return undefined;
  const key = ["", "kind ", "step ", "caution ", "stop ", "worked "]
    .map((prefix) => prefix + name)
    .find((one) => checked.byName.has(one));
  const kindEntry =
    key === undefined
      ? checked.entries.find(
          (entry) =>
            entry.statement.body.keyword === "kind" &&
            entry.statement.body.words.some((one) => one.word === name),
        )
      : undefined;
  const setEntry = key === undefined ? kindEntry : checked.entries[checked.byName.get(key)!];
  if (setEntry === undefined) return undefined;
  const local =
    setEntry.statement.body.keyword === "kind" && key === undefined
      ? setEntry.statement.body.words.find((one) => one.word === name)!.at
      : setEntry.statement.name!.at;
  const definedAt = placed(setEntry.piece, local);
  // A name of a book underneath is defined, for this text, by the line that brings that book in.
  const set = definedAt.end <= book.text.length ? definedAt : (bringsIn(own) ?? word);
  const all = own.flatMap((entry) =>
    hides(entry, name) ? [] : namesOf(entry).filter((at) => book.text.slice(at.start, at.end) === name),
  );
  return { name, set, all };
}

type Written = Pick<Entry, "piece" | "statement">;

/** The statements of the book's own text, as they are written there. */
function ownEntries(book: Book): readonly Written[] {
  const { checked } = internalsOf(book);
  return checked.composition === undefined
    ? checked.entries
    : splitBook(book.text).map((piece) => ({ piece, statement: parseStatement(piece.text) }));
}

function bringsIn(own: readonly Written[]): Span | undefined {
  for (const { piece, statement } of own) {
    if (statement.body.keyword === "book" && statement.body.amends !== undefined)
      return placed(piece, statement.body.amends.name.at);
  }
  const use = own.find(({ statement }) => statement.body.keyword === "use");
  return use?.statement.name && placed(use.piece, use.statement.name.at);
}

/** The book underneath that defines the name, unless it is replaced here. */
function setUnder(book: Book, name: string): string | undefined {
  const { checked } = internalsOf(book);
  for (const prefix of ["", "kind ", "step ", "caution ", "stop ", "worked "]) {
    const from = checked.entries[checked.byName.get(prefix + name) ?? -1]?.from;
    if (from !== undefined)
      return from.own && from.was === undefined ? undefined : (from.was?.layer ?? from.layer);
  }
  return undefined;
}

/** Edits that give the name at this offset another name everywhere, or a sentence why not. */
export function rename(
  book: Book,
  offset: number,
  to: string,
): { readonly edits: readonly TextEdit[] } | { readonly refused: string } {
  const found = occurrencesAt(book, offset);
  if (found === undefined) return { refused: "There is no name of the book at this place." };
  if (!NAME.test(to))
    return { refused: `“${to}” is no name: letters, digits and single hyphens, beginning with a letter.` };
  if (T.RESERVED.includes(to)) return { refused: `“${to}” is a word of the language and cannot be a name.` };
  if (isFunction(to) || to === "pi" || to === "stopped")
    return { refused: `${to} is a name of the language itself.` };
  if (to === found.name) return { edits: [] };
  const under = setUnder(book, found.name);
  if (under !== undefined) return { refused: `${found.name} is named in ${under}: it keeps that name here.` };
  const { checked } = internalsOf(book);
  const taken =
    checked.byName.has(to) ||
    checked.kinds.has(to) ||
    [...checked.kinds.values()].some((kind) => kind.words.includes(to)) ||
    checked.entries.some((entry) => hides(entry, to) && entry.statement.uses.includes(found.name));
  if (taken) return { refused: `${to} is already a name in this book.` };
  return { edits: found.all.map((at) => ({ at, text: to })) };
}

/** What is at this offset, for a hover. */
export function about(
  book: Book,
  offset: number,
): { readonly at: Span; readonly name: string; readonly lines: readonly string[] } | undefined {
  const word = wordAt(book.text, offset);
  const found = occurrencesAt(book, offset);
  if (word === undefined || found === undefined) return undefined;
  const row = book.rows.find(
    (one) =>
      one.name === found.name &&
      (one.nameAt?.start === found.set.start || (book.under.length > 0 && !one.own)),
  );
  if (row === undefined) {
    const kind = book.kinds.find((one) => one.words.some(({ word: w }) => w === found.name));
    const means = kind?.words.find(({ word: w }) => w === found.name)?.means;
    return (
      kind && {
        at: word,
        name: found.name,
        lines: [`${found.name}: a word of ${kind.name}`, ...(means ? [means] : [])],
      }
    );
  }
  return {
    at: word,
    name: found.name,
    lines: [
      `${row.keyword} ${row.name}${row.type ? `: ${row.type}` : ""}${row.own ? "" : ` (in ${row.layer})`}`,
      ...(row.title ? [row.title] : []),
      ...(row.rule ? [row.rule] : []),
      ...(row.was && row.was.rule !== "" ? [`underneath, in ${row.was.layer}: ${row.was.rule}`] : []),
      ...(row.because ? [`because ${row.because}`] : []),
      ...(row.basis ? [`from ${row.basis}`] : []),
      ...(row.usedBy.length > 0
        ? [
            `used by ${row.usedBy.slice(0, 6).join(", ")}` +
              (row.usedBy.length > 6 ? ` and ${row.usedBy.length - 6} more` : ""),
          ]
        : []),
    ],
  };
}

function wordAt(text: string, offset: number): Span | undefined {
  const inName = (i: number) => i >= 0 && i < text.length && /[\p{L}\p{M}\p{N}-]/u.test(text[i]!);
  let [start, end] = [offset, offset];
  while (inName(start - 1)) start--;
  while (inName(end)) end++;
  const word = text.slice(start, end);
  return NAME.test(word) ? { start, end } : undefined;
}

/** Absolute positions of all names in a statement, those in texts' inserts too. */
function namesOf(entry: Written): readonly Span[] {
  const { text, at } = entry.piece;
  const found: Span[] = [];
  const { tokens } = T.lex(text);
  for (const [i, token] of tokens.entries()) {
    if (i === 0) continue;
    if (token.tokenType === T.TextToken) {
      for (const piece of cutText(token.image, token.startOffset)) {
        if (typeof piece === "string") continue;
        for (const inner of T.lex(piece.source).tokens)
          if (isName(inner.tokenType))
            found.push({
              start: at.start + piece.offset + inner.startOffset,
              end: at.start + piece.offset + inner.startOffset + inner.image.length,
            });
      }
    } else if (isName(token.tokenType)) {
      found.push({
        start: at.start + token.startOffset,
        end: at.start + token.startOffset + token.image.length,
      });
    }
  }
  return found;
}

const isName = (type: (typeof T)["Name"]): boolean =>
  type === T.Name || (type.CATEGORIES ?? []).includes(T.Name);

/** Whether the statement has a parameter, counter or column of its own by that name. */
function hides({ statement }: Written, name: string): boolean {
  const { body } = statement;
  if (body.keyword === "formula") return body.parameters.some((one) => one.name.text === name);
  if (body.keyword === "chart")
    return body.conditions.some((one) => one.declared !== undefined && one.text === name);
  if (body.keyword === "list")
    return body.counter.text === name || body.columns.some((one) => one.name.text === name);
  return false;
}
