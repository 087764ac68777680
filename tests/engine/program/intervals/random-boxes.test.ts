// For seeded random books and boxes of jobs: every value of every job in the box lies in the span of the box.
import { expect, test } from "vitest";
import { readBook } from "../../../../engine/index.ts";
import { chance } from "../../../support/chance.ts";
import { randomBook } from "../../../support/random-book.ts";
import { boxLaw } from "../../analysis/support/box-law.ts";

test.each([
  ["plain", false, 1000],
  ["wide", true, 5000],
] as const)(
  "every value of a job lies in the span of its box: %s books",
  (_what, wide, from) => {
    const wrong: string[] = [];
    for (let seed = from; seed < from + 220; seed++) {
      const made = randomBook(chance(seed), 10, wide);
      const says = boxLaw(chance(seed), readBook(made.text), { boxes: 6, jobs: 8 });
      if (says !== undefined) wrong.push(`seed ${seed}: ${says}\n${made.text}`);
    }
    expect(wrong.sort((a, b) => a.length - b.length)[0]).toBeUndefined();
  },
  120_000,
);
