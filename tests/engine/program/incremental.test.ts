// The law of edits: a book read after an edit, and a job worked after it, are what they would be from
// nothing.
import { expect, test } from "vitest";
import { type Book, type Job, readBook, showJob, why, workJob } from "../../../engine/index.ts";
import { type Chance, chance } from "../../support/chance.ts";
import { type RandomBook, randomAnswers, randomBook } from "../../support/random-book.ts";

/** What a book shows. */
const seen = ({ findings, rows, worked, kinds, asks, pictures, name, title }: Book) => ({
  findings,
  rows,
  worked,
  kinds,
  asks,
  pictures,
  name,
  title,
});

test("edited step by step, a book and its job are what they are from nothing", () => {
  for (let seed = 1; seed <= 60; seed++) {
    const by = chance(seed);
    const made = randomBook(by, 8);
    let statements = [...made.statements, example(made, by)];
    let answers = randomAnswers(by, made.asks);
    let book = readBook(statements.join("\n"));
    let job: Job = workJob(book, answers);
    const done: string[] = [];
    for (let i = 0; i < 12; i++) {
      const [what, next] = edited(by, statements, made);
      statements = next;
      done.push(what);
      const text = statements.join("\n");
      if (by.odds(0.4)) answers = { ...answers, ...randomAnswers(by, made.asks, 0.3) };
      if (by.odds(0.1)) answers = {};
      book = readBook(text, book);
      job = workJob(book, answers, job);
      const fresh = readBook(text);
      const freshJob = workJob(fresh, answers);
      const say = () => `seed ${seed} after\n${done.join("\n")}\n`;
      expect(seen(book), say()).toEqual(seen(fresh));
      expect(showJob(job), say()).toEqual(showJob(freshJob));
      const row = by.pick(book.rows.length > 0 ? book.rows : fresh.rows);
      if (row !== undefined) expect(why(job, row.id, "full"), say()).toEqual(why(freshJob, row.id, "full"));
    }
  }
}, 120_000);

/** A job worked again with other answers on the same book is that job from nothing. */
test("answered step by step, a job is what it is from nothing", () => {
  for (let seed = 1; seed <= 80; seed++) {
    const by = chance(seed);
    const made = randomBook(by, 10);
    const book = readBook(made.text);
    let job: Job | undefined;
    for (let i = 0; i < 8; i++) {
      const answers = by.odds(0.1)
        ? { [by.pick(made.asks).name]: "nonsense" }
        : randomAnswers(by, made.asks, by.next());
      job = workJob(book, answers, job);
      expect(showJob(job)).toEqual(showJob(workJob(book, answers)));
    }
  }
}, 120_000);

/** What a call rests on is not all in the statement that is called: an edit further down changes it too. */
test.each([
  ["a formula within a formula", "inner(x) = 2 * x", "inner(x) = 3 * x"],
  ["a row of a called chart", "2 mm and over | 5", "2 mm and over | 6"],
  ["a dial that ends a row", "dial edge = 1 mm", "dial edge = 1.5 mm"],
  ["a formula in a cell", "cell(x) = x + 1", "cell(x) = x + 2"],
  ["the time of a step", "takes 5 min", "takes 7 min"],
  ["a chart becomes a figure", "chart width by d in mm gives mm", "chart width by depth gives mm"],
  ["a step that goes", 'step two "Two"', 'caution two "Two"'],
])("edited under a call, %s: the same as from nothing", (_what, from, to) => {
  const text = `ask depth in mm, 0 to 10
formula inner(x) = 2 * x
formula outer(x) = inner(x) + 1
formula cell(x) = x + 1
dial edge = 1 mm, from 0.5 mm to 2 mm
    from practice
chart width by d in mm gives mm
    d | width
    under edge | cell(1) * 1 mm
    edge to under 2 mm | 4
    2 mm and over | 5
    from practice
figure called = outer(2)
figure wide in mm = width(depth) + width(1.2 mm) + width(0.4 mm)
list rows for n from 1 to 3
    so-far in mm = width(1.2 mm) if n is 1, otherwise so-far before + width(n * 1 mm)
figure all in mm = last of rows.so-far
step one "One {rate-of * 2}"
    takes 5 min
step two "Two"
figure rate-of = sum of steps.takes / 1 min + count of steps
`;
  expect(text).toContain(from);
  const answers = { depth: "3 mm" };
  const before = readBook(text);
  const job = workJob(before, answers);
  const after = readBook(text.replace(from, to), before);
  const fresh = readBook(text.replace(from, to));
  expect(after).toEqual(fresh);
  expect(showJob(workJob(after, answers, job))).toEqual(showJob(workJob(fresh, answers)));
  expect(showJob(workJob(after, answers, job))).not.toEqual(showJob(job));
});

function edited(by: Chance, statements: readonly string[], made: RandomBook): [string, string[]] {
  const at = by.whole(statements.length);
  const one = statements[at]!;
  const put = (text: string): string[] => statements.map((was, i) => (i === at ? text : was));
  switch (by.whole(10)) {
    case 0:
      return [`take out: ${one}`, statements.filter((_, i) => i !== at)];
    case 1:
      return [`move to the end: ${one}`, [...statements.filter((_, i) => i !== at), one]];
    case 2:
      return [`twice: ${one}`, [...statements, one]];
    case 3: {
      const number = one.replace(/\d+(?= )/g, (digits) =>
        by.odds(0.5) ? String(Number(digits) + 1) : digits,
      );
      return [`numbers: ${number}`, put(number)];
    }
    case 4: {
      const cut = one.slice(0, by.whole(one.length));
      return [`cut off: ${cut}`, put(cut || "-- gone")];
    }
    case 5: {
      const other = by.pick(randomBook(chance(by.whole(1000)), 8).statements);
      return [`another: ${other}`, put(other)];
    }
    case 6: {
      const name = /^\w+ ([\w-]+)/.exec(one)?.[1] ?? "x";
      const renamed = one.replaceAll(name, `${name}-x`);
      return [`rename: ${renamed}`, put(renamed)];
    }
    case 7: {
      const [a, b] = [by.pick(made.asks).name, by.pick(made.asks).name];
      const swapped = one.replaceAll(a, b);
      return [`${a} becomes ${b}: ${swapped}`, put(swapped)];
    }
    case 8: {
      const commented = `-- a comment\n\n${one}`;
      return [`comment above: ${one}`, put(commented)];
    }
    default: {
      const was = by.pick(made.statements);
      return [`back: ${was}`, [...statements.filter((x) => x !== was), was]];
    }
  }
}

/** A worked example that holds or fails, as it comes. */
function example(made: RandomBook, by: Chance): string {
  const given = made.asks
    .map((ask) => `${ask.name} ${by.pick(ask.answers.filter((one) => !/^[\d.-]+$/.test(one))) ?? "unknown"}`)
    .filter((one) => !one.endsWith("undefined"));
  return (
    `worked first "As it ` +
    `comes"${given.length > 0 ? `\n    with ${given.join(", ")}` : ""}\n` +
    "    gives ready"
  );
}
