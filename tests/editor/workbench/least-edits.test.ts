// The edits given for two texts make one of the other, and leave alone what is the same.
import fc from "fast-check";
import { expect, test } from "vitest";
import { applyEdits } from "../../../core/span.ts";
import { leastEdits } from "../../../editor/workbench/text/least-edits.ts";

test("texts that are the same need no edit", () => {
  expect(leastEdits("a\nb", "a\nb")).toEqual([]);
});

test("one word changed is one small edit", () => {
  expect(leastEdits("figure a = 5 mm\n", "figure a = 6 mm\n")).toEqual([
    { at: { start: 11, end: 12 }, text: "6" },
  ]);
});

test("a rename touches each place and nothing between", () => {
  const before = "figure a = 1\n\nask b\nfigure c = a + 1\n";
  const edits = leastEdits(before, before.replaceAll(" a ", " wide "));
  expect(edits).toEqual([
    { at: { start: 7, end: 8 }, text: "wide" },
    { at: { start: 31, end: 32 }, text: "wide" },
  ]);
});

test("a line put in and another taken out leave the lines between untouched", () => {
  const before = "one\ntwo\nthree\nfour\n";
  const edits = leastEdits(before, "zero\none\ntwo\nfour\n");
  expect(edits).toEqual([
    { at: { start: 0, end: 0 }, text: "zero\n" },
    { at: { start: 8, end: 14 }, text: "" },
  ]);
});

test("a character of two units is not cut in half", () => {
  for (const edit of leastEdits("x \u{1f600} y", "x \u{1f601} y")) expect(edit.text).toBe("\u{1f601}");
});

test("any two texts: applying the edits gives the second", () => {
  const line = fc.constantFrom("", "a", "b", "ab", "figure x = 1", "\u{1f600}");
  const text = fc.array(line, { maxLength: 14 }).map((lines) => lines.join("\n"));
  fc.assert(
    fc.property(text, text, (before, after) => {
      const edits = leastEdits(before, after);
      expect(applyEdits(before, edits)).toBe(after);
      for (let i = 1; i < edits.length; i += 1)
        expect(edits[i]!.at.start).toBeGreaterThanOrEqual(edits[i - 1]!.at.end);
    }),
    { seed: 71, numRuns: 2000 },
  );
});

test("texts with more than the limit of changed lines still come out right", () => {
  const before = Array.from({ length: 900 }, (_, i) => `old ${i}`).join("\n");
  const after = Array.from({ length: 700 }, (_, i) => `new ${i}`).join("\n");
  const edits = leastEdits(before, after);
  expect(edits).toHaveLength(1);
  expect(applyEdits(before, edits)).toBe(after);
});

test("a rename in more places than the limit is still one small edit a place", () => {
  const before = Array.from({ length: 900 }, (_, i) => `figure a${i} = old-name + ${i}`).join("\n");
  const edits = leastEdits(before, before.replaceAll("old-name", "new-name"));
  expect(edits).toHaveLength(900);
  expect(edits[0]!.text).toBe("new");
});
