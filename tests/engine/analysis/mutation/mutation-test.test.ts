// How well worked examples guard a book: changes counted by hand, and an example that is offered really
// guards.
import { expect, test } from "vitest";
import type { MutationTestView } from "../../../../core/view.ts";
import { type Book, mutationTestOf, readBook } from "../../../../engine/index.ts";

const guard = (book: Book): MutationTestView => {
  const run = mutationTestOf(book);
  while (!run.advance(50));
  return run.view();
};

const TEXT = `book small, edition 1
    "A small book"
ask long in mm, 0 to 600
    "How long?"
    measured to 1 mm
ask cold of yes-no
    "Cold?"
kind way
    fill "Fill"
    lay  "Lay"
chart method by long gives way
    long          | method
    under 150 mm  | fill
    150 mm and over | lay
    from practice
figure bevel in mm = long * 2 rounded up to 5 mm
    from practice
stop cool "Too cold" when cold and long > 300 mm
`;
const EXAMPLE = `worked first "First"
    with long 142 mm, cold no
    gives method fill, bevel 285 mm
`;

test("the changes of a small book, counted by hand", () => {
  // method: two rows dropped, the limit of 150 mm moved. bevel: turned down. stop: > turned, 300 mm moved,
  // and turned to or.
  const view = guard(readBook(TEXT + EXAMPLE));
  expect(view.all).toBe(3 + 1 + 3);
  expect([view.tried, view.done]).toEqual([7, true]);
  // A row dropped leaves a hole; 284 mm rounded down is 280 mm. The example passes with every other change.
  expect(view.unnoticed.map((one) => one.says.replace(/^[^:]*: /, "")).sort()).toEqual([
    "300 mm moved to 301 mm",
    "> turned to < in long > 300 mm",
    "and turned to or in cold and long > 300 mm",
    "the limit 150 mm of long moved to 151 mm",
  ]);
  expect(view.unnoticed).toHaveLength(4);
  expect(view.noticed).toBe(3);
  expect(view.unreached.map((one) => one.says).join(" ")).toMatch(/row 2 of method/);
  expect(view.unreached.map((one) => one.says).join(" ")).toMatch(/stop cool applies/);
});

test("every unnoticed change comes with an example that passes and notices it", () => {
  const book = readBook(TEXT + EXAMPLE);
  const view = guard(book);
  for (const one of view.unnoticed) {
    expect(one.worked, one.says).toBeDefined();
    const more = readBook(`${TEXT}${EXAMPLE}${one.worked}\n`);
    expect(
      more.findings.filter((finding) => finding.weight === "error").map((finding) => finding.says),
      one.worked,
    ).toEqual([]);
    expect(more.worked).toHaveLength(2);
    expect(
      guard(more).unnoticed.map((each) => each.says),
      one.worked,
    ).not.toContain(one.says);
  }
});

test("adding what is offered again and again ends with nothing unnoticed", () => {
  let text = TEXT + EXAMPLE;
  let turns = 0;
  for (; turns < 10; turns++) {
    const next = guard(readBook(text)).unnoticed.find((one) => one.worked !== undefined);
    if (next === undefined) break;
    text += `${next.worked!.replace(/^worked \S+/, `worked more-${turns}`)}\n`;
  }
  const view = guard(readBook(text));
  expect(view.unnoticed).toEqual([]);
  expect(view.noticed).toBe(7);
  expect(view.unreached).toEqual([]);
});

test("a change that can make no difference has no job that tells the two apart", () => {
  const book = readBook(
    "ask long in mm, 0 to 100\n    measured to 1 mm\n" +
      "figure wide in mm = 5 mm if long > 200 mm, otherwise 7 mm\n" +
      `step cut "Cut {wide}"\nworked one "One"\n    with long 50 mm\n` +
      "    gives wide 7 mm",
  );
  const view = guard(book);
  // 200 mm moved to 201 mm lies outside what can be asked; > turned to < is noticed.
  expect(view.all).toBe(2);
  expect(view.unnoticed).toHaveLength(1);
  expect(view.unnoticed[0]!.job).toBeUndefined();
});
