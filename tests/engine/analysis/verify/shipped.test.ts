// The shipped book is proved: every promise and everything it owes, and nothing in it is never reached.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { readBook } from "../../../../engine/index.ts";
import { standing } from "../support/standing.ts";

test("the shipped book has no hole, no clash, no open promise, and nothing that no job reaches", () => {
  const book = readBook(
    readFileSync(new URL("../../../../rulesets/road-panels.bevel", import.meta.url), "utf8"),
  );
  expect(book.findings.filter((finding) => finding.weight !== "note").map((finding) => finding.says)).toEqual(
    [],
  );
  const view = standing(book, 400_000);
  expect(view.done).toBe(true);
  expect(
    view.goals
      .filter((goal) => goal.verdict !== "proved")
      .map((goal) => `${goal.id}: ${goal.says}: ${goal.verdict} ${JSON.stringify(goal.job ?? goal.rest)}`),
  ).toEqual([]);
  expect(view.never.map((one) => one.says)).toEqual([]);
  expect(view.goals.filter((goal) => goal.sort === "promise").length).toBeGreaterThanOrEqual(9);
  expect(view.settled).toBe(view.all);
}, 120_000);
