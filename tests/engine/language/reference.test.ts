// The reference names everything that the language has: functions, reserved words, statements, units, bases,
// drawings.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { isCurrency, unitSymbols } from "../../../core/unit.ts";
import { FUNCTIONS } from "../../../engine/language/check/call.ts";
import { DRAWN } from "../../../engine/language/check/drawn-as.ts";
import { PICTURES } from "../../../engine/language/check/picture.ts";
import { BASES, STATEMENT_WORDS } from "../../../engine/language/syntax/statement-words.ts";
import { ALL_TOKENS, RESERVED } from "../../../engine/language/syntax/tokens.ts";

const PAGE = readFileSync(fileURLToPath(new URL("../../../engine/REFERENCE.md", import.meta.url)), "utf8");
const LISTED = new Set(PAGE.split(/[\s`|(),.:;·"]+/));

const missing = (words: Iterable<string>) => [...words].filter((word) => !LISTED.has(word));

test("every function", () => expect(missing(FUNCTIONS.map((one) => one.name))).toEqual([]));
test("every statement", () => expect(missing(STATEMENT_WORDS)).toEqual([]));
test("every basis", () => expect(missing(BASES)).toEqual([]));
test("every drawing, each thing it can be given, and each place where a measurement is shown", () => {
  expect(
    missing([
      ...Object.entries(PICTURES).flatMap(([shape, knows]) => [shape, ...Object.keys(knows)]),
      ...Object.keys(DRAWN),
    ]),
  ).toEqual([]);
});

test("every reserved word is in the list of words that can never be names, and nothing else does", () => {
  const listed = /Words that can never be names: `([^`]+)`/.exec(PAGE)![1]!.split(/\s+/);
  expect(listed.sort()).toEqual([...RESERVED].sort());
});

test("every phrase of the language", () => {
  const phrases = ALL_TOKENS.map((token) => token.LABEL ?? "").filter(
    (label) => / /.test(label) && /^[a-z ]+$/.test(label) && !/^(a|an) /.test(label),
  );
  const rounded = PAGE.replace(/\s+/g, " ");
  expect(phrases.filter((phrase) => !rounded.includes(phrase))).toEqual([]);
});

test("every unit by one of its spellings, and no unit that is not there", () => {
  const section = PAGE.slice(PAGE.indexOf("## 2."), PAGE.indexOf("## 3."));
  const written = new Set([...section.matchAll(/`([^`]+)`/g)].flatMap(([, group]) => group!.split(/\s+/)));
  // Spellings with a raised figure, a Greek letter or a plural mean the plain one.
  const plain = unitSymbols().filter(
    (symbol) => !/[²³µμ]/.test(symbol) && !["inches", "ml", "days"].includes(symbol),
  );
  expect(plain.filter((symbol) => !written.has(symbol))).toEqual([]);
  expect(
    [...written].filter(
      (symbol) => !symbol.includes("/") && !unitSymbols().includes(symbol) && !isCurrency(symbol),
    ),
  ).toEqual([]);
});
