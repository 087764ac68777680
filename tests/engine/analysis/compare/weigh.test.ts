// Two books weighed against each other: what is told by rule, what by effect, and that each effect is laid at
// the change that has it.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { compareRules, readBook, showJob, compareBooks, workJob } from "../../../../engine/index.ts";
import { internalsOf } from "../../../../engine/api/book.ts";
import { mutationsOf } from "../../../../engine/analysis/mutation/mutate.ts";
import { applyEdits } from "../../../../core/span.ts";
import type { Answers } from "../../../../core/view.ts";
import { chance } from "../../../support/chance.ts";
import { randomBook } from "../../../support/random-book.ts";

const BOOK = `book yard, edition 1
    "An invented yard"
kind method-word
    fill "Filler"
    lay  "Plies"
ask depth in mm, 0 to 20
    "How deep?"
    measured to 1 mm
ask length in mm, 0 to 500
    "How long?"
    measured to 1 mm
dial taper-here = 1:10, from 1:8 to 1:15
    from practice
figure width in mm = depth run out at taper-here
    because "It runs out"
chart method by length gives method-word
    length           | method
    under 100 mm     | fill
    100 mm and over  | lay
    from practice
step grind "Grind {width} all round"
    takes 20 min
step do-fill "Fill it" when method is fill
step do-lay "Lay it" when method is lay
stop deep "Too deep" when depth > 15 mm
worked six "Six"
    with depth 6 mm, length 50 mm
    gives width 60 mm, ready
`;

const weighed = (a: string, b: string, options?: Parameters<typeof compareBooks>[2]) => {
  const weighing = compareBooks(readBook(a), readBook(b), options);
  while (!weighing.advance(7));
  return weighing.view();
};

test("what is written otherwise is told by statement, in words", () => {
  const after = BOOK.replace("= 1:10", "= 1:12")
    .replace("under 100 mm     | fill", "under 120 mm     | fill")
    .replace("100 mm and over  | lay", "120 mm and over  | lay")
    .replace("It runs out", "The bevel")
    .replace('step do-lay "Lay it"', 'step do-lay "Lay the plies"')
    .replace('stop deep "Too deep" when depth > 15 mm\n', "")
    .replace("step grind", 'step wash "Wash it"\nstep grind');
  const changes = compareRules(readBook(BOOK), readBook(after));
  expect(changes.map((one) => [one.id, one.does, one.wordsOnly])).toEqual([
    ["stop deep", "dropped", false],
    ["dial taper-here", "changed", false],
    ["figure width", "changed", true],
    ["chart method", "changed", false],
    ["step wash", "added", false],
    ["step do-lay", "changed", false],
  ]);
  expect(changes.find((one) => one.id === "dial taper-here")!.says).toBe(
    "dial taper-here: 1:10, from 1:8 to 1:15 becomes 1:12, from 1:8 to 1:15",
  );
  expect(changes.find((one) => one.id === "chart method")!.details).toEqual([
    "row under 120 mm is new: fill",
    "row 120 mm and over is new: lay",
    "row under 100 mm is dropped: it gave fill",
    "row 100 mm and over is dropped: it gave lay",
  ]);
  expect(changes.find((one) => one.id === "figure width")!.details).toEqual([
    'reason "It runs out" becomes "The bevel"',
  ]);
  expect(
    compareRules(
      readBook(BOOK),
      readBook(BOOK.replaceAll(" | ", "  |  ").replace("\nstep", "\n\n-- a comment\nstep")),
    ),
  ).toEqual([]);
});

test("a step that stands elsewhere is told, and moves the order of the steps", () => {
  const after = BOOK.replace('step grind "Grind {width} all round"\n    takes 20 min\n', "").replace(
    "stop deep",
    'step grind "Grind {width} all round"\n    takes 20 min\nstop deep',
  );
  expect(compareRules(readBook(BOOK), readBook(after)).map((one) => [one.id, one.does])).toEqual([
    ["step grind", "moved"],
  ]);
  const six = weighed(BOOK, after, { spread: 0 }).moved[0]!;
  expect(six.outputs).toEqual([
    { name: "order of steps", before: "step grind step do-fill", after: "step do-fill step grind", by: [0] },
  ]);
});

test("each differing output is given the change that alone makes it differ", () => {
  const after = BOOK.replace("= 1:10", "= 1:12").replace(
    'step do-lay "Lay it"',
    'step do-lay "Lay the plies"',
  );
  const view = weighed(BOOK, after, {
    logged: [{ name: "job 7", answers: { depth: "5 mm", length: "300 mm" } }],
    spread: 0,
  });
  expect(view.groups.map((group) => [group.changes[0]!.id, group.jobs])).toEqual([
    ["dial taper-here", 2],
    ["step do-lay", 1],
  ]);
  expect(view.moved.map((job) => [job.name, job.from])).toEqual([
    ["six", "worked"],
    ["job 7", "logged"],
  ]);
  expect(view.moved[1]!.outputs).toEqual([
    { name: "width", before: "50 mm", after: "60 mm", by: [0] },
    {
      name: "step grind",
      before: "Grind 50 mm all round · 20 min",
      after: "Grind 60 mm all round · 20 min",
      by: [0],
    },
    { name: "step do-lay", before: "Lay it", after: "Lay the plies", by: [1] },
  ]);
});

test("a stop that comes or goes changes the state, and steps are not told one by one", () => {
  const view = weighed(BOOK, BOOK.replace("> 15 mm", "> 5 mm"), { spread: 0 });
  expect(view.moved[0]).toMatchObject({ stateBefore: "ready", stateAfter: "stopped" });
  expect(view.moved[0]!.outputs.map((one) => one.name)).toEqual(["state", "stop deep"]);
});

test("what only two changes together do is said to be their meeting", () => {
  const before = BOOK.replace(
    "stop deep",
    'figure a = 1 + 0 * 1\nfigure b = 1 + 0 * 1\nstop both "Both" when a * b > 3\nstop deep',
  );
  const after = before.replace("figure a = 1", "figure a = 2").replace("figure b = 1", "figure b = 2");
  const six = weighed(before, after, { spread: 0 }).moved[0]!;
  expect(six.outputs.find((one) => one.name === "stop both")).toEqual({
    name: "stop both",
    before: "does not apply",
    after: "Both",
    by: [0, 1],
    together: true,
  });
  expect(six.outputs.find((one) => one.name === "a")).toMatchObject({ by: [0] });
});

test("a new name and the rules that use it are one change", () => {
  const after = BOOK.replace(
    "figure width in mm = depth run out at taper-here",
    "dial least in mm = 70 mm\n    from practice\n" +
      "figure width in mm = largest(least, depth run out at taper-here)",
  );
  const view = weighed(BOOK, after, { spread: 0 });
  expect(view.groups.map((group) => group.changes.map((one) => one.id))).toEqual([
    ["dial least", "figure width"],
  ]);
  expect(view.moved[0]!.outputs.every((one) => one.by.join() === "0")).toBe(true);
});

test("the spread is the same each time and reaches all of the shipped book", () => {
  const text = readFileSync(new URL("../../../../rulesets/road-panels.bevel", import.meta.url), "utf8");
  const after = text.replace("dial flash-off in min = 10 min", "dial flash-off in min = 12 min");
  expect(after).not.toBe(text);
  const [one, two] = [
    weighed(text, after, { spread: 30, seed: 5 }),
    weighed(text, after, { spread: 30, seed: 5 }),
  ];
  expect(one).toEqual(two);
  expect(one.reached).toBe(one.toReach);
  expect(one.toReach).toBeGreaterThan(150);
  expect(one.counts.spread.worked).toBeGreaterThanOrEqual(30);
  const moved = one.moved.filter((job) => job.stateAfter === "ready");
  expect(moved.length).toBeGreaterThan(0);
  for (const job of moved) for (const output of job.outputs) expect(output.by).toEqual([0]);
});

test("a row that neither chance nor a given job reaches is found by proof", () => {
  const row = BOOK.replace(
    "under 100 mm     | fill",
    "under 100 mm     | fill\n    250 mm to under 250.0004 mm | fill",
  )
    .replace("100 mm and over  | lay", "100 mm to under 250 mm | lay\n    250.0004 mm and over  | lay")
    .replace("measured to 1 mm\ndial", "dial");
  const view = weighed(row, row.replace("Fill it", "Fill it well"), { spread: 5 });
  expect(view.reached).toBe(view.toReach);
});

test("law: on random books, an output given to one change differs by that change alone", () => {
  let looked = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const by = chance(seed);
    const { text, asks } = randomBook(by, 8);
    const before = readBook(text);
    const all = mutationsOf(internalsOf(before).checked);
    const chosen = [...new Set(Array.from({ length: 3 }, () => by.pick(all)))].filter(
      (one, i, list) => list.findIndex((other) => other.id === one.id) === i,
    );
    const after = readBook(
      applyEdits(
        text,
        chosen.flatMap((one) => [...one.edits]),
      ),
    );
    const errors = (book: typeof before) => book.findings.filter((one) => one.weight === "error").length;
    if (errors(after) > errors(before)) continue;
    const logged = Array.from({ length: 12 }, (_, n) => ({
      name: `job ${n}`,
      answers: Object.fromEntries(asks.map((ask) => [ask.name, by.pick(ask.answers)])) as Answers,
    }));
    const weighing = compareBooks(before, after, { logged, spread: 0 });
    while (!weighing.advance(50));
    const view = weighing.view();
    for (const job of logged) {
      const same =
        JSON.stringify(showJob(workJob(before, job.answers)).values) ===
        JSON.stringify(showJob(workJob(after, job.answers)).values);
      if (!same)
        expect(
          view.moved.some((one) => one.name === job.name) || chosen.some((one) => one.id.startsWith("dial ")),
          `seed ${seed}`,
        ).toBe(true);
    }
    for (const job of view.moved)
      for (const output of job.outputs) {
        expect(output.by.length, `seed ${seed} ${output.name}`).toBeGreaterThan(0);
        if (output.together === true) continue;
        for (const g of output.by) {
          const ids = new Set(view.groups[g]!.changes.map((one) => one.id));
          const alone = showJob(
            workJob(
              readBook(
                applyEdits(
                  text,
                  chosen.filter((one) => ids.has(one.id)).flatMap((one) => [...one.edits]),
                ),
              ),
              job.answers,
            ),
          );
          const was = showJob(workJob(before, job.answers));
          looked++;
          expect(seen(alone, output.name), `seed ${seed} ${output.name}`).not.toEqual(seen(was, output.name));
        }
      }
  }
  expect(looked).toBeGreaterThan(50);
});

/** One output of a job, whatever it is. */
function seen(view: ReturnType<typeof showJob>, name: string): unknown {
  if (name === "state") return view.state;
  if (name === "order of steps") return view.steps.map((line) => line.id);
  const value = view.values.find((one) => one.name === name);
  if (value !== undefined) return [value.text, value.state, value.value];
  return [...view.steps, ...view.stops, ...view.cautions]
    .filter((line) => line.id === name)
    .map((line) => [line.text, line.takes, line.waits]);
}
