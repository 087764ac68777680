// Which text is read for a name and an edition, what of it is lacking, and where each text begins in the
// whole.
import { expect, test } from "vitest";
import { findBook } from "../../../../engine/language/layers/book-list.ts";
import { wholeText } from "../../../../engine/language/layers/compose.ts";
import { contentHash } from "../../../../engine/language/layers/content-hash.ts";
import { compose, faultsOf } from "../../../support/compose-text.ts";

const edition = (number: number, more = "") =>
  `book house, edition ${number}\nfigure wide = ${number}\n${more}`;

test("the edition asked for, else the nearest later, else the nearest earlier, or the latest", () => {
  const books = [edition(2), edition(7), edition(4)];
  const found = (wanted: number | undefined) => {
    const one = findBook(books, "house", wanted);
    return [one?.edition, one?.moved];
  };
  expect(found(4)).toEqual([4, undefined]);
  expect(found(3)).toEqual([4, "later"]);
  expect(found(9)).toEqual([7, "earlier"]);
  expect(found(undefined)).toEqual([7, undefined]);
  expect(findBook(books, "yard", 1)).toBeUndefined();
});

test("texts underneath follow the book's own, each at its place", () => {
  const yard = "book yard, edition 1, amends house, edition 2\nfigure more = 1\n";
  const top = "book top, edition 1, amends yard, edition 1\nfigure most = 1\n";
  const { under } = compose(top, yard, edition(2));
  const whole = wholeText(top, under);
  expect(under.map((one) => whole.slice(one.start, one.start + one.text.length))).toEqual([yard, edition(2)]);
});

test("a book that is missing, a circle and a chain that is too long withhold everything", () => {
  const withheld = (text: string, ...books: string[]) => {
    const composition = compose(text, ...books);
    return [
      faultsOf(composition).map((one) => one.split(" ")[0]),
      composition.lacking.map((one) => one.reason.code),
    ];
  };
  expect(withheld("book mine, edition 1, amends house, edition 1\n")).toEqual([
    ["use/missing"],
    ["book-missing"],
  ]);
  const mine = "book mine, edition 1\nuse there, edition 1\n";
  const there = "book there, edition 1\nuse mine, edition 1\n";
  expect(withheld(mine, there, mine)).toEqual([["use/circle"], ["book-circle"]]);
  expect(withheld("book mine, edition 1\nuse mine, edition 1\n")).toEqual([["use/circle"], ["book-circle"]]);
  const chain = Array.from({ length: 13 }, (_, i) => `book b${i}, edition 1\nuse b${i + 1}\n`);
  expect(withheld("book mine, edition 1\nuse b0\n", ...chain)).toEqual([["use/deep"], ["books-too-deep"]]);
});

test("a dependency's hash changes with any text that it depends on, and not with line ends", () => {
  const yard = "book yard, edition 1, amends house, edition 2\n";
  const top = "book top, edition 1, amends yard, edition 1\n";
  const hashOf = (...books: string[]) =>
    compose(top, ...books).dependencies.find((one) => one.name === "yard")!.fingerprint;
  expect(hashOf(yard, edition(2))).not.toBe(hashOf(yard, edition(2, "figure more = 1\n")));
  expect(contentHash("a\r\nb", [])).toBe(contentHash("a\nb", []));
  expect(contentHash("a", [])).not.toBe(contentHash("a", [{ name: "b", edition: 1, fingerprint: "" }]));
});
