// A layer held against the book underneath, and two editions of a layer against each other: what is told by
// rule, and that each effect is laid at the own statement that has it, made alone. The books are invented.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { compareRules, readBook, showJob, compareBooks, workJob } from "../../../../engine/index.ts";
import type { Book } from "../../../../engine/index.ts";

const BASE = `book house, edition 1
    "An invented house"
ask depth in mm, 0 to 20
    "How deep?"
ask length in mm, 0 to 500
    "How long?"
dial slope = 1:10, from 1:8 to 1:15
    "Slope of the bevel"
    from practice
figure width in mm = depth run out at slope
chart pause by length gives min
    length           | pause
    under 100 mm     | 10
    100 mm and over  | 20
    from practice
part "Work"
step grind "Grind {width} all round"
    waits pause
step polish "Polish it"
caution dust "Wear a mask"
stop deep "Too deep" when depth > 15 mm
`;
const HEAD = 'book yard, edition 1, amends house, edition 1\n    "An invented yard"\n';
const DIAL = "instead dial slope = 1:12\n    from practice\n";
const FIGURE = "instead figure width = as-before + 5 mm when length > 200 mm\n";
const ROW = "chart pause add\n    100 mm and over | 30\n";
const DROP = "drop step polish\n";
const STEP = 'part "Work"\nstep rinse "Rinse it" after grind\n    takes 5 min\n';
const LAYER = [HEAD, DIAL, FIGURE, ROW, DROP, STEP].join("");

const done = (before: Book, after: Book) => {
  const weighing = compareBooks(before, after, { spread: 40 });
  while (!weighing.advance(20));
  return weighing.view();
};
const base = readBook(BASE);
const layer = (text: string, under = BASE) => readBook(text, undefined, [under]);

test("a layer against its base book is told by its own statements, and the rest is kept", () => {
  expect(layer(LAYER).findings.filter((one) => one.weight === "error")).toEqual([]);
  const changes = compareRules(base, layer(LAYER));
  expect(changes.map((one) => [one.id, one.does]).sort()).toEqual([
    ["chart pause", "changed"],
    ["dial slope", "changed"],
    ["figure width", "changed"],
    ["step polish", "dropped"],
    ["step rinse", "added"],
  ]);
  expect(changes.find((one) => one.id === "dial slope")!.details).toEqual(["1:10 becomes 1:12"]);
  expect(changes.find((one) => one.id === "chart pause")!.details).toContain(
    "row 100 mm and over: 20 becomes 30",
  );
  expect(
    compareRules(layer(LAYER), base)
      .map((one) => one.id)
      .sort(),
  ).toEqual(changes.map((one) => one.id).sort());
});

test("each own statement alone has its effect, and every difference has its cause", () => {
  const view = done(base, layer(LAYER));
  expect(view.groups.map(({ changes }) => changes.map((one) => one.id).join()).sort()).toEqual([
    "chart pause",
    "dial slope",
    "figure width",
    "step polish",
    "step rinse",
  ]);
  expect(
    view.groups.every((group) => group.jobs > 0),
    JSON.stringify(view.groups),
  ).toBe(true);
  for (const job of view.moved)
    for (const output of job.outputs) {
      expect(output.by, `${job.name}: ${output.name}`).not.toEqual([]);
      if (output.together) continue;
      // The same by hand: the layer with this one statement.
      const byHand: Readonly<Record<string, string>> = {
        "dial slope": DIAL,
        "figure width": FIGURE,
        "chart pause": ROW,
        "step polish": DROP,
        "step rinse": STEP,
      };
      for (const g of output.by) {
        const alone = showJob(workJob(layer(HEAD + byHand[view.groups[g]!.changes[0]!.id]!), job.answers));
        const plain = showJob(workJob(base, job.answers));
        expect(JSON.stringify(alone), `${output.name} by ${g}`).not.toBe(JSON.stringify(plain));
      }
    }
});

test("two editions of a layer are told apart by what they say; rows added twice go together", () => {
  const later =
    LAYER.replace("edition 1, amends", "edition 2, amends").replace("1:12", "1:14").replace(DROP, "") +
    "chart pause add\n    under 100 mm | 12\n";
  const view = done(layer(LAYER), layer(later));
  expect(
    view.groups
      .map(({ changes, jobs }) => [changes.map((one) => `${one.does} ${one.id}`).join(), jobs > 0])
      .sort(),
  ).toEqual([
    ["added step polish", true],
    ["changed chart pause", true],
    ["changed dial slope", true],
  ]);
  expect(view.moved.flatMap((job) => job.outputs).every((output) => output.by.length > 0)).toBe(true);
});

test("what differs in the book underneath is one change of its own", () => {
  const newer = BASE.replace("edition 1", "edition 2")
    .replace("depth > 15 mm", "depth > 12 mm")
    .replace("| 10", "| 15");
  const only = [HEAD, DIAL].join("");
  const view = done(
    layer(only),
    layer(only.replace("house, edition 1", "house, edition 2").replace("1:12", "1:13"), newer),
  );
  expect(view.groups.map(({ changes }) => changes.map((one) => one.id))).toEqual([
    ["dial slope"],
    ["chart pause", "stop deep"],
  ]);
  expect(view.groups.every((group) => group.jobs > 0)).toBe(true);
});

test("a layer against itself, and its head alone against the book underneath, differ in nothing", () => {
  expect(compareRules(layer(LAYER), layer(LAYER))).toEqual([]);
  const head = done(base, layer(HEAD));
  expect([head.groups, head.moved]).toEqual([[], []]);
});

test("the shipped sample layer: every own rule moves a job, and nothing moves uncaused", () => {
  const read = (name: string) =>
    readFileSync(new URL(`../../../../rulesets/${name}.bevel`, import.meta.url), "utf8");
  const panels = read("road-panels");
  const view = done(readBook(panels), readBook(read("harbour-yard"), undefined, [panels]));
  for (const { changes, jobs } of view.groups)
    if (!changes.every((one) => one.wordsOnly || one.id.startsWith("worked ")))
      expect(jobs, changes.map((one) => one.id).join()).toBeGreaterThan(0);
  expect(view.moved.flatMap((job) => job.outputs.filter((output) => output.by.length === 0))).toEqual([]);
}, 60_000);

test("a layer on a layer: each own statement moves its own jobs and no others", () => {
  const yard = layer(LAYER);
  const part =
    'book part, edition 1, amends yard, edition 1\n    "An invented part"\n' +
    "instead figure width = as-before + 1 mm when length > 400 mm\n" +
    'instead step rinse "Rinse it twice" when length > 450 mm\n    takes 9 min\n';
  const view = done(yard, readBook(part, undefined, [LAYER, BASE]));
  expect(view.groups.map(({ changes }) => changes.map((one) => one.id).join()).sort()).toEqual([
    "figure width",
    "step rinse",
  ]);
  expect(
    view.groups.every((group) => group.jobs > 0),
    JSON.stringify(view.groups),
  ).toBe(true);
  const over = (least: number) =>
    view.moved.filter(({ answers }) => Number.parseFloat(answers["length"] ?? "0") > least).length;
  // All that moved are longer than the shorter of the two limits: elsewhere the lines underneath say what
  // they said.
  expect(over(400)).toBe(view.moved.length);
  for (const job of view.moved) for (const output of job.outputs) expect(output.name).not.toContain("@");
});
