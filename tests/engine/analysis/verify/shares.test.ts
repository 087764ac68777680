// Each goal has its share of the work: what is cheap is settled before anything hard is gone on with, a clock
// is looked at within a portion, and what is not settled says which limit bound it.
import { expect, test } from "vitest";
import { verificationOf } from "../../../../engine/index.ts";
import { sound } from "../support/standing.ts";

// A square is never below nought, but its terms by themselves can be: no promise here is seen to hold.
const HARD = Array.from({ length: 17 }, (_, i) => `promise n * n - ${2 * i + 2} * n + ${(i + 1) ** 2} >= 0`);
const book = sound(`book shares, edition 1
    "Shares"
ask x in mm, 1 to 100
    "x"
figure n = x / 1 mm
step look "Look"
    from practice
${HARD.join("\n")}
promise 3 mm < 4 mm
promise n <= 99
`);

test("seventeen-hard: the cheap promises behind the hard ones are settled first", () => {
  const proof = verificationOf(book);
  // Two thousand boxes are less than a fifth of what one hard promise may cost.
  for (let spent = 0; spent < 2000; spent += 50) proof.advance(50);
  const view = proof.view();
  expect(view.done).toBe(false);
  const verdictOf = (says: string) => view.goals.find((goal) => goal.says === says)!.verdict;
  expect(verdictOf("3 mm < 4 mm")).toBe("proved");
  expect(verdictOf("n <= 99")).toBe("broken");
  const open = view.goals.filter((goal) => goal.verdict === "looking");
  expect(open.length).toBeGreaterThanOrEqual(10);
  for (const goal of open) expect(goal.bound).toBeUndefined();
});

test("seventeen-hard: what cost all that it may says so", () => {
  const one = verificationOf(
    sound(`book alone, edition 1
    "Alone"
ask x in mm, 1 to 100
    "x"
figure n = x / 1 mm
step look "Look"
    from practice
promise n * n * n - 3 * n * n + 3 * n - 1 >= 0
promise x / 7 * 7 is x or x * 3 / 3 is not x
`),
  );
  while (!one.advance(2000)) {
    /* goes on */
  }
  for (const goal of one.view().goals.filter((one) => one.verdict !== "proved"))
    expect(goal, JSON.stringify(goal)).toMatchObject({
      verdict: "not settled",
      bound: expect.stringMatching(/boxes|digits/),
    });
});

test("three-seconds: a portion ends when it is late, however large it is", () => {
  const proof = verificationOf(book);
  let looks = 0;
  const late = () => ++looks > 30;
  expect(proof.advance(1_000_000, late)).toBe(false);
  expect(looks).toBeLessThan(35);
  // Even then each portion looks at something, so that it comes to an end.
  const before = proof.view().goals.filter((goal) => goal.verdict !== "looking").length;
  for (let i = 0; i < 6000; i++) proof.advance(1, () => true);
  expect(proof.view().goals.filter((goal) => goal.verdict !== "looking").length).toBeGreaterThan(before);
});
