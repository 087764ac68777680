// What still matters, against brute force: an ask called needless changes no card, and one that can change it
// is asked.
import { expect, test } from "vitest";
import { type Book, readBook, showJob, relevantQuestionsOf, workJob } from "../../../../engine/index.ts";
import { chance } from "../../../support/chance.ts";
import { combinations } from "../support/random-chart.ts";
import { smallBook } from "../support/small-book.ts";

/** All that a technician reads on the card. */
const card = (book: Book, answers: Readonly<Record<string, string>>): string => {
  const view = showJob(workJob(book, answers));
  const lines = (of: typeof view.steps) =>
    of.map((line) => `${line.id} ${line.text} ${line.takes ?? ""} ${line.waits ?? ""}`).join("; ");
  return view.state === "stopped"
    ? "stopped"
    : `${view.state}: ${lines(view.steps)} / ${lines(view.cautions)}`;
};

test("needless asks change nothing; asks that can change the card are asked", () => {
  const seen = { needless: 0, asked: 0 };
  for (let seed = 1; seed <= 150; seed++) {
    const by = chance(seed);
    const { book, asks, text } = smallBook(by);
    const answers = Object.fromEntries(
      asks.flatMap((ask) => (by.odds(0.5) ? [[ask.name, by.pick(ask.values)]] : [])),
    );
    const open = asks.filter((ask) => !(ask.name in answers));
    const { ask: order, needless } = relevantQuestionsOf(workJob(book, answers));
    expect([...order, ...needless].sort(), text).toEqual(open.map((one) => one.name).sort());
    // Every way to answer the others: is the card ever another when one answer is changed?
    const some = (one: (typeof open)[number]) =>
      one.values.length <= 12
        ? one.values
        : one.values.filter(
            (_, i) => i % Math.ceil(one.values.length / 10) === 0 || i === one.values.length - 1,
          );
    const changing = new Set<string>();
    for (const one of open) {
      const rest = open.filter((other) => other !== one);
      let turns = 0;
      for (const at of combinations(rest.map((other) => some(other).map((_, i) => i)))) {
        const given = {
          ...answers,
          ...Object.fromEntries(rest.map((other, i) => [other.name, some(other)[at[i]!]!])),
        };
        const cards = new Set(
          (one.values.length <= 12 ? one.values : some(one)).map((value) =>
            card(book, { ...given, [one.name]: value }),
          ),
        );
        if (cards.size > 1) {
          changing.add(one.name);
          break;
        }
        if (++turns > 150) break;
      }
    }
    for (const name of needless) {
      seen.needless++;
      expect(
        changing.has(name),
        `${name} is called needless, with ${JSON.stringify(answers)} in\n${text}`,
      ).toBe(false);
    }
    for (const name of changing) {
      seen.asked++;
      expect(order, `${JSON.stringify(answers)} in\n${text}`).toContain(name);
    }
  }
  expect(seen.needless).toBeGreaterThan(15);
  expect(seen.asked).toBeGreaterThan(60);
}, 60_000);

test("what settles most is asked first, and what a settled condition leaves out is not asked", () => {
  const book = readBook(
    "ask carries of yes-no\nask long in mm, 0 to 100\nask thick in mm, 1 to 12\n" +
      "ask colour of yes-no\nfigure wide in mm = thick * 12 if long > 50 mm, " +
      'otherwise 10 mm\nstop load "Not this book" when carries\n' +
      'step bevel "Bevel {wide}"\nfigure unused = 1 if colour, otherwise 2',
  );
  expect(book.findings.filter((finding) => finding.weight === "error")).toEqual([]);
  const first = relevantQuestionsOf(workJob(book, {}));
  expect(first.ask[0]).toBe("carries");
  expect(first.needless).toEqual(["colour"]);
  expect(relevantQuestionsOf(workJob(book, { carries: "yes" })).ask).toEqual([]);
  expect(relevantQuestionsOf(workJob(book, { carries: "no", long: "20 mm" }))).toEqual({
    ask: [],
    needless: ["thick", "colour"],
  });
  expect(relevantQuestionsOf(workJob(book, { carries: "no", long: "70 mm" })).ask).toEqual(["thick"]);
});
