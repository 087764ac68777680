// Holes and overlaps of random charts against brute force on a grid that holds every end and what lies beside
// it.
import { expect, test } from "vitest";
import { type Domain, type Part, type Side, allows, overlap, stretch } from "../../../../core/box.ts";
import { findHole } from "../../../../core/find-hole.ts";
import { applyEdits } from "../../../../core/span.ts";
import { type Book, chartOf, readBook, showJob, workJob } from "../../../../engine/index.ts";
import { type Chance, chance } from "../../../support/chance.ts";
import {
  type RandomChart,
  answer,
  combinations,
  fits,
  gridOf,
  randomChart,
  rowsAt,
} from "../support/random-chart.ts";

const codes = (book: Book) =>
  book.findings.filter((finding) => finding.weight === "error").map((finding) => finding.code);
/** Counts are whole: what lies beside an end is no count. */
const wholeCounts = (chart: RandomChart) =>
  chart.conditions.some((one) => one.words === undefined && one.unit === "");
const withoutCounts = (by: Chance, options?: Parameters<typeof randomChart>[1]): RandomChart => {
  for (;;) {
    const made = randomChart(by, options);
    if (!wholeCounts(made)) return made;
  }
};

/** A witness in the book's own words, asked of the book itself: whether a job lies in it. */
function inWitness(chart: RandomChart, witness: string): Book {
  const names = chart.conditions.map((one) => one.name);
  const parts: string[] = [];
  for (const piece of witness.split(", ")) {
    if (names.some((name) => piece.startsWith(`${name} `))) parts.push(piece);
    else parts[parts.length - 1] += `, ${piece}`;
  }
  const rule =
    witness === "any job"
      ? "yes"
      : parts
          .map((part) => {
            const [name, ...rest] = part.split(" ");
            const text = rest.join(" ");
            const of = chart.conditions.find((one) => one.name === name)!;
            return (
              `${name} is ` + (of.words === undefined ? text : of.words[0] === "no" ? text : `one of ${text}`)
            );
          })
          .join(" and ");
  const book = readBook(`${chart.text}\nfigure inside of yes-no = ${rule}`);
  expect(
    book.findings
      .filter((finding) => finding.weight === "error" && !finding.code.startsWith("chart/"))
      .map((finding) => finding.says),
    rule,
  ).toEqual([]);
  return book;
}

const work = (book: Book, chart: RandomChart, job: readonly number[]) =>
  showJob(
    workJob(book, Object.fromEntries(chart.conditions.map((one, c) => [one.name, answer(one, job[c]!)]))),
  ).values;

test("a chart has a hole or overlap exactly where brute force finds one; witnesses are real", () => {
  const counts = { hole: 0, overlap: 0, clean: 0 };
  for (let seed = 1; seed <= 420; seed++) {
    const by = chance(seed);
    const chart = withoutCounts(by);
    const book = readBook(chart.text);
    const found = codes(book);
    const grid = gridOf(chart);
    let [hole, clash] = [false, false];
    const jobs = [...combinations(grid)];
    const some =
      jobs.length > 30_000 ? jobs.filter((_, i) => i % Math.ceil(jobs.length / 30_000) === 0) : jobs;
    for (const job of some) {
      const rows = rowsAt(chart, job);
      if (rows.length === 0) hole = true;
      if (rows.length > 1) clash = true;
    }
    if (some.length === jobs.length)
      expect([found.includes("chart/hole"), found.includes("chart/overlap")], chart.text).toEqual([
        hole,
        clash,
      ]);
    else {
      if (hole) expect(found, chart.text).toContain("chart/hole");
      if (clash) expect(found, chart.text).toContain("chart/overlap");
    }
    counts[hole ? "hole" : clash ? "overlap" : "clean"]++;
    if (seed % 3 !== 0) continue;
    const view = chartOf(book, "chosen")!;
    for (const { witness } of view.holes.slice(0, 2)) {
      const asking = inWitness(chart, witness);
      const spread = (all: readonly (readonly number[])[], most: number) =>
        all.filter((_, i) => i % Math.max(1, Math.ceil(all.length / most)) === 0);
      const [none, with_] = [
        jobs.filter((job) => rowsAt(chart, job).length === 0),
        spread(
          jobs.filter((job) => rowsAt(chart, job).length > 0),
          120,
        ),
      ];
      let inside = 0;
      for (const job of [...spread(none, 1500), ...with_]) {
        const values = work(asking, chart, job);
        if (values.find((value) => value.name === "inside")!.value !== true) continue;
        inside++;
        const chosen = values.find((value) => value.name === "chosen")!;
        expect([chosen.state, chosen.reason], `${witness} at ${job.join(", ")} in\n${chart.text}`).toEqual([
          "impossible",
          "no row of chosen fits",
        ]);
        if (inside > 60) break;
      }
      expect(inside, `${witness} in\n${chart.text}`).toBeGreaterThan(0);
    }
    for (const { rows, witness } of view.clashes.slice(0, 3)) {
      const asking = inWitness(chart, witness);
      const inside = jobs
        .filter((job) => rows.every((r) => chart.rows[r]!.every((cell, c) => fits(cell, job[c]!))))
        .slice(0, 200)
        .filter((job) => work(asking, chart, job).find((value) => value.name === "inside")!.value === true);
      expect(inside.length, `rows ${rows.join(" and ")}, ${witness} in\n${chart.text}`).toBeGreaterThan(0);
    }
  }
  // The charts are no monoculture.
  for (const count of Object.values(counts)) expect(count).toBeGreaterThan(30);
}, 120_000);

test("filling the first hole again and again ends with a chart that has none", () => {
  for (let seed = 1; seed <= 150; seed++) {
    const by = chance(9000 + seed);
    const chart = withoutCounts(by, { conditions: 1 + by.whole(3) });
    let text = chart.text;
    let turns = 0;
    for (; turns < 80; turns++) {
      const book = readBook(text);
      const [hole] = chartOf(book, "chosen")!.holes;
      if (hole === undefined) {
        expect(codes(book), text).not.toContain("chart/hole");
        break;
      }
      expect(hole.repair).toBeDefined();
      const before = text.length;
      text = applyEdits(text, hole.repair!.edits).replace(/\|[ ]*(?=\n|$)/, "| 99");
      expect(text.length, "the repair adds a row").toBeGreaterThan(before);
      expect(
        codes(readBook(text)).filter((code) => code !== "chart/hole" && code !== "chart/overlap"),
        text,
      ).toEqual([]);
    }
    expect(turns, chart.text).toBeLessThan(80);
    // What was filled in lies over no row.
    if (!codes(readBook(chart.text)).includes("chart/overlap"))
      expect(codes(readBook(text)), text).toEqual([]);
  }
}, 60_000);

// ───────────── touching bands ─────────────

const touching = (a: string, b: string) =>
  codes(
    readBook(
      `ask length in mm, 0 to 100\n    "?"\nchart chosen by length gives number\n` +
        `    length | chosen\n    ${a} | 1\n    ${b} | 2\n    from practice`,
    ),
  );

test.each([
  ["under 25 mm", "25 mm and over", []],
  ["up to 25 mm", "over 25 mm", []],
  ["up to 25 mm", "25 mm and over", ["chart/overlap"]],
  ["under 25 mm", "over 25 mm", ["chart/hole"]],
  ["0 mm to under 25 mm", "25 mm to 100 mm", []],
  ["0 mm to under 25 mm", "25 mm to under 100 mm", ["chart/hole"]],
  ["over 0 mm to under 25 mm", "25 mm to 100 mm", ["chart/hole"]],
  ["under 3.175 mm", "1/8 inch and over", []],
  ["up to 1/8 inch", "over 3.175 mm", []],
  ["up to 3.175 mm", "1/8 inch and over", ["chart/overlap"]],
  ["under 1/8 inch", "over 3.175 mm", ["chart/hole"]],
  ["under 25 mm", "25.000001 mm and over", ["chart/hole"]],
  ["under 25.000001 mm", "25 mm and over", ["chart/overlap"]],
] as const)("%s and %s", (a, b, wanted) => expect(touching(a, b)).toEqual(wanted));

// ───────────── large charts ─────────────

/** Rows that fill the whole space and lie apart: one box cut in two again and again. */
function cutUp(by: Chance, conditions: number, count: number): number[][][] {
  const boxes = [Array.from({ length: conditions }, () => [0, 1000])];
  while (boxes.length < count) {
    const box = by.pick(boxes);
    const c = by.whole(conditions);
    const [low, high] = box[c]! as [number, number];
    if (high - low < 2) continue;
    const at = low + 1 + by.whole(high - low - 1);
    boxes.push(box.map((side, i) => (i === c ? [at, high] : [...side])));
    box[c] = [low, at];
  }
  return boxes;
}

const sidesOf = (boxes: readonly number[][][]): Side[][] =>
  boxes.map((box) =>
    box.map(([low, high]) => ({ is: "line", stretches: [stretch(low!, true, high!, high === 1000)] })),
  );
const spaceOf = (conditions: number): Domain[] =>
  Array.from({ length: conditions }, () => ({ is: "line", low: 0, high: 1000 }));

test.each([
  [2, 60],
  [8, 60],
  [3, 400],
  [8, 2000],
])(
  "%i conditions and %i rows that fill the space: none, and each of some rows taken out is found",
  (conditions, count) => {
    const by = chance(conditions * count);
    const boxes = cutUp(by, conditions, count);
    const [sides, space] = [sidesOf(boxes), spaceOf(conditions)];
    expect(findHole(space, sides).is).toBe("none");
    for (let n = 0; n < 4; n++) {
      const out = by.whole(count);
      const found = findHole(
        space,
        sides.filter((_, r) => r !== out),
      );
      expect(found.is).toBe("found");
      if (found.is !== "found") continue;
      // The witness is the whole row, and nothing else.
      found.what.forEach((part, c) => {
        const [low, high] = boxes[out]![c]!;
        expect(part.is === "any" ? [0, 1000] : part.is === "line" ? [part.low, part.high] : []).toEqual([
          low,
          high,
        ]);
      });
    }
    const widened = by.whole(count);
    const c = boxes[widened]!.findIndex(([low]) => low! > 0);
    const wider = boxes.map((box, r) =>
      box.map((side, i) => (r === widened && i === c ? [side[0]! - 1, side[1]!] : side)),
    );
    const now = sidesOf(wider);
    expect(now.some((row, r) => r !== widened && overlap(space, row, now[widened]!) !== undefined)).toBe(
      true,
    );
  },
);

test("the walk and the count agree: random rows, apart or not", () => {
  const point = (part: Part, domain: Domain): number =>
    part.is === "words"
      ? part.words[0]!
      : part.is === "any"
        ? domain.is === "words"
          ? 0
          : domain.low
        : part.lowIn
          ? part.low
          : part.highIn
            ? part.high
            : (part.low + part.high) / 2;
  for (let seed = 1; seed <= 1500; seed++) {
    const by = chance(seed);
    const chart = withoutCounts(by);
    const space: Domain[] = chart.conditions.map((one) =>
      one.words === undefined
        ? { is: "line", low: one.low, high: one.high }
        : { is: "words", count: one.words.length },
    );
    const sides = chart.rows.map((row) =>
      row.map(
        (cell): Side =>
          cell === "any"
            ? "any"
            : Array.isArray(cell)
              ? { is: "words", words: new Set(cell as number[]) }
              : {
                  is: "line",
                  stretches: [
                    stretch(
                      (cell as { low: number }).low,
                      (cell as { lowIn: boolean }).lowIn,
                      (cell as { high: number }).high,
                      (cell as { highIn: boolean }).highIn,
                    ),
                  ],
                },
      ),
    );
    const found = findHole(space, sides);
    // A row of its own that lies over the others takes the count away, and changes nothing.
    const walked = sides.length === 0 ? found : findHole(space, [...sides, sides[0]!]);
    expect(walked.is, chart.text).toBe(found.is);
    for (const one of [found, walked])
      if (one.is === "found") {
        const job = one.what.map((part, c) => point(part, space[c]!));
        expect(
          sides.some((row) => row.every((side, c) => allows(side, job[c]!))),
          chart.text,
        ).toBe(false);
      }
  }
}, 60_000);
