// The English sentence of every reason and decision: what the terminal prints and the documents keep.
import { expect, test } from "vitest";
import { decisionsText, reasonText } from "../../core/reason-words.ts";
import { DECISIONS, REASONS, examplesOf } from "../support/reasons.ts";

test.each(examplesOf(REASONS))("%s", (english, reason) => expect(reasonText(reason)).toBe(english));
test.each(examplesOf(DECISIONS))("%s", (english, decision) =>
  expect(decisionsText([decision])).toBe(english),
);

test("sentences leave out what is not there", () => {
  expect(
    reasonText({ code: "answer/word", answer: "x", kind: "skin", words: ["a", "b"], near: undefined }),
  ).toBe("“x” is not one of skin: a, b.");
  expect(
    reasonText({
      code: "answer/unit",
      ask: "n",
      answer: "3 kg",
      type: "count",
      unit: undefined,
      is: "mass",
      example: "4",
    }),
  ).toBe("n is count; “3 kg” is mass. Write for example 4.");
  expect(
    reasonText({ code: "answer/unreadable", ask: "n", answer: "((", example: "4", near: undefined }),
  ).toBe("“((” cannot be read as an answer to n; write for example 4.");
  expect(reasonText({ code: "answer/tolerance", ask: "n", unit: undefined })).toBe(
    "The tolerance of n cannot be read: write it as an amount, for example ± 0.2.",
  );
  expect(decisionsText([{ code: "as-in-book", book: undefined }])).toBe("elsewhere as in the book below");
});

test("decisions of one statement are joined", () => {
  const by = [
    { code: "since", condition: "wet" },
    { code: "rows-of-chart", chart: "grit", points: [{ row: 2, cells: "a" }] },
  ] as const;
  expect(decisionsText(by)).toBe("since wet; row 2 of grit: a");
  expect(decisionsText([])).toBe("");
});
