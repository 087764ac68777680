// Runs every case file. A case is right when it comes back unchanged: the book with the findings drawn
// under it, each job with the values it names. A case that fails shows both; copy the new one in if it is
// right.
import { expect, test } from "vitest";
import { allCases, redraw } from "../../support/cases.ts";

test.each(allCases().map((one) => [`${one.file}: ${one.says}`, one.text] as const))("%s", (_says, text) => {
  expect(redraw(text)).toBe(text);
});
