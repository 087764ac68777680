// Tolerances: the spans on the card hold every value that the true answers can give, and a decision that is
// flagged really turns inside them.
import { expect, test } from "vitest";
import { readBook, showJob, workJob } from "../../../../engine/index.ts";
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
    const doubt = showJob(workJob(book, loose)).doubts!;
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
  const job = showJob(workJob(book, { long: "149 mm ± 3 mm", thick: "6 mm ± 0.2 mm" }));
  const doubt = job.doubts!;
  expect(doubt.measureAgain).toBe("long");
  expect(doubt.open.map((one) => one.id).sort()).toEqual(["caution long", "stop wide"]);
  expect(doubt.spans["long"]).toBe("146 mm to 152 mm");
  expect(showJob(workJob(book, { long: "100 mm", thick: "6 mm" })).doubts).toBeUndefined();
  expect(showJob(workJob(book, { long: "100 mm ± 3 mm", thick: "6 mm" })).doubts!.open).toEqual([]);
});

const CHIP = `kind repair
    fill  "Fill"
    patch "Patch"
ask across in inch, 0 to 20
    "Damage at its widest"
ask near in mm, 0 to 500
figure method = fill if across < 3 inch, otherwise patch
step fill "Fill it" when method is fill
step patch "Patch it {across} wide" when method is patch
caution edge "Mind the edge" when near < 20 mm
worked loose "The tolerance reaches the limit"
    with across 2 15/16 inch ± 1/16 inch
    gives waiting
`;
const shown = (answers: Readonly<Record<string, string>>) => showJob(workJob(readBook(CHIP), answers));

test("a decision that turns within a tolerance holds the card back until it is measured again", () => {
  const loose = shown({ across: "2 15/16 inch ± 1/16 inch", near: "100 mm" });
  expect([loose.state, loose.steps, loose.waiting]).toEqual(["waiting", [], ["across"]]);
  // It says where it turns, and by how much the answer keeps away from there.
  expect(loose.doubts!.turnsAt).toEqual({ value: "3 inch", away: "1/16 inch" });
  const sharp = shown({ across: "2 15/16 inch ± 1/32 inch", near: "100 mm" });
  expect([sharp.state, sharp.steps.map((line) => line.text)]).toEqual(["ready", ["Fill it"]]);
  expect(shown({ across: "2 15/16 inch", near: "100 mm" }).state).toBe("ready");
  // A worked example holds to the same rule.
  expect(readBook(CHIP).worked.map((one) => one.passes)).toEqual([true]);
});

test("what is not answered at all comes before what has to be measured again", () => {
  const book = readBook(`${CHIP}ask wet of yes-no\nstop wet "Wet" when wet`);
  const job = (wet: Readonly<Record<string, string>>) =>
    showJob(workJob(book, { across: "2 15/16 inch ± 1/16 inch", near: "100 mm", ...wet }));
  expect([job({}).state, job({}).waiting]).toEqual(["waiting", ["wet"]]);
  expect(job({ wet: "no" }).waiting).toEqual(["across"]);
  // A stop that holds is a stop, whatever the tolerance leaves open.
  expect(job({ wet: "yes" }).state).toBe("stopped");
});

test("a caution that turns within a tolerance may apply, and holds nothing back", () => {
  const job = shown({ across: "1 inch", near: "21 mm ± 2 mm" });
  expect(job.state).toBe("ready");
  expect(job.cautions.map((line) => [line.text, line.mayApply])).toEqual([["Mind the edge", ["near"]]]);
  expect(job.doubts!.turnsAt).toEqual({ value: "20 mm", away: "1 mm" });
});
