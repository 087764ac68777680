// Broken lines that only follow from a chart's hole, told apart from those to mend; read from real books.
import { expect, test } from "vitest";
import { readBook, verificationOf } from "../../../engine/index.ts";
import { followersOf } from "../../../editor/workbench/standing/roots.ts";
import { followWords, lookedAtAgain } from "../../../editor/workbench/standing/standing-words.ts";

const proved = (text: string) => {
  const book = readBook(text);
  const verification = verificationOf(book);
  while (!verification.advance(500));
  return { book, view: verification.view() };
};

const holed = `ask size in mm, 0 to 100
chart width by size gives mm
    size | width
    under 40 mm | 10 mm
    50 mm and over | 20 mm
    from practice
figure twice = width * 2
step cut "Cut {width}"
step sand "Sand {twice}"
step wash "Wash {size / (size - 7 mm)}"
promise size <= 50 mm`;

test("lines that use the chart with a hole follow from it; a line with a fault of its own does not", () => {
  const { book, view } = proved(holed);
  const followers = followersOf(view.goals, book.findings, book.rows);
  expect([...followers].map(([goal, root]) => [goal.id, root])).toEqual([
    ["step cut", "chart width"],
    ["step sand", "chart width"],
  ]);
  const others = view.goals.filter((goal) => goal.verdict === "broken" && !followers.has(goal));
  expect(others.map((goal) => goal.sort).sort()).toEqual(["numbers", "promise"]);
});

test("a book whose charts are whole has no line that follows from one", () => {
  const { book, view } = proved(holed.replace("50 mm and over", "40 mm and over"));
  expect(followersOf(view.goals, book.findings, book.rows).size).toBe(0);
  expect(view.goals.some((goal) => goal.verdict === "broken")).toBe(true);
});

test("how many follow is said with what to mend", () => {
  expect(followWords(1, 8)).toBe(
    "8 lines are broken only because a chart has a hole or an overlap. Mend the chart first.",
  );
  expect(followWords(2, 1)).toBe(
    "1 line is broken only because 2 charts have holes or overlaps. Mend the charts first.",
  );
});

test("a proof of an older text keeps its lines and none of its verdicts", () => {
  const { view } = proved(holed);
  const again = lookedAtAgain(view);
  expect(again.goals.map((goal) => goal.says)).toEqual(view.goals.map((goal) => goal.says));
  expect(new Set(again.goals.map((goal) => goal.verdict))).toEqual(new Set(["looking"]));
  expect(again.settled).toBe(0);
  expect(again.never).toEqual([]);
});
