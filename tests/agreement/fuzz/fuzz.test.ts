// A seeded stretch of the fuzz: 20,000 books, layers, jobs and edits, among which nothing throws, hangs or
// points nowhere.
import { expect, test } from "vitest";
import { session } from "./sessions.ts";
import { sources } from "./sources.ts";

const CASES = 20_000;

test("20,000 random and mutated books, layers, jobs and edits are taken without a fault", () => {
  const texts = sources();
  let cases = 0;
  for (let seed = 1; cases < CASES; seed++) {
    const made = session(seed, texts);
    expect(made.faults, JSON.stringify(made.faults[0])).toEqual([]);
    cases += made.cases;
  }
}, 300_000);
