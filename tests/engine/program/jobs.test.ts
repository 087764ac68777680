// The laws of jobs: no checked book throws on any answers, an answer more never overturns what was known, and
// the order in which the statements stand changes no value.
import { expect, test } from "vitest";
import type { JobView, Shown } from "../../../core/view.ts";
import { readBook, showJob, why, workJob } from "../../../engine/index.ts";
import { type Chance, chance } from "../../support/chance.ts";
import { randomAnswers, randomBook } from "../../support/random-book.ts";

const GARBAGE = [
  "",
  " ",
  "-",
  "6",
  "-6 mm",
  "6 kg",
  "1/0 mm",
  "1e999",
  "NaN",
  "Infinity",
  "yes",
  "unknown",
  "6 mm ± 200 mm",
  "6 mm ±",
  "1,5",
  "١٢ mm",
  "\u0000",
  "\ud800",
  "__proto__",
  "((((",
  "x".repeat(300),
  "100:28 by mass",
  "3 mm 4 kg",
  "5 ft 3 inch",
  "-300 °C",
];

test("no checked book throws on any answers, nor when asked why", () => {
  for (let seed = 1; seed <= 250; seed++) {
    const by = chance(seed);
    const made = randomBook(by, 10);
    const book = readBook(made.text);
    expect(
      book.findings.filter((finding) => finding.weight === "error"),
      made.text,
    ).toEqual([]);
    for (let i = 0; i < 4; i++) {
      const answers =
        i % 2 === 0
          ? randomAnswers(by, made.asks)
          : Object.fromEntries(
              ["constructor", ...made.asks.map((one) => one.name)].map((name) => [name, by.pick(GARBAGE)]),
            );
      const job = workJob(book, answers);
      const view = showJob(job, by.pick(["book", "metric", "us"] as const));
      expect(sound(view)).toEqual([]);
      for (const row of by.odds(0.3) ? book.rows : [by.pick(book.rows)]) {
        const trace = why(job, row.id, by.pick(["deciding", "full"] as const));
        for (const step of trace?.steps ?? [])
          for (const rest of step.rests) expect(trace!.steps[rest]).toBeDefined();
      }
    }
  }
}, 120_000);

/** What must hold of every job that is shown. */
function sound(view: JobView): string[] {
  const wrong: string[] = [];
  for (const value of view.values) {
    if (value.text === "" && value.state !== "known") wrong.push(`${value.name} says nothing`);
    if (value.state === "known" && value.value === null)
      wrong.push(`${value.name} is known and has no value`);
    if (value.state !== "known" && value.value !== null)
      wrong.push(`${value.name} is not known and has a value`);
    if (value.state === "unknown" && (value.waitsFor ?? []).length === 0)
      wrong.push(`${value.name} waits for nothing`);
    if (value.state === "impossible" && !value.reason) wrong.push(`${value.name} has no reason`);
    if (typeof value.value === "number" && !Number.isFinite(value.value))
      wrong.push(`${value.name} is ${value.value}`);
  }
  if (view.state !== "ready" && view.steps.length > 0)
    wrong.push("steps are released on a job that is not ready");
  if (view.state === "waiting" && view.waiting.length === 0) wrong.push("it waits for nothing");
  if (view.state === "ready" && view.waiting.length > 0) wrong.push("it is ready and waits");
  if ((view.state === "stopped") !== view.stops.length > 0) wrong.push("stopped, and what stops it");
  return wrong;
}

test("an answer more never changes a known value to another", () => {
  const wrong: string[] = [];
  for (let seed = 1; seed <= 400; seed++) {
    const by = chance(seed);
    const made = randomBook(by, 10);
    const book = readBook(made.text);
    // A blank for which the book takes a value counts as an answer: another one changes what rests on it.
    const takesBlank = (name: string): boolean =>
      made.statements.some((text) => text.startsWith(`ask ${name} `) && /if blank/.test(text));
    let answers: Record<string, string> = Object.fromEntries(
      made.asks.filter(({ name }) => takesBlank(name)).map((ask) => [ask.name, by.pick(ask.answers)]),
    );
    let before = showJob(workJob(book, answers)).values;
    for (const ask of shuffled(by, made.asks)) {
      if (answers[ask.name] !== undefined) continue;
      answers = { ...answers, [ask.name]: by.pick(ask.answers.filter((one) => one !== "unknown")) };
      const after = showJob(workJob(book, answers)).values;
      for (const [i, value] of before.entries())
        if (value.state !== "unknown" && !same(value, after[i]!))
          wrong.push(
            `${ask.name} ${answers[ask.name]} turns ${value.name} from ${value.text} to ` +
              `${after[i]!.text} in\n${made.text}`,
          );
      before = after;
    }
  }
  expect(wrong.sort((a, b) => a.length - b.length)[0]).toBeUndefined();
}, 120_000);

/** A value between two equal alternatives may come out of the other of them: equal within 1e-9. */
function same(a: Shown, b: Shown): boolean {
  if (a.state !== b.state) return false;
  if (typeof a.value === "number" && typeof b.value === "number")
    return Math.abs(a.value - b.value) <= 1e-9 * Math.max(Math.abs(a.value), Math.abs(b.value));
  return a.state === "impossible" || a.text === b.text;
}

test("values do not depend on the order of the statements", () => {
  for (let seed = 1; seed <= 200; seed++) {
    const by = chance(seed);
    const made = randomBook(by, 10);
    const answers = randomAnswers(by, made.asks);
    const values = (text: string) =>
      Object.fromEntries(
        showJob(workJob(readBook(text), answers)).values.map((value) => [
          value.name,
          {
            ...value,
            waitsFor: [...(value.waitsFor ?? [])].sort(),
            text: value.state === "unknown" ? "" : value.text,
          },
        ]),
      );
    const [head, ...rest] = made.statements;
    expect(values([head, ...shuffled(by, rest)].join("\n"))).toEqual(values(made.text));
  }
}, 120_000);

function shuffled<T>(by: Chance, items: readonly T[]): T[] {
  const left = [...items];
  return items.map(() => left.splice(by.whole(left.length), 1)[0]!);
}
