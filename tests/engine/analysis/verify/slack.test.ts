// A comparison forgives a relative 1e-9, a rounding a tenth of it. What passes a comparison by its slack may
// be rounded to the next step all the same. Verdicts are worked out by hand and by working the job.
import { expect, test } from "vitest";
import { showJob, workJob } from "../../../../engine/index.ts";
import { brokenBy, promises, sound } from "../support/standing.ts";

const book = (share: string, rule: string) =>
  sound(`book slack, edition 1
    "Slack"
ask x in mm, 1 to 100
    "x"
figure a in mm = x * ${share}
figure b in mm = a rounded up to 5 mm
figure c in mm = a rounded down to 5 mm
step cut "Cut {b} {c}"
    from practice
promise ${rule}
`);

test("slack: what passes by slack is not carried through a rounding", () => {
  const over = book("1.0000000005", "b <= 100 mm");
  const [promise] = promises(over);
  expect(brokenBy(over, { x: "100 mm" }, promise!.id)).toBe(true);
  expect(promise).toMatchObject({ verdict: "broken", job: { x: "100 mm" } });
});

test.each([
  ["1", "b <= 100 mm"],
  ["1", "b < x + 5.0001 mm"],
  ["0.5", "b <= 50 mm"],
  // Within the slack of the rounding itself.
  ["1.00000000001", "b <= 100 mm"],
  ["1.0000000005", "a <= 100 mm"],
  ["1", "c >= 0 mm"],
])("slack: with %s, %s is proved", (share, rule) => {
  expect(promises(book(share, rule))[0]!.verdict).toBe("proved");
});

test("slack: an answer that is past the range by slack counts as its end", () => {
  const view = showJob(workJob(book("1", "b <= 100 mm"), { x: "100.00000005 mm" }));
  expect(view.values.find((value) => value.name === "b")!.text).toBe("100 mm");
  expect(view.broken).toEqual([]);
});

test("slack: a quotient of two rounded numbers is never just beside a whole number", () => {
  const cups = (batch: string, most: string) =>
    promises(
      sound(`book cups, edition 1
    "Cups"
ask resin in g, 1 to 4000
    "Resin"
ask pace in g, 50 to 2000
    "What one cup may hold"
figure batch in g = ${batch}
figure usable in g = smallest(500 g, pace rounded down to 5 g)
figure cups = largest(1, batch / usable rounded up to whole)
figure cup in g = batch / cups rounded up to 5 g
step pour "Pour {cup}"
    from practice
promise cup <= ${most}
`),
    )[0]!;
  expect(cups("resin rounded up to 10 g", "500 g").verdict).toBe("proved");
  expect(cups("resin rounded up to 10 g", "495 g").verdict).toBe("broken");
});

test("slack: a batch that is not rounded can pass one rounding and not the next", () => {
  const cups = sound(`book batch, edition 1
    "Batch"
ask batch in g, 10 to 8000
    "Batch"
figure cups = batch / 200 g rounded up to whole
figure each in g = batch / cups rounded up to 10 g
step pour "Pour {each}"
    from practice
promise each <= 200 g
`);
  const [promise] = promises(cups);
  // Found by trying the doubles around each whole number of cups.
  expect(brokenBy(cups, { batch: "5000.0000005 g" }, promise!.id)).toBe(true);
  expect(promise!.verdict).not.toBe("proved");
});
