// Answers at the very ends of a range, and what is taken for them, never lie outside the range.
import { expect, test } from "vitest";
import { evaluationOf, readBook, workJob } from "../../../../engine/api/book.ts";

const BOOK = readBook(`ask width in mm, 1 to 100
    if unknown take longest / 2 because "Half as wide"
ask longest in mm, 1 to 500
ask hands in count, 1 to 4`);

function answered(name: string, answers: Record<string, string>): number {
  const { plan, frame } = evaluationOf(workJob(BOOK, answers));
  return frame.num[plan.registers.byName.get(name)!]!;
}

test.each([
  ["width", "100.00000000001 mm", 0.1],
  ["width", "0.999999999999 mm", 0.001],
  ["width", "100.00000000001 mm ± 1 mm", 0.1],
  ["width", "99.9999 mm", 0.0999999],
  ["longest", "19.685039370079 inch", 0.5],
])("%s answered %s", (name, answer, value) => {
  expect(answered(name, { [name]: answer })).toBe(value);
});

test("a fallback a rounding error beyond the range is the end of the range", () => {
  expect(answered("width", { width: "unknown", longest: "200.00000000001 mm" })).toBe(0.1);
  expect(answered("width", { width: "unknown", longest: "150 mm" })).toBe(0.075);
  expect(answered("width", { width: "unknown", longest: "200.001 mm" })).toBeNaN();
});

test("an answer further outside is impossible", () => {
  expect(answered("width", { width: "100.000001 mm" })).toBeNaN();
  expect(answered("hands", { hands: "5" })).toBeNaN();
});
