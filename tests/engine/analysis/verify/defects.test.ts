// Deliberately defective books, one defect each: what is wrong is found, and where it is.
import { readFileSync, readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { readBook, showJob, workJob } from "../../../../engine/index.ts";
import { brokenGoal } from "../support/goals.ts";
import { standing } from "../support/standing.ts";

const folder = new URL("./defects/", import.meta.url);
const books = readdirSync(folder).filter((name) => name.endsWith(".bevel"));

test("there are books enough", () => expect(books.length).toBeGreaterThanOrEqual(20));

test.each(books)("%s", (name) => {
  const text = readFileSync(new URL(name, folder), "utf8");
  const say = (what: string) => new RegExp(`^-- ${what}: (.*)$`, "m").exec(text)![1]!;
  const [finds, where] = [say("finds"), say("where")];
  const book = readBook(text);
  const wrong = book.findings.filter(
    (finding) => finding.weight === "error" || finding.code === "chart/never",
  );
  if (finds.includes("/")) {
    // This defect, and no other.
    expect(wrong.map((finding) => finding.code)).toEqual([finds]);
    const [finding] = wrong;
    expect(`${finding!.witness ?? ""} ${finding!.says}`).toContain(where);
    return;
  }
  expect(wrong.map((finding) => finding.says)).toEqual([]);
  const view = standing(book);
  expect(view.done).toBe(true);
  const broken = view.goals.filter((goal) => goal.verdict === "broken");
  if (finds === "never") {
    expect(view.never.map((one) => one.says).join("\n")).toContain(where);
    expect(view.never).toHaveLength(1);
    expect(view.goals.filter((goal) => goal.verdict !== "proved")).toEqual([]);
    return;
  }
  const [, sort, id] = /^broken (\w+), (.+)$/.exec(finds)!;
  expect(broken.map((goal) => `${goal.sort}, ${goal.id}`)).toContain(`${sort}, ${id}`);
  const goal = broken.find((one) => one.sort === sort && one.id === id)!;
  // The job that is shown lies where the book says, and really breaks the goal.
  const asking = readBook(`${text}\nfigure it-lies-there of yes-no = ${where}`);
  const there = showJob(workJob(asking, goal.job!));
  expect(there.findings).toEqual([]);
  expect(there.values.find((value) => value.name === "it-lies-there")!.value, JSON.stringify(goal.job)).toBe(
    true,
  );
  expect(brokenGoal(book, goal)).toBe(true);
  expect(goal.gives).toBeDefined();
});
