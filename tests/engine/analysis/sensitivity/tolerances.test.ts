// Tolerances: the spans on the card hold every value that the true answers can give, and a decision that is
// flagged really turns inside them.
import { expect, test } from "vitest";
import { toleranceEffectsOf, readBook, workJob } from "../../../../engine/index.ts";
import { evaluationOf } from "../../../../engine/api/book.ts";
import type { Plan } from "../../../../engine/program/plan/plan.ts";
import { type Chance, chance } from "../../../support/chance.ts";
import { planOf } from "../support/box-law.ts";
import { type Asked, smallBook } from "../support/small-book.ts";

/** The lines, and the chart of methods, that differ between two jobs. */
const changedIn = (plan: Plan, before: Float64Array, after: Float64Array): readonly string[] => {
  const method = plan.registers.byName.get("method")!;
  const lines = [...plan.stops, ...plan.steps, ...plan.cautions].filter(
    ({ when }) => when >= 0 && after[when] !== before[when],
  );
  return [...lines.map(({ id }) => id), ...(after[method] !== before[method] ? ["chart method"] : [])];
};

/** Answers that differ from the given ones by at most the slack, in mm. */
const within = (
  asks: readonly Asked[],
  answers: Readonly<Record<string, string>>,
  slack: number,
  by: Chance,
): Readonly<Record<string, string>> =>
  Object.fromEntries(
    asks.map((ask) => {
      if (ask.words) return [ask.name, answers[ask.name]!];
      const moved =
        Number.parseFloat(answers[ask.name]!) +
        slack * by.pick([-1, 1, 0, by.next() * 2 - 1, by.next() * 2 - 1]);
      return [ask.name, `${Math.min(Number.parseFloat(ask.values.at(-1)!), Math.max(0, moved))} mm`];
    }),
  );

test("spans of tolerances hold all that is sampled, and flagged decisions turn", () => {
  const seen = { spans: 0, flagged: 0, turned: 0 };
  for (let seed = 1; seed <= 200; seed++) {
    const by = chance(seed);
    const { book, asks, text } = smallBook(by);
    const plan = planOf(book);
    const slack = by.pick([0.5, 1, 2]);
    const answers = Object.fromEntries(asks.map((ask) => [ask.name, by.pick(ask.values)]));
    const loose = Object.fromEntries(
      asks.map((ask) => [ask.name, ask.words ? answers[ask.name]! : `${answers[ask.name]} ± ${slack} mm`]),
    );
    const doubt = toleranceEffectsOf(workJob(book, loose))!;
    expect(doubt, text).toBeDefined();
    const ends = new Map(
      Object.entries(doubt.spans).map(([name, says]) => [
        name,
        says.split(" to ").map((end) => Number.parseFloat(end)),
      ]),
    );
    seen.spans += ends.size;
    const turned = new Set<string>();
    const before = evaluationOf(workJob(book, answers)).frame.num.slice();
    let job = workJob(book, answers);
    for (let n = 0; n < 120; n++) {
      const sample = within(asks, answers, slack, by);
      job = workJob(book, sample, job);
      const { frame } = evaluationOf(job);
      for (const [name, [low, high]] of ends) {
        const value = frame.num[plan.registers.byName.get(name)!]! * 1000;
        // Written to four digits.
        const room = Math.max(Math.abs(low!), Math.abs(high!)) * 1e-3;
        expect(
          value >= low! - room && value <= high! + room,
          `${name} is ${value} mm, told as ${doubt.spans[name]} in\n${text}`,
        ).toBe(true);
      }
      // A value without a span is one number.
      for (const block of plan.blocks)
        if (
          block.entry.statement?.body.keyword === "figure" &&
          block.values.length === 1 &&
          !ends.has(block.entry.statement.name!.text)
        ) {
          const at = block.values[0]!.register;
          expect(Math.abs(frame.num[at]! - before[at]!), `${block.id} in\n${text}`).toBeLessThan(1e-12);
        }
      for (const id of changedIn(plan, before, frame.num)) turned.add(id);
    }
    seen.flagged += doubt.open.length;
    seen.turned += turned.size;
    for (const id of turned)
      expect(
        doubt.open.map((one) => one.id),
        `${JSON.stringify(loose)} in\n${text}`,
      ).toContain(id);
    if (turned.size === 0 && doubt.open.length === 0) expect(doubt.measureAgain).toBeUndefined();
  }
  expect(seen.spans).toBeGreaterThan(200);
  // Nearly all that is flagged was seen to turn.
  expect(seen.turned).toBeGreaterThan(60);
  expect(seen.flagged - seen.turned).toBeLessThan(seen.flagged * 0.2);
}, 60_000);

test("the measurement to take again is the one whose narrowing settles most", () => {
  const book = readBook(
    "ask long in mm, 0 to 600\nask thick in mm, 1 to 12\n" +
      'stop wide "Wide" when long >= 150 mm\ncaution thin "Thin" when thick < 2 mm\n' +
      'caution long "Long" when long > 149 mm',
  );
  const doubt = toleranceEffectsOf(workJob(book, { long: "149 mm ± 3 mm", thick: "6 mm ± 0.2 mm" }))!;
  expect(doubt.measureAgain).toBe("long");
  expect(doubt.open.map((one) => one.id).sort()).toEqual(["caution long", "stop wide"]);
  expect(doubt.spans["long"]).toBe("146 mm to 152 mm");
  expect(toleranceEffectsOf(workJob(book, { long: "100 mm", thick: "6 mm" }))).toBeUndefined();
  expect(toleranceEffectsOf(workJob(book, { long: "100 mm ± 3 mm", thick: "6 mm" }))!.open).toEqual([]);
});
