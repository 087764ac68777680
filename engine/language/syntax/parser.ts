// The one parser, and how it is fed: tokens in, what a rule of the grammar made or the first fault out. Texts
// met on the way are cut up and their inserts read once the statement around them is done.
import type { IRecognitionException, IToken } from "chevrotain";
import type { Span } from "../../../core/span.ts";
import { Grammar } from "./grammar.ts";
import type { Clause } from "./grammar-clauses.ts";
import { deepSpot } from "./nesting.ts";
import { cutText } from "./text.ts";
import { end, spanOf } from "./token-places.ts";
import * as T from "./tokens.ts";
import type { Body, Expr, Fault, Insert, UnitText, Word } from "./tree.ts";

export const grammar = new Grammar();

/** What was read of a statement, before its clauses are sorted. */
export interface Reading {
  readonly body: Body;
  readonly name?: Word;
  readonly clauses: readonly Clause[];
  readonly ruleAt?: Span;
  readonly faults: Fault[];
}

export type Parsed<R> = { readonly made: R } | { readonly fault: Fault };

/** Feeds the parser; gives what the rule made or the first fault. Texts met wait in `grammar.texts`. */
export function parseTokens<R>(source: string, tokens: IToken[], rule: () => R): Parsed<R> {
  grammar.source = source;
  grammar.input = tokens;
  const made = rule();
  const [error] = grammar.errors;
  return error === undefined ? { made } : { fault: faultOf(error, source) };
}

export function fillTexts(source: string, faults: Fault[]): void {
  const texts = grammar.texts;
  grammar.texts = [];
  for (const { image, offset, pieces } of texts) {
    for (const piece of cutText(image, offset)) {
      if (typeof piece === "string") {
        pieces.push(piece);
        continue;
      }
      const at = { start: piece.start, end: piece.end };
      if (!piece.closed) {
        faults.push({ code: "syntax/brace", at, facts: {} });
        continue;
      }
      const read = readInsert(source, piece.source, piece.offset);
      if ("fault" in read)
        faults.push({ code: "syntax/insert", at, facts: { text: piece.source, ...read.fault.facts } });
      else pieces.push({ at, ...read.made } satisfies Insert);
    }
  }
  grammar.texts = [];
}

function readInsert(source: string, inner: string, offset: number): Parsed<{ rule: Expr; unit?: UnitText }> {
  const { tokens, errors } = T.lex(inner);
  for (const token of tokens) token.startOffset += offset;
  const bad: Fault = { code: "syntax/insert", at: { start: offset, end: offset + inner.length }, facts: {} };
  if (errors.length > 0 || tokens.length === 0 || deepSpot(tokens) !== undefined) return { fault: bad };
  return parseTokens(source, tokens, () => grammar.insert());
}

function faultOf(error: IRecognitionException, source: string): Fault {
  const { token, context } = error;
  const previous = (error as { previousToken?: IToken }).previousToken;
  const atEnd = token.startOffset === undefined || Number.isNaN(token.startOffset);
  const rules = context?.ruleStack ?? [];
  const facts = {
    found: atEnd ? undefined : token.image,
    after: previous?.image,
    rules: rules.map((rule) => rule.replace(/_.*$/, "")),
    expected: expectedOf(error),
  };
  if (atEnd) {
    const from = previous && !Number.isNaN(previous.startOffset) ? end(previous) : source.trimEnd().length;
    return {
      code: "syntax/unfinished",
      at: { start: Math.max(0, from - (previous?.image.length || 1)), end: from },
      facts,
    };
  }
  if (token.tokenType === T.SlashUnit)
    return { code: "syntax/tight-slash", at: spanOf(token), facts: { text: token.image } };
  if (RESERVED.has(token.image) && /name/i.test(String(facts.expected)))
    return { code: "syntax/reserved", at: spanOf(token), facts: { word: token.image } };
  return { code: "syntax/unexpected", at: spanOf(token), facts };
}

/**
 * What the parser was about to read where it knows exactly one thing; else nothing, rather than a list of
 * everything.
 */
function expectedOf(error: IRecognitionException): string | undefined {
  return /^Expecting(?: token of type)? --> (.+?) <-- but found/.exec(error.message)?.[1];
}

const RESERVED = new Set(T.RESERVED);

/** Reads what a technician typed as an answer. Undefined where it cannot be read. */
export function parseAnswer(text: string): { readonly value: Expr; readonly tolerance?: Expr } | undefined {
  const { tokens, errors } = T.lex(text);
  if (errors.length > 0 || tokens.length === 0 || tokens.length > 24) return undefined;
  const read = parseTokens(text, tokens, () => grammar.answer());
  grammar.texts = [];
  return "fault" in read ? undefined : read.made;
}
