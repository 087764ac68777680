// What would change a job, against brute force over every value that can be typed.
import { expect, test } from "vitest";
import { type Job, readBook, sensitivityOfJob, workJob } from "../../../../engine/index.ts";
import { evaluationOf } from "../../../../engine/api/book.ts";
import { outcomesOf } from "../../../../engine/analysis/sensitivity/outcomes.ts";
import { chance } from "../../../support/chance.ts";
import { planOf } from "../support/box-law.ts";
import { type Small, smallBook } from "../support/small-book.ts";

const outcome = (job: Job): string => {
  const { frame, plan } = evaluationOf(job);
  return outcomesOf(plan)
    .map((one) => frame.num[one.place])
    .join(" ");
};

/** The nearest value to each side, or every other word, at which anything turns. */
function bruteFlips({ book, asks }: Small, answers: Record<string, string>): string[] {
  const before = workJob(book, answers);
  const now = outcome(before);
  const flips: string[] = [];
  for (const ask of asks) {
    const own = answers[ask.name];
    if (own === undefined) continue;
    const turns = (value: string) =>
      outcome(workJob(book, { ...answers, [ask.name]: value }, before)) !== now;
    if (ask.words) {
      for (const value of ask.values) if (value !== own && turns(value)) flips.push(`${ask.name} ${value}`);
      continue;
    }
    const at = ask.values.indexOf(own);
    for (const side of [ask.values.slice(0, at).reverse(), ask.values.slice(at + 1)]) {
      const found = side.find(turns);
      if (found !== undefined) flips.push(`${ask.name} ${found}`);
    }
  }
  return flips.sort();
}

const told = (job: Job): string[] =>
  sensitivityOfJob(job)
    .map((flip) => flip.changes.map((one) => `${one.ask} ${one.to}`).join(" and "))
    .sort();

test("the nearest turn to each side, exact to what can be typed, with all answers or some", () => {
  let [single, none] = [0, 0];
  for (let seed = 1; seed <= 260; seed++) {
    const by = chance(seed);
    const small = smallBook(by);
    expect(
      small.book.findings.filter((finding) => finding.weight === "error").map((finding) => finding.says),
      small.text,
    ).toEqual([]);
    const answers = Object.fromEntries(
      small.asks.flatMap((ask) => (by.odds(0.85) ? [[ask.name, by.pick(ask.values)]] : [])),
    );
    const right = bruteFlips(small, answers);
    const job = workJob(small.book, answers);
    const flips = sensitivityOfJob(job);
    if (right.length > 0) {
      single++;
      expect(told(job), `${JSON.stringify(answers)}\n${small.text}`).toEqual(right);
    } else {
      none++;
      for (const flip of flips)
        expect(flip.changes.length, `${JSON.stringify(answers)}\n${small.text}`).toBe(2);
    }
    // Each one told really turns what it says.
    for (const flip of flips) {
      const changed = workJob(small.book, {
        ...answers,
        ...Object.fromEntries(flip.changes.map((one) => [one.ask, one.to])),
      });
      expect(outcome(changed), JSON.stringify(flip)).not.toBe(outcome(job));
      expect(flip.turns.length).toBeGreaterThan(0);
    }
  }
  expect(single).toBeGreaterThan(100);
  expect(none).toBeGreaterThan(3);
}, 60_000);

test("two answers together, where no single one turns anything: the smallest change", () => {
  const book = readBook(
    "ask long in mm, 0 to 40\n    measured to 1 mm\nask wide in mm, 0 to 40\n" +
      '    measured to 1 mm\nstop big "Too big" when long > 20 mm and wide > 10 mm',
  );
  expect(planOf(book).stops).toHaveLength(1);
  const flips = sensitivityOfJob(workJob(book, { long: "12 mm", wide: "4 mm" }));
  expect(flips.map((flip) => flip.changes)).toEqual([
    [
      { ask: "long", now: "12 mm", to: "21 mm" },
      { ask: "wide", now: "4 mm", to: "11 mm" },
    ],
  ]);
  expect(flips[0]!.turns).toEqual(["stop big holds"]);
  expect(sensitivityOfJob(workJob(book, { long: "25 mm", wide: "4 mm" })).map((flip) => flip.says)).toEqual([
    "stop big holds when wide is 11 mm: it is 4 mm now.",
  ]);
});

test("the smallest pair against brute force", () => {
  let pairs = 0;
  for (let seed = 1; seed <= 60; seed++) {
    const by = chance(seed);
    const [a, b] = [by.whole(18) + 1, by.whole(18) + 1];
    const text =
      "ask long in mm, 0 to 20\n    measured to 1 mm\nask wide in mm, 0 to 20\n" +
      `    measured to 1 mm\ncaution both "Both" when (long ${by.pick([">", ">="])} ` +
      `${a} mm and wide ${by.pick(["<", "<="])} ${b} mm) or (long < 3 mm and wide > ` +
      "17 mm)";
    const book = readBook(text);
    const answers = { long: `${by.whole(21)} mm`, wide: `${by.whole(21)} mm` };
    const job = workJob(book, answers);
    const flips = sensitivityOfJob(job);
    if (flips.length !== 1 || flips[0]!.changes.length !== 2) continue;
    pairs++;
    const size = (x: number, y: number) =>
      Math.abs(x - Number.parseFloat(answers.long)) + Math.abs(y - Number.parseFloat(answers.wide));
    let best = Infinity;
    for (let x = 0; x <= 20; x++)
      for (let y = 0; y <= 20; y++)
        if (outcome(workJob(book, { long: `${x} mm`, wide: `${y} mm` })) !== outcome(job))
          best = Math.min(best, size(x, y));
    const [one, two] = ["long", "wide"].map((name) =>
      Number.parseFloat(flips[0]!.changes.find((each) => each.ask === name)!.to),
    );
    expect(size(one!, two!), text).toBe(best);
  }
  expect(pairs).toBeGreaterThan(3);
});

test("a wide range with many answers still open", () => {
  const book = readBook(
    "ask long in mm, 0 to 100000\n    measured to 0.1 mm\n" +
      "ask wide in mm, 0 to 100000\n    measured to 0.1 mm\nask wet of yes-no\n" +
      'figure room in mm = wide * 2\nstop far "Far" when long * 1.7 > 91 m\n' +
      'stop big "Big" when room > 20 m\n' +
      'caution mind "Mind" when wet or long + room > 300 m',
  );
  expect(
    sensitivityOfJob(workJob(book, { long: "5 mm" })).map((flip) => [flip.changes[0]!.to, flip.turns]),
  ).toEqual([["53529.5 mm", ["stop far holds"]]]);
});

test.each([
  [
    "1/8 inch",
    'ask long in inch, 0 to 3\n    measured to 1/8 inch\nstop far "Far" when long > 1 inch',
    { long: "1/2 inch" },
    "1 1/8 inch",
  ],
  [
    "tenths of a degree",
    'ask air in °C, -10 to 40\n    measured to 0.1 °C apart\nstop cold "Cold" when air < 15 °C',
    { air: "18.3 °C" },
    "14.9 °C",
  ],
  [
    "in the unit of the ask, typed in another",
    'ask air in °C, -10 to 40\n    measured to 1 °C apart\nstop cold "Cold" when air < 15 °C',
    { air: "68 °F" },
    "14 °C",
  ],
  [
    "percent",
    'ask damp in %, 5 to 100\n    measured to 1 %\nstop wet "Wet" when damp > 80 %',
    { damp: "55 %" },
    "81 %",
  ],
  ["a count", 'ask plies in count, 1 to 30\nstop many "Many" when plies >= 12', { plies: "5" }, "12"],
  [
    "an end that rounds up",
    "ask long in mm, 0 to 400\n    measured to 1 mm\n" +
      'stop wide "Wide" when (long * 2 rounded up to 50 mm) > 300 mm',
    { long: "142 mm" },
    "151 mm",
  ],
  [
    "an answer between two typed values",
    'ask long in mm, 0 to 400\n    measured to 1 mm\nstop wide "Wide" when long >= 143 mm',
    { long: "142.6 mm" },
    "143 mm",
  ],
  [
    "far off, at the very end",
    'ask long in mm, 0 to 100000\n    measured to 0.1 mm\nstop wide "Wide" when long >= 100 m',
    { long: "5 mm" },
    "100000 mm",
  ],
] as const)("exact to the resolution: %s", (_what, text, answers, to) => {
  const book = readBook(text);
  const [ask] = Object.keys(answers);
  const found = sensitivityOfJob(workJob(book, answers as Record<string, string>))
    .flatMap((flip) => flip.changes)
    .map((one) => one.to);
  // However it is written, it is that amount.
  const frame = (typed: string) =>
    evaluationOf(workJob(book, { [ask!]: typed })).frame.num[planOf(book).registers.byName.get(ask!)!]!;
  expect(found).toHaveLength(1);
  expect(frame(found[0]!)).toBeCloseTo(frame(to), 9);
});
