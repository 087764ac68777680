// What every book that is shipped owes its reader: no findings, examples that pass and say where they are
// from, a basis under every number that the house may tune, and no job, however odd, that makes it throw or
// release a number it does not know. A book of sums asks nothing and tells nobody to do anything: it owes all
// of that but the jobs.
import { readFileSync, readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { Answers, AskView } from "../../core/view.ts";
import {
  type Book,
  mutationTestOf,
  readBook,
  showJob,
  verificationOf,
  tidy,
  workJob,
} from "../../engine/index.ts";
import { type Chance, chance } from "../support/chance.ts";

const FOLDER = new URL("../../rulesets/", import.meta.url);
const BOOKS = readdirSync(FOLDER).filter((file) => file.endsWith(".bevel"));
const TEXTS = new Map(BOOKS.map((file) => [file, readFileSync(new URL(file, FOLDER), "utf8")]));
const JOBS = 2000;

test("there are the books", () =>
  expect(BOOKS).toEqual(
    expect.arrayContaining([
      "road-panels.bevel",
      "common-sums.bevel",
      "harbour-yard.bevel",
      "trailer-panels.bevel",
      "small-craft.bevel",
    ]),
  ));

describe.each(BOOKS)("%s", (file) => {
  const text = TEXTS.get(file)!;
  const book = readBook(
    text,
    undefined,
    [...TEXTS.values()].filter((one) => one !== text),
  );
  const layer = book.under.some((one) => one.as === "amended");
  const rows = (...keywords: readonly string[]) => book.rows.filter((row) => keywords.includes(row.keyword));
  const sums = rows("ask", "step", "caution", "stop").length === 0;

  test("has no finding worse than a note", () =>
    expect(
      book.findings.filter((one) => one.weight !== "note").map((one) => `${one.code}: ${one.says}`),
    ).toEqual([]));

  test("has at least 25 worked examples, each passes and says where it is from", () => {
    expect(book.worked.length).toBeGreaterThanOrEqual(25);
    expect(
      book.worked.flatMap((one) =>
        one.expects
          .filter((each) => !each.holds)
          .map((each) => `${one.name}: ${each.what} is ${each.got}, not ${each.wanted}`),
      ),
    ).toEqual([]);
    expect(
      rows("worked")
        .filter((row) => row.basis === undefined)
        .map((row) => row.id),
    ).toEqual([]);
    expect(new Set(book.worked.map((one) => one.title)).size, "titles speak for themselves").toBe(
      book.worked.length,
    );
  });

  if (sums)
    test("a book of sums says under every formula and constant where it is from or why", () => {
      expect(
        rows("formula", "figure")
          .filter((row) => row.basis === undefined && row.because === undefined)
          .map((row) => row.id),
      ).toEqual([]);
    });

  test("says under every dial and chart where it is from", () =>
    expect(
      rows("dial", "chart")
        .filter((row) => row.basis === undefined)
        .map((row) => row.id),
    ).toEqual([]));

  test("asks, steps, cautions and stops all say something, and no question leans on another", () => {
    expect(
      rows("ask", "step", "caution", "stop")
        .filter((row) => row.title.trim() === "")
        .map((row) => row.id),
    ).toEqual([]);
    expect(
      book.asks
        .filter((ask) => /\b(same|that spot|above|below|previous)\b/i.test(ask.question))
        .map((ask) => ask.question),
    ).toEqual([]);
  });

  test("is laid out as the tidier lays it out", () => expect(tidy(text)).toBe(text));

  test("opens by saying what is common practice, what is invented, and what comes first", () => {
    const opening = text.slice(0, text.search(/^part /m));
    expect(opening).toMatch(/common practice/);
    expect(opening).toMatch(/invented/);
    expect(opening).toMatch(/label/);
    expect(opening).toMatch(/licensed practice/);
  });

  test("keeps its promises, all proved", () => {
    const standing = verificationOf(book);
    while (!standing.advance(500));
    const view = standing.view();
    expect(view.goals.length).toBeGreaterThan(0);
    expect(view.settled).toBe(view.all);
    expect(
      view.goals.filter((goal) => goal.verdict !== "proved").map((goal) => `${goal.verdict}: ${goal.says}`),
    ).toEqual([]);
    expect(view.never.map((one) => one.says)).toEqual([]);
  }, 240_000);

  test("is guarded: its examples reach all of it and notice 98 of 100 small changes", () => {
    const guard = mutationTestOf(book);
    while (!guard.advance(50));
    const view = guard.view();
    // Of a layer only what it says itself is changed: the rest is guarded at home.
    expect(view.tried).toBeGreaterThan(layer ? 1 : sums ? 50 : 100);
    expect(view.unreached.map((one) => one.says)).toEqual([]);
    expect(
      view.noticed / view.tried,
      view.unnoticed.map((one) => one.says).join("\n"),
    ).toBeGreaterThanOrEqual(0.98);
  }, 240_000);

  if (!sums)
    test(`${JOBS} jobs by chance: none throws, and a ready one has steps whose every number is known`, () => {
      const by = chance(20);
      const states: Record<string, number> = { ready: 0, waiting: 0, stopped: 0, impossible: 0 };
      const wrong: string[] = [];
      for (let n = 0; n < JOBS; n++) {
        const answers = jobBy(by, book, n);
        const view = showJob(workJob(book, answers), by.pick(["book", "metric", "us"] as const));
        states[view.state]!++;
        const say = (what: string) => wrong.push(`${what}: ${JSON.stringify(answers)}`);
        if (view.findings.length > 0) say(view.findings[0]!.says);
        if (view.state === "ready" && view.steps.length === 0) say("ready, and no steps");
        if (view.state !== "ready" && view.steps.length > 0) say(`${view.state}, and steps`);
        for (const line of [...view.steps, ...(view.state === "ready" ? view.cautions : [])])
          for (const piece of line.pieces) {
            if (typeof piece !== "string" && piece.state !== "known") say(`${line.id}: ${piece.text}`);
          }
        for (const step of view.steps)
          if (step.minutes !== undefined && !(step.minutes.takes >= 0 && step.minutes.waits >= 0))
            say(`${step.id} takes ${step.minutes.takes}, waits ${step.minutes.waits}`);
      }
      expect(wrong.slice(0, 5)).toEqual([]);
      expect(states.ready, JSON.stringify(states)).toBeGreaterThanOrEqual(50);
      expect(states.stopped).toBeGreaterThan(0);
      expect(states.waiting).toBeGreaterThan(0);
    }, 60_000);
});

/**
 * Half of the jobs start from the answers of a worked example, so that many come out ready; the others answer
 * anything within what each ask allows, or nothing.
 */
function jobBy(by: Chance, book: Book, n: number): Answers {
  const base =
    n % 2 === 0
      ? by.pick(
          book.worked
            .slice()
            .sort((a, b) => Object.keys(b.answers).length - Object.keys(a.answers).length)
            .slice(0, 6),
        ).answers
      : {};
  const answers: Record<string, string> = { ...base };
  for (const ask of book.asks) {
    if (by.odds(n % 2 === 0 ? 0.15 : 0.9)) answers[ask.name] = answerTo(by, ask);
    else if (n % 2 === 0 && by.odds(0.02)) delete answers[ask.name];
  }
  return answers;
}

function answerTo(by: Chance, ask: AskView): string {
  if (ask.ifUnknown !== undefined && by.odds(0.1)) return "unknown";
  const { answer } = ask;
  switch (answer.is) {
    case "yes-no":
      return by.pick(["yes", "no"]);
    case "kind":
      return by.pick(answer.words).word;
    case "quantity": {
      const [low, high] = [Number.parseFloat(answer.low), Number.parseFloat(answer.high)];
      if (by.odds(0.1)) return by.pick([answer.low, answer.high]);
      // A count has no unit, and is a whole number.
      const written = Number(
        (low + by.next() * (high - low)).toFixed(
          answer.unit === "" || answer.unit === "count" ? 0 : by.whole(3),
        ),
      );
      return `${Math.min(high, Math.max(low, written))} ${answer.unit}`;
    }
  }
}
