// From the text of one statement to its tree. The tree of a statement depends on its text alone, so trees are
// kept by text: an edit parses one statement and finds all the others here.
import { type IToken, createTokenInstance } from "chevrotain";
import { broken, finish } from "./finish.ts";
import { DEEPEST, deepSpot } from "./nesting.ts";
import type { Reading } from "./parser.ts";
import { readStatement } from "./read-statement.ts";
import { REPLACED, STATEMENT_WORDS, type StatementWord } from "./statement-words.ts";
import { spanOf } from "./token-places.ts";
import * as T from "./tokens.ts";
import type { Fault, Statement } from "./tree.ts";

// Two generations of trees by their texts: those of the latest books, and those before them. A tree that is
// met again moves to the young; the old go all at once, which keeps a day of typing from piling up.
let young = new Map<string, Statement>();
let old = new Map<string, Statement>();

/**
 * To be called before a book of so many statements is read: makes sure that a whole book and its edits are
 * kept, and no more than that.
 */
export function makeRoom(statements: number): void {
  if (young.size <= 2 * statements + 2000) return;
  old = young;
  young = new Map();
}

/** Reads one statement; never throws. Mistakes are in its `faults`, and what could be read is in the rest. */
export function parseStatement(text: string): Statement {
  const known = young.get(text);
  if (known !== undefined) return known;
  const made = old.get(text) ?? parseText(text);
  young.set(text, made);
  return made;
}

function parseText(text: string): Statement {
  const faults: Fault[] = [];
  const head = /^\S+/.exec(text)?.[0] ?? "";
  const second = head === "instead" ? (/^\S+[ \t]+(\S+)/.exec(text)?.[1] ?? "") : "";
  const word =
    head === "instead"
      ? REPLACED.find((one) => one === second)
      : STATEMENT_WORDS.find((one): one is StatementWord => one === head && one !== "instead");
  if (word === undefined && head === "instead")
    return broken("instead", text, [
      {
        code: "layer/what",
        at: { start: 0, end: text.search(/\n|$/) },
        facts: { verb: "instead", words: REPLACED },
      },
    ]);
  if (word === undefined) {
    const fault: Fault = /^\s/.test(text)
      ? { code: "syntax/stray", at: { start: 0, end: text.search(/\n|$/) }, facts: {} }
      : {
          code: "syntax/statement",
          at: { start: 0, end: head.length },
          facts: { word: head, words: STATEMENT_WORDS },
        };
    return broken(head, text, [fault]);
  }

  const { tokens, errors } = T.lex(text);
  const instead = head === "instead" ? spanOf(tokens.shift()!) : undefined;
  tokens.shift();
  // A promise begins with its rule and has no name: `promise last of rungs.grain <= 1 mm`.
  if (word !== "promise" && tokens[0] !== undefined) tokens.splice(0, 1, ...nameBeforeOf(tokens[0]));
  const open = tokens.find((token) => token.tokenType === T.OpenText);
  if (open !== undefined) faults.push({ code: "syntax/quote", at: spanOf(open), facts: {} });
  for (const error of errors.slice(0, 3)) {
    faults.push({
      code: "syntax/character",
      at: { start: error.offset, end: error.offset + error.length },
      facts: { text: text.slice(error.offset, error.offset + error.length) },
    });
  }
  const tooDeep = deepSpot(tokens);
  if (tooDeep !== undefined) faults.push(tooDeep);
  const meant = word === "refer" ? "stop" : word;
  if (faults.length > 0) return broken(meant, text, faults, instead);

  const reading = readSafely(word, text, tokens);
  if ("fault" in reading) return broken(meant, text, [reading.fault], instead);
  return finish(text, reading, instead);
}

/**
 * A statement may be called `first` or `one`, although `ask first of side` has the words `first of` in it.
 */
function nameBeforeOf(token: IToken): readonly IToken[] {
  const phrase = /^(one|sum|largest|smallest|count|first|last)(\s+)of$/.exec(token.image);
  if (phrase === null) return [token];
  const name = createTokenInstance(T.Name, phrase[1]!, token.startOffset, NaN, NaN, NaN, NaN, NaN);
  return [
    name,
    createTokenInstance(T.Of, "of", token.startOffset + token.image.length - 2, NaN, NaN, NaN, NaN, NaN),
  ];
}

/** Where a host gives less stack than 200 brackets want, that is a finding of the rule and no throw. */
function readSafely(
  word: StatementWord,
  text: string,
  tokens: IToken[],
): Reading | { readonly fault: Fault } {
  try {
    return readStatement(word, text, tokens);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return {
      fault: { code: "budget/nesting", at: { start: 0, end: word.length }, facts: { most: DEEPEST } },
    };
  }
}
