// How deep a rule may nest and how long a chain of operations may be. Counted on tokens, before the parser
// could recurse too deep.
import type { IToken } from "chevrotain";
import { spanOf } from "./token-places.ts";
import * as T from "./tokens.ts";
import type { Fault } from "./tree.ts";

/**
 * Brackets, `not` and `if` deeper than this, and rules of more operations in one chain, are refused: no hand
 * wrote them.
 */
export const DEEPEST = 200;
const LONGEST_RULE = 1000;

/**
 * The first place where a rule is nested or chained beyond reason. Read from tokens, so that no recursion
 * ever gets that deep.
 */
export function deepSpot(tokens: readonly IToken[]): Fault | undefined {
  let depth = 0;
  let nots = 0;
  for (const token of tokens) {
    if (token.tokenType === T.Open) depth++;
    else if (token.tokenType === T.Close) depth--;
    // `1 ^ 1 ^ 1` nests as `- - - 1` does: numbers between the signs do not end the chain.
    if (NESTING_SIGNS.has(token.tokenType)) nots++;
    else if (token.tokenType !== T.NumberToken) nots = 0;
    if (depth > DEEPEST || nots > DEEPEST)
      return { code: "budget/nesting", at: spanOf(token), facts: { most: DEEPEST } };
  }
  let operations = 0;
  for (const token of tokens) {
    if (CHAIN_ENDS.has(token.tokenType)) operations = 0;
    else if (CHAINS.has(token.tokenType) && ++operations > LONGEST_RULE)
      return { code: "budget/nesting", at: spanOf(token), facts: { most: LONGEST_RULE, chain: true } };
  }
  return undefined;
}

const NESTING_SIGNS = new Set([T.Not, T.Minus, T.Caret]);
const CHAINS = new Set([
  T.Plus,
  T.Minus,
  T.Star,
  T.Slash,
  T.Caret,
  T.Of,
  T.And,
  T.Or,
  T.RunOutAt,
  T.PairedAt,
  T.RoundedUp,
  T.RoundedDown,
  T.RoundedNear,
  T.If,
]);
const CHAIN_ENDS = new Set([T.Bar, T.Equals]);
