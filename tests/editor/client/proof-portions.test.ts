// The long proofs in portions: progress, stopping, the newest text, and what an edit cannot have touched is
// not proved again.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { proofs } from "../../../editor/client/engine/proof-portions.ts";
import type { ProofWord } from "../../../editor/client/engine/proof-messages.ts";

const book = (limit: string, other: string) =>
  `ask size in mm, 0 to 100\n    "s"\nask room in mm, 0 to 400\n    "r"\n` +
  "figure width in mm = 3 * size rounded up to 5 mm\n" +
  `figure half in mm = room / ${other}\nstop tight "Too tight"\n` +
  `    when width > room\nstep do "Do it, {width}"\n` +
  `promise width <= ${limit} or stopped\npromise half <= 200 mm\n` +
  `worked one "One"\n    with size 10 mm, room 100 mm\n    gives width 30 mm\n`;

/**
 * A worker whose portions are run by hand. A clock that stands still lets a portion last until all is done;
 * one that leaps cuts it after each step.
 */
function byHand(leap: number) {
  const words: ProofWord[] = [];
  const due: (() => void)[] = [];
  let time = 0;
  const hear = proofs(
    (word) => words.push(word),
    (act) => due.push(act),
    () => (time += leap),
  );
  const run = (portions = Infinity): void => {
    for (let n = 0; n < portions && due.length > 0; n += 1) due.shift()!();
  };
  return { words, hear, run, due };
}

test("to the end: the last word is that nothing runs and all is settled", () => {
  const { words, hear, run } = byHand(1);
  const text = book("300 mm", "2");
  hear({ does: "prove", what: "standing", text });
  run();
  const last = words.at(-1)!;
  expect(last).toMatchObject({ is: "standing", text, running: false, view: { done: true } });
  expect(
    last.is === "standing" &&
      last.view.goals.filter((goal) => goal.sort === "promise").map((goal) => goal.verdict),
  ).toEqual(["proved", "proved"]);
});

test("stopped in the middle it works no more; asked again it goes on where it was", () => {
  const { words, hear, run, due } = byHand(1000);
  const text = book("300 mm", "2");
  hear({ does: "prove", what: "standing", text });
  run(1);
  hear({ does: "stop" });
  expect(words.at(-1)).toMatchObject({ running: false });
  const told = words.length;
  run();
  expect(words.length).toBe(told);
  expect(due).toHaveLength(0);
  hear({ does: "prove", what: "standing", text });
  run();
  expect(words.at(-1)).toMatchObject({ running: false, view: { done: true } });
});

test("a newer text replaces the older one in mid-proof; a broken promise comes with its job", () => {
  const { words, hear, run } = byHand(1000);
  hear({ does: "prove", what: "standing", text: book("300 mm", "2") });
  run(1);
  const newer = book("250 mm", "2");
  hear({ does: "prove", what: "standing", text: newer });
  run();
  const last = words.at(-1)!;
  expect(last.text).toBe(newer);
  const broken = last.is === "standing" ? last.view.goals.filter((goal) => goal.verdict === "broken") : [];
  expect(broken.map((goal) => goal.says)).toEqual(["width <= 250 mm or stopped"]);
  // 3 * 84 is 252, rounded up to 255: every size from 83.4 mm breaks it, where there is room.
  expect(Number.parseFloat(broken[0]!.job!["size"]!)).toBeGreaterThan(83.3);
});

test("the guard tries change by change, and a new example would notice what none notices", () => {
  const { words, hear, run } = byHand(1);
  hear({ does: "prove", what: "guard", text: book("300 mm", "2") });
  run();
  const last = words.at(-1)!;
  expect(last).toMatchObject({ is: "guard", running: false, view: { done: true } });
  if (last.is !== "guard") return;
  expect(last.view.tried).toBe(last.view.all);
  expect(last.view.unnoticed.length).toBeGreaterThan(0);
  expect(last.view.noticed + last.view.unnoticed.length).toBe(last.view.tried);
});

test("after an edit only what it can have touched is proved again", () => {
  const { hear, due } = byHand(1000);
  const steps = (text: string): number => {
    hear({ does: "prove", what: "standing", text });
    let count = 0;
    for (; due.length > 0; count += 1) due.shift()!();
    return count;
  };
  const shipped = readFileSync(new URL("../../../rulesets/road-panels.bevel", import.meta.url), "utf8");
  const whole = steps(shipped);
  // Only the promise itself reads otherwise.
  const edited = shipped.replace("promise flex-taper >= house-taper", "promise house-taper <= flex-taper");
  expect(edited).not.toBe(shipped);
  expect(steps(edited)).toBeLessThan(whole / 2);
}, 240_000);
