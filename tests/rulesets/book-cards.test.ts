// What a technician reads at the panel, word for word: the card of each worked example that is to end ready is compared with the
// stored one, so that no change of a book or of the engine alters a card unseen. The boat book's whole jobs are in cards.test.ts.
import { readFileSync, readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { CARDS, cardsOfBooks } from "../support/cards-of-books.ts";

const WRITE = "npx tsx tests/support/cards-of-books.ts";
const cards = cardsOfBooks();
const stored = new Set(readdirSync(CARDS));

describe.each([...cards.keys()])("%s", (file) => {
  test("is the card that is stored", () => {
    if (!stored.has(file)) throw new Error(`No card is stored as tests/rulesets/book-cards/${file}. Read it, and keep it with: ${WRITE}`);
    expect(cards.get(file), `Where the change is meant: ${WRITE}`).toBe(readFileSync(new URL(file, CARDS), "utf8"));
  });
});

test("no card is stored whose example is gone", () => expect([...stored].filter((file) => !cards.has(file)), `Take it away with: ${WRITE}`).toEqual([]));

test("every book that tells somebody to do something has cards", () => {
  const books = new Set([...cards.keys()].map((file) => file.split(".")[0]));
  expect([...books]).toEqual(expect.arrayContaining(["road-panels", "harbour-yard", "trailer-panels"]));
});
