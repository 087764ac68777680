// What is worked out from itself has no value, also where it had one before the edit.
import { expect, test } from "vitest";
import { readBook, showJob, workJob } from "../../../../engine/index.ts";

test("a list that an edit puts into a loop loses the rows that it had", () => {
  const book = (rule: string) =>
    `list cuts for n from 1 to 3\n    across in mm = wide + n * 2 mm\nfigure wide in mm = ${rule}\n`;
  const before = readBook(book("4 mm"));
  const job = workJob(before, {});
  const after = readBook(book("largest of cuts.across"), before);
  expect(after.findings.map((one) => one.code)).toEqual(["name/loop"]);
  const values = showJob(workJob(after, {}, job)).values;
  expect(values.map((one) => [one.name, one.state, one.text])).toEqual([
    ["cuts", "impossible", "it is part of a loop"],
    ["wide", "impossible", "it is part of a loop"],
  ]);
});
