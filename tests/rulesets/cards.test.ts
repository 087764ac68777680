// What a technician reads at the panel, word for word: the card of each worked example that has all answers
// is compared with the stored one, so that no change of a book or of the engine alters a card unseen.
import { readFileSync, readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import {
  CARDS,
  MADE_BY,
  type MadeBy,
  cardsOfBooks,
  madeBy,
  mustRaise,
  shippedBooks,
} from "../support/write-cards.ts";

const WRITE = "npx tsx tests/support/write-cards.ts";
const books = shippedBooks();
const cards = cardsOfBooks(books);
const stored = new Set(readdirSync(CARDS));

describe.each([...cards.keys()])("%s", (file) => {
  test("is the card that is stored", () => {
    if (!stored.has(file))
      throw new Error(
        `No card is stored as tests/rulesets/cards/${file}. Read it, and keep it with: ${WRITE}`,
      );
    expect(cards.get(file), `Where the change is meant: ${WRITE}`).toBe(
      readFileSync(new URL(file, CARDS), "utf8"),
    );
  });
  test("is ready", () => expect(cards.get(file)).toContain("\nThis job is ready.\n"));
});

test("no card is stored whose example is gone", () =>
  expect(
    [...stored].filter((file) => !cards.has(file)),
    `Take it away with: ${WRITE}`,
  ).toEqual([]));

test("every book that tells somebody to do something has cards", () => {
  const names = new Set([...cards.keys()].map((file) => file.split(".")[0]));
  expect([...names].sort()).toEqual(["harbour-yard", "road-panels", "small-craft", "trailer-panels"]);
});

test(
  "the hull of 6 mm in a shed of 14 °C is among them, with and without a heater, and the " + "jobs beside it",
  () => {
    const names = [
      "hull-6mm-14C",
      "hull-6mm-14C-no-heat",
      "deck-wet-balsa",
      "topside-from-inside",
      "chip-cold",
      "blister-plies",
    ];
    expect([...cards.keys()]).toEqual(expect.arrayContaining(names.map((name) => `small-craft.${name}.txt`)));
  },
);

describe("the version of the engine", () => {
  const noted = JSON.parse(readFileSync(MADE_BY, "utf8")) as MadeBy;
  const files = new Map([...stored].map((file) => [file, readFileSync(new URL(file, CARDS), "utf8")]));
  const now = madeBy(books, files);
  test("is raised where a stored card changes and its book does not", () =>
    expect(mustRaise(noted, now)).toBeUndefined());
  test("and the texts of the books are those that the stored cards were made by", () =>
    expect(now, `Where a book or the version changed: ${WRITE}`).toEqual(noted));
  test("must be raised for another card of the same book, and only then", () => {
    const [name = "", one] = Object.entries(noted.books)[0]!;
    const other = (change: Partial<typeof one>) => ({
      ...noted,
      books: { ...noted.books, [name]: { ...one, ...change } },
    });
    expect(mustRaise(noted, other({ cards: "0" }))).toContain("Raise engineVersion in engine/version.ts");
    expect(mustRaise(noted, other({ cards: "0", text: "0" }))).toBeUndefined();
    expect(mustRaise(noted, { ...other({ cards: "0" }), engine: "another" })).toBeUndefined();
  });
});
