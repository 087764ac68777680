// The yard's layer that comes with the program says no less of safety than the book underneath: its caution
// of glass dust shows for the very same jobs, names every protection that the house names, and keeps the
// house's reason.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { readBook, showJob, workJob } from "../../engine/index.ts";
import type { Book } from "../../engine/index.ts";

const text = (name: string): string =>
  readFileSync(new URL(`../../rulesets/${name}.bevel`, import.meta.url), "utf8");
/** Both books, over the house's text as it is or as it might be. */
const both = (house: string) =>
  [
    readBook(house, undefined, [text("common-sums")]),
    readBook(text("harbour-yard"), undefined, [house, text("common-sums")]),
  ] as const;

const dust = (book: Book, answers: Readonly<Record<string, string>>) =>
  showJob(workJob(book, answers)).cautions.find((one) => one.id.split("@")[0] === "caution dust");

const asShipped = text("road-panels");
/**
 * Every job of the shipped examples grinds something; with fewer steps named, some show no caution of dust.
 */
const fewerSteps = asShipped.replace(/(caution dust "[^"]*"\n {4}with step )[^\n]*/, "$1scuff-back");

test.each([
  ["as shipped", asShipped, [true]],
  ["with fewer steps named", fewerSteps, [false, true]],
] as const)("glass dust is cautioned of for the same jobs, in no fewer words: %s", (_what, text, kinds) => {
  const [house, yard] = both(text);
  const shown = house.worked.map(({ answers }) => [dust(house, answers), dust(yard, answers)] as const);
  expect(shown.map(([, above]) => above !== undefined)).toEqual(shown.map(([under]) => under !== undefined));
  expect([...new Set(shown.map(([under]) => under !== undefined))].sort()).toEqual(kinds);
  for (const [under, above] of shown)
    if (under !== undefined) {
      expect(above!.text).toContain(under.text);
      expect(above!.because).toContain(under.because);
    }
});
