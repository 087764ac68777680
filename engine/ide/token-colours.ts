// What each part of a book's text is, for colouring. It works on broken text too, since it looks only at
// words and their positions.
import type { Span } from "../../core/span.ts";
import { STATEMENT_WORDS } from "../language/syntax/statement-words.ts";
import { type Piece, splitBook } from "../language/syntax/split.ts";
import { cutText } from "../language/syntax/text.ts";
import * as T from "../language/syntax/tokens.ts";

export interface Mark {
  readonly at: Span;
  readonly as:
    | "word"
    | "name"
    | "set"
    | "number"
    | "unit"
    | "text"
    | "insert"
    | "comment"
    | "bar"
    | "kindword"
    | "operator";
}

const marksByText = new Map<string, readonly Mark[]>();

/** Marks in order, without overlap. */
export function tokenColours(text: string): readonly Mark[] {
  const marks: Mark[] = [];
  const add = (more: readonly Mark[], by: number) => {
    for (const { at, as } of more) marks.push({ at: { start: at.start + by, end: at.end + by }, as });
  };
  let done = 0;
  for (const piece of splitBook(text)) {
    add(comments(text.slice(done, piece.at.start)), done);
    add(marksOf(piece), piece.at.start);
    done = piece.at.end;
  }
  add(comments(text.slice(done)), done);
  return marks;
}

function marksOf(piece: Piece): readonly Mark[] {
  const known = marksByText.get(piece.text);
  if (known !== undefined) return known;
  const made = statementMarks(piece.text);
  if (marksByText.size > 20_000) marksByText.clear();
  marksByText.set(piece.text, made);
  return made;
}

const comments = (text: string): readonly Mark[] =>
  [...text.matchAll(/--[^\n]*/g)].map((match) => ({
    at: { start: match.index, end: match.index + match[0].length },
    as: "comment",
  }));

function statementMarks(text: string): readonly Mark[] {
  const { tokens } = T.lex(text);
  const marks: Mark[] = [];
  let last = 0;
  const opens = STATEMENT_WORDS.find((word) => word === tokens[0]?.image);
  // After instead and drop comes the word of a statement, and then its name.
  const by = opens === "instead" || opens === "drop" ? 1 : 0;
  const head = by === 0 ? opens : (STATEMENT_WORDS.find((word) => word === tokens[1]?.image) ?? opens);
  for (const [i, token] of tokens.entries()) {
    marks.push(...shifted(comments(text.slice(last, token.startOffset)), last));
    last = token.startOffset + token.image.length;
    const at = { start: token.startOffset, end: last };
    if (i === 0) marks.push({ at, as: head ? "word" : "name" });
    else if (i === by && by > 0) marks.push({ at, as: head === opens ? "name" : "word" });
    else if (i === 2 && head === "chart" && token.image === "add" && tokens[3]?.tokenType !== T.By)
      marks.push({ at, as: "word" });
    else if (
      i === 1 + by &&
      head !== undefined &&
      head !== "promise" &&
      head !== "picture" &&
      token.tokenType === T.Name
    )
      marks.push({ at, as: "set" });
    else if (token.tokenType === T.TextToken || token.tokenType === T.OpenText)
      marks.push(...textMarks(token));
    else marks.push({ at, as: sortOf(token, tokens, i, head) });
  }
  marks.push(...shifted(comments(text.slice(last)), last));
  return marks;
}

const shifted = (marks: readonly Mark[], by: number): Mark[] =>
  marks.map(({ at, as }) => ({ at: { start: at.start + by, end: at.end + by }, as }));

function textMarks(token: T.IToken): Mark[] {
  const marks: Mark[] = [];
  let from = token.startOffset;
  const end = token.startOffset + token.image.length;
  for (const piece of cutText(token.image, token.startOffset)) {
    if (typeof piece === "string") continue;
    if (piece.start > from) marks.push({ at: { start: from, end: piece.start }, as: "text" });
    marks.push({ at: { start: piece.start, end: Math.min(piece.end, end) }, as: "insert" });
    from = Math.min(piece.end, end);
  }
  if (from < end) marks.push({ at: { start: from, end }, as: "text" });
  return marks;
}

const NUMBERS = new Set([T.NumberToken, T.Fraction, T.Mixed, T.Ratio]);
const OPERATORS = new Set([
  T.Plus,
  T.Minus,
  T.Star,
  T.Slash,
  T.Caret,
  T.Less,
  T.More,
  T.AtMost,
  T.AtLeast,
  T.Equals,
  T.Open,
  T.Close,
  T.Comma,
  T.Dot,
  T.PlusMinus,
]);
const UNITS = new Set([T.Percent, T.DegreeUnit, T.PowerUnit, T.SlashUnit]);

function sortOf(
  token: T.IToken,
  tokens: readonly T.IToken[],
  i: number,
  head: string | undefined,
): Mark["as"] {
  const type = token.tokenType;
  if (NUMBERS.has(type)) return "number";
  if (UNITS.has(type)) return "unit";
  if (type === T.Bar) return "bar";
  if (OPERATORS.has(type)) return "operator";
  if (type !== T.Name && !(type.CATEGORIES ?? []).includes(T.Name)) return "word";
  const previous = tokens[i - 1]?.tokenType;
  if (
    type === T.Before &&
    previous !== undefined &&
    (previous === T.Name || (previous.CATEGORIES ?? []).includes(T.Name)) &&
    head === "list"
  )
    return "word";
  if (previous !== undefined && (NUMBERS.has(previous) || previous === T.In || previous === T.CountedIn))
    return "unit";
  if (previous === T.Of && (head === "ask" || head === "dial" || head === "chart" || head === "figure"))
    return "kindword";
  if (head === "kind") return "kindword";
  return "name";
}
