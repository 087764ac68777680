// What a text says it depends on, read from its heads alone: a table of texts, and a comparison with the
// parser on the shipped books, on every case of the language and on heads put together by chance.
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type NamedBook, dependenciesOf, headOf } from "../../../../engine/language/syntax/dependencies.ts";
import { parseStatement } from "../../../../engine/language/syntax/parse.ts";
import { splitBook } from "../../../../engine/language/syntax/split.ts";
import { allCases } from "../../../support/cases.ts";

const written = ({ name, edition }: NamedBook): string => `${name} ${edition ?? "-"}`;
const named = (text: string): string => dependenciesOf(text).map(written).join("; ");

describe("what a text depends on", () => {
  it.each([
    ["nothing", "", ""],
    ["a head alone", "book a, edition 1\n", ""],
    ["one line", "book a, edition 1, amends base, edition 2\n", "base 2"],
    ["no edition", "book a, amends base\n", "base -"],
    ["a second line", "book a, edition 1,\n    amends base\n", "base -"],
    ["each word on a line", "book\n  a\n  ,\n  edition\n  1\n  ,\n  amends\n  base\n  , edition 7", "base 7"],
    ["comments between", "book a, -- mine\n\n    amends -- theirs\n    base\n", "base -"],
    ["windows line ends", "book a, edition 1,\r\n    amends base\r\n", "base -"],
    ["a byte order mark", "\ufeffbook a, amends base", "base -"],
    ["uses", "book a\nuse sums, edition 2\n\nuse words\n", "sums 2; words -"],
    ["an edition on a second line", "use sums,\n    edition 1.5\n", "sums 1.5"],
    ["other letters", "use größen-buch, edition 3", "größen-buch 3"],
    ["the word in a title", 'book a, edition 1\n    "It amends nothing"\n', ""],
    ["the word in a comment", "book a -- , amends base\n", ""],
    ["an indented use", "book a\n    use sums\n", ""],
    ["a longer word", "user sums\nbook-keeping, amends base", ""],
    ["a statement that cannot be read further", "book a, amends base, edition\n    = 7", "base -"],
    ["no name", "use\nuse 7\nbook , amends base", ""],
  ])("%s", (_what, text, expected) => expect(named(text)).toBe(expected));

  it("a head is found behind a comment, with what it amends", () => {
    expect(headOf("-- notes\n\nbook a, edition 3, amends base\n")).toEqual({
      name: "a",
      edition: 3,
      amends: { name: "base", edition: undefined },
    });
    expect(headOf("-- book a\nuse b")).toBeUndefined();
  });
});

/** What the parser reads of the same text, and whether it could read every head. */
function parsed(text: string): { readonly named: string; readonly whole: boolean } {
  const found: string[] = [];
  let amends = false;
  let whole = true;
  for (const { body, name } of splitBook(text).map((piece) => parseStatement(piece.text))) {
    if (body.keyword === "unreadable") whole = false;
    if (body.keyword === "use") found.push(written({ name: name!.text, edition: body.edition }));
    if (body.keyword !== "book" || body.amends === undefined || amends) continue;
    amends = true;
    found.push(written({ name: body.amends.name.text, edition: body.amends.edition }));
  }
  return { named: found.join("; "), whole };
}

/** The parser's answer for a text that it can read; else at least every book that the parser looks for. */
function agrees(text: string): void {
  const { named: byParser, whole } = parsed(text);
  if (whole) expect(named(text), text).toBe(byParser);
  else
    expect(named(text).split("; "), text).toEqual(
      expect.arrayContaining(byParser.split("; ").filter(Boolean)),
    );
}

describe("the heads and the parser agree", () => {
  const RULESETS = new URL("../../../../rulesets/", import.meta.url);
  it("on the shipped books and on every case", () => {
    const shipped = readdirSync(fileURLToPath(RULESETS)).filter((name) => name.endsWith(".bevel"));
    const texts = [
      ...shipped.map((name) => readFileSync(new URL(name, RULESETS), "utf8")),
      ...allCases().flatMap((one) => one.text.split(/^~~$/m)),
    ];
    expect(texts.filter((text) => dependenciesOf(text).length > 0).length).toBeGreaterThan(10);
    texts.forEach(agrees);
  });

  it("on words put together by chance", () => {
    const word = fc.constantFrom(
      "book",
      "use",
      "a",
      "sums-2",
      ",",
      ", edition",
      "3",
      "1/2",
      ", amends",
      '"T"',
    );
    const gap = fc.constantFrom(" ", " ", "\n    ", "\n", " -- note\n  ", "\t", "\r\n ", "");
    const head = fc.constantFrom(
      ["book", "a", ", edition", "3", ", amends", "sums-2", ", edition", "1/2"],
      ["use", "a", ", edition", "3"],
    );
    const words = fc.oneof(fc.array(word, { maxLength: 12 }), head);
    const text = fc
      .tuple(words, fc.array(gap, { minLength: 12, maxLength: 12 }))
      .map(([all, gaps]) => all.map((one, i) => one + gaps[i]).join(""));
    fc.assert(fc.property(text, agrees), { numRuns: 3000 });
  });
});
