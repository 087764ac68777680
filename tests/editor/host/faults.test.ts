// What stands against sealing is counted once: a failing example of the book underneath is one fault for each
// thing that it gives.
import { expect, test } from "vitest";
import { answer } from "../../../editor/host/engine-threads/answer-question.ts";
import type { Checked } from "../../../editor/host/engine-threads/thread-messages.ts";

const base = `book small-base, edition 1
    "A house standard"

ask depth in mm, 1 to 10
    "How deep?"

dial slope = 1:10, from 1:8 to 1:15
    from practice

figure width in mm = depth run out at slope

step grind "Grind {width}"

worked four "Four"
    with depth 4 mm
    gives width 40 mm, ready
`;

test("each value that an example of the base book gives otherwise is one fault", () => {
  const check = (text: string): Checked =>
    answer({ asks: "check", text, under: [base] }, Date.now, () => undefined) as Checked;
  const layer = (slope: string, more = ""): string =>
    `book quay, edition 1, amends small-base, edition 1\n    "A yard"\n\n` +
    `instead dial slope = ${slope}\n${more}`;
  expect(check(layer("1:10")).faults).toEqual([]);
  expect(check(layer("1:12")).faults).toEqual([
    {
      is: "example",
      says: "In small-base: The worked example four expects width 40 mm; the book gives 48 mm.",
      line: expect.any(Number),
    },
  ]);
  expect(
    check(
      layer("1:10", 'worked five "Five"\n    with depth 5 mm\n    gives width 40 mm, ready\n'),
    ).faults.map((fault) => fault.is),
  ).toEqual(["example"]);
  expect(check(layer("1:10", "figure odd in mm = nothing-there\n")).faults.map((fault) => fault.is)).toEqual([
    "error",
  ]);
});
