// What a technician reads at the panel, word for word: the card of each worked example that has all answers
// is compared with the stored one, so that no change of a book or of the engine alters a card unseen.
import { readFileSync, readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { CARDS, cardsOfBooks } from "../support/write-cards.ts";

const WRITE = "npx tsx tests/support/write-cards.ts";
const cards = cardsOfBooks();
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
  const books = new Set([...cards.keys()].map((file) => file.split(".")[0]));
  expect([...books].sort()).toEqual(["harbour-yard", "road-panels", "small-craft", "trailer-panels"]);
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
