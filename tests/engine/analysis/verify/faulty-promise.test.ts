// A promise with a type error, or over a value with one, is neither proved nor broken: its finding says why.
// B5 of the review of proofs: such a promise was shown as broken, with a job that has nothing to do with it.
import { expect, test } from "vitest";
import { readBook } from "../../../../engine/index.ts";
import { standing } from "../support/standing.ts";

const book = (...lines: readonly string[]) =>
  readBook(
    `book small, edition 1\n    "Small"\nask depth in mm, 1 to 9\n    "Depth"\n` +
      `figure wide in mm = depth * 2\nfigure odd in mm = depth * 2 min\n` +
      `step wash "Wash {depth} {wide}"\n    from practice\n${lines.join("\n")}\n`,
  );
const verdicts = (...lines: readonly string[]) =>
  standing(book(...lines))
    .goals.filter((goal) => goal.sort !== "card")
    .map((goal) => `${goal.sort} ${goal.says}: ${goal.verdict}`);
const SOUND = [
  "promise wide <= 18 mm: proved",
  "condition step wash: whether it applies is never left open: proved",
  "numbers step wash: every number in it has a value whenever it applies: proved",
];

test.each([
  ["a promise with a type error", "promise depth <= 3 min"],
  ["one with a type error in a part", "promise depth <= 9 mm or wide <= 3 g"],
  ["one with an unknown name", "promise nothing <= 3 mm"],
  ["one over a figure with a type error", "promise odd <= 3 mm"],
  ["one over a figure over such a figure", "figure more in mm = odd + 1 mm\npromise more <= 3 mm"],
  ["one over a statement that cannot be read", "figure bad = 3 + + 4\npromise bad <= 3"],
])("%s is not shown as broken, and the others are proved", (_what, lines) => {
  expect(verdicts("promise wide <= 18 mm", lines)).toEqual(SOUND);
});

test("a step that shows a value with an error is not broken, and a sound promise still is", () => {
  expect(verdicts("promise wide <= 17 mm", 'step dry "Dry {odd}"\n    from practice')).toEqual([
    "promise wide <= 17 mm: broken",
    ...SOUND.slice(1),
    "condition step dry: whether it applies is never left open: proved",
  ]);
});

test("a promise over a chart with a hole is broken by the job in the hole", () => {
  const hole =
    "chart grade by depth gives number\n    from practice\n    depth | grade\n    under 5 mm | 1\n";
  expect(verdicts(`${hole}promise grade >= 1`)[0]).toBe("promise grade >= 1: broken");
});
