// What one proof learns and another uses: what no job that is let through can do, what a dial has no part in,
// and what is shared out so that no share is too large. Verdicts worked out by hand, or as from nothing.
import { expect, test } from "vitest";
import { type Book, readBook, verificationOf } from "../../../../engine/index.ts";
import { goalsOf } from "../../../../engine/analysis/verify/goal.ts";
import { Lemmas } from "../../../../engine/analysis/verify/lemmas.ts";
import { internalsOf } from "../../../../engine/api/book.ts";
import { brokenBy, promises, sound, standing } from "../support/standing.ts";

const SHARED = `book shared, edition 1
    "Resin shared over cups"
ask area in m2, 0.01 to 4
    "Area"
ask thickness in mm, 1 to 20
    "Thickness"
ask air in °C, 5 to 40
    "Air"
dial largest-cup in g = 500 g, from 100 g to 900 g
    "Largest cup"
    from practice
chart pace by air gives min
    straight between rows, nothing outside
    air   | pace
    10 °C | 30
    35 °C | 8
    from practice
stop cold "Too cold or too hot" when air < 10 °C or air > 35 °C
figure usable in g = smallest(largest-cup, 20 g/min * pace rounded down to 5 g)
figure batch in g = area * thickness * 0.9 g/mL * (1 + thickness / 40 mm) rounded up to 10 g
figure lots = area * thickness / (2 m2 * 1 mm) rounded up to whole
figure cups = largest(1, batch / usable rounded up to whole, lots)
figure cup in g = batch / cups rounded up to 5 g
step mix "Mix {cups} cups of {cup}"
    from practice
`;

test.each([
  ["cup <= largest-cup or stopped", "proved"],
  ["cup <= usable or stopped", "proved"],
  ["cup <= usable - 5 g or stopped", "broken"],
  ["cup >= 15 g or stopped", "broken"],
] as const)("shared over cups: %s is %s", (rule, verdict) => {
  const book = sound(`${SHARED}promise ${rule}\n`);
  const [promise] = promises(book);
  expect(promise!.verdict, JSON.stringify(promise)).toBe(verdict);
  if (verdict === "broken") expect(brokenBy(book, promise!.job!, promise!.id)).toBe(true);
});

test("where a cup is not rounded, one a little over the largest is found", () => {
  const book = sound(
    `${SHARED.replace("batch / usable rounded up", "batch / usable rounded down")}promise cup <= 500 g\n`,
  );
  expect(promises(book)[0]!.verdict).toBe("broken");
});

const GUARDED = `book guarded, edition 1
    "A root of less than nought, and a stop in its place"
ask rows in count, 0 to 40
    "Rows"
ask posts in count, 0 to 40
    "Posts"
stop soaked "Not this one" when rows is 17 and posts is 23
figure under-root = -1 if rows is 17 and posts is 23, otherwise 1
figure pace in min = 20 min * sqrt(under-root)
figure wait in min = pace + 5 min
figure told in min = pace if pace is known, otherwise 90 min
step lay "Lay it within {wait}"
    from practice
`;

test("what no job that is let through does is known to every promise about such jobs", () => {
  const book = sound(`${GUARDED}promise wait <= 25 min\npromise wait <= 20 min\n`);
  expect(promises(book).map((one) => [one.verdict, one.job])).toEqual([
    ["proved", undefined],
    ["broken", expect.objectContaining({ rows: expect.any(String) })],
  ]);
  expect(standing(book).goals.every((goal) => goal.sort === "promise" || goal.verdict === "proved")).toBe(
    true,
  );
});

test("a job that is stopped can still break a promise by a value that it has for want of another", () => {
  const [kept, broken] = promises(sound(`${GUARDED}promise told <= 90 min\npromise told <= 80 min\n`));
  expect(kept!.verdict).toBe("proved");
  expect(broken, JSON.stringify(broken)).toMatchObject({ verdict: "broken" });
});

test("what is asked for by is known is not taken for known", () => {
  const known = (text: string) => {
    const { plan } = internalsOf(sound(`${text}promise wait <= 25 min\n`));
    const lemmas = new Lemmas(plan, goalsOf(plan));
    while (!lemmas.advance(100, () => false));
    return lemmas.known.includes(1);
  };
  expect(known(GUARDED.replace(/figure told.*\n/, ""))).toBe(true);
  expect(known(GUARDED.replace("= pace + 5 min", "= told + 5 min"))).toBe(false);
});

test("without the stop what rests on the root is broken", () => {
  const book = sound(`${GUARDED.replace(/stop soaked.*\n/, "")}promise wait <= 25 min\n`);
  expect(promises(book)[0]!.verdict).toBe("broken");
});

const TURNED = `${SHARED}dial coldest = 10 °C, from 5 °C to 15 °C
    "Coldest air"
    from practice
stop colder "Colder than the house allows" when air < coldest
ask x in mm, 0 to 10
    "x"
ask y in mm, 0 to 10
    "y"
promise x * y <= (x + y) * (x + y) / 4 + 2 mm2 or stopped
promise x * (10 mm - x) <= largest-cup * 0.06 mm2/g
promise cup <= largest-cup or stopped
promise usable >= 150 g or stopped
promise batch >= 10 g
promise cups <= 20 or stopped
`;

const told = (book: Book) => ({
  goals: standing(book).goals.map((goal) => [goal.id, goal.says, goal.verdict]),
  never: standing(book).never.map((one) => one.says),
});

/** How many portions of one box a standing takes, given the one before. */
function portions(book: Book, before?: ReturnType<typeof verificationOf>): [number, typeof before] {
  const run = verificationOf(book, before);
  let count = 0;
  while (!run.advance(1)) count++;
  return [count, run];
}

test("dials turned one after the other give the verdicts that the book has from nothing", () => {
  let text = TURNED;
  let book = sound(text);
  let [, run] = portions(book);
  for (const [from, to] of [
    ["= 10 °C, from", "= 12 °C, from"],
    ["largest-cup in g = 500 g", "largest-cup in g = 140 g"],
    ["= 12 °C, from", "= 6 °C, from"],
    ["largest-cup in g = 140 g", "largest-cup in g = 800 g"],
    ["largest-cup in g = 800 g", "largest-cup in g = 500 g"],
  ] as const) {
    expect(text).toContain(from);
    text = text.replace(from, to);
    book = readBook(text, book);
    [, run] = portions(book, run);
    const { goals, never } = run!.view();
    expect({
      goals: goals.map((goal) => [goal.id, goal.says, goal.verdict]),
      never: never.map((one) => one.says),
    }).toEqual(told(readBook(text)));
  }
});

test("after a dial is turned, what does not rest on it is not looked at again", () => {
  const book = sound(TURNED);
  const [first, before] = portions(book);
  const turned = readBook(TURNED.replace("= 10 °C, from", "= 11 °C, from"), book);
  const [again] = portions(turned, before);
  const [fresh] = portions(readBook(turned.text));
  expect([first, again, fresh], `${first} ${again} ${fresh}`).toSatisfy(
    ([, after, whole]) => after! < whole! / 2,
  );
});
