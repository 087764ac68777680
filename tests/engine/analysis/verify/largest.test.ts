// Largest and smallest of the same two numbers, and spans that end at zero. Truths by reading; the false
// ones are false at a job that a person can work.
import { expect, test } from "vitest";
import { brokenBy, promises, sound } from "../support/standing.ts";

test.each([
  ["largest(x, y) + smallest(x, y) is x + y", "proved"],
  ["largest(x, 8 mm) + smallest(8 mm, x) is x + 8 mm", "proved"],
  ["largest(x, y) + smallest(x, y) is x + y or stopped", "proved"],
  ["largest(x, y) - smallest(x, y) >= 0 mm", "proved"],
  ["both >= x", "proved"],
  ["largest(both, both) >= both", "proved"],
  ["largest(x, y) + smallest(x, y) is x + x", "broken"],
  ["largest(x, y) - smallest(x, y) > 0 mm", "broken"],
  ["largest(both, both) > both", "broken"],
] as const)("%s is %s", (rule, verdict) => {
  const book = sound(`book both, edition 1
    "Both"
ask x in mm, 0 to 50
    "x"
ask y in mm, 0 to 50
    "y"
figure both in mm = largest(x, x)
step look "Look"
    from practice
promise ${rule}
`);
  const [promise] = promises(book);
  expect(promise!.verdict, JSON.stringify(promise)).toBe(verdict);
  if (verdict === "broken") expect(brokenBy(book, promise!.job!, promise!.id)).toBe(true);
});
