// The tree of a statement depends on its own text alone.
import { expect, test } from "vitest";
import { readBook } from "../../../../engine/index.ts";
import { parseStatement } from "../../../../engine/language/syntax/parse.ts";

test("a brace that is left open in a faulty statement is no finding of the next one", () => {
  const faulty = 'step a1 "Width {wide" when 3 + + 4';
  expect(parseStatement(faulty).faults.map((one) => one.code)).toEqual(["syntax/unexpected"]);
  expect(parseStatement('step a2 "Go on"').faults).toEqual([]);
});

test("an insert that cannot be read in a faulty statement is no finding of the next one", () => {
  parseStatement('step b1 "Width {3 +} mm" when 3 + + 4');
  expect(parseStatement('step b2 "Go on"').faults).toEqual([]);
});

test("an open brace is found where it is, whatever is wrong before it", () => {
  const book = readBook('step c1 "First {oops" takes takes 3 min\nfigure c2 = 1\nstep c3 "Last {open"\n');
  expect(book.findings.map((one) => [one.code, book.text.slice(0, one.at.start).split("\n").length])).toEqual(
    [
      ["syntax/unexpected", 1],
      ["syntax/brace", 3],
    ],
  );
});
