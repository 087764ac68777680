// What is made to be hard: each ends within its time, with a finding, a verdict or "not settled", and never
// with a wrong "proved".
import { expect, test } from "vitest";
import {
  chartOf,
  mutationTestOf,
  readBook,
  showJob,
  verificationOf,
  relevantQuestionsOf,
  sensitivityOfJob,
  workJob,
} from "../../../../engine/index.ts";
import { chance } from "../../../support/chance.ts";
import { brokenBy, standing } from "../support/standing.ts";

function within<T>(most: number, run: () => T): T {
  const started = process.cpuUsage();
  const out = run();
  const { user, system } = process.cpuUsage(started);
  expect((user + system) / 1000, "milliseconds of the processor").toBeLessThan(most);
  return out;
}

const asks = (count: number, high: number) =>
  Array.from({ length: count }, (_, i) => `ask c${i} in mm, 0 to ${high}`).join("\n");
const names = (count: number) => Array.from({ length: count }, (_, i) => `c${i}`);
const chart = (count: number, rows: readonly string[], options = "") =>
  `${asks(count, 1000)}\nchart picked by ${names(count).join(", ")} gives ` +
  `number\n${options}    ${names(count).join(" | ")} | picked\n` +
  `${rows.map((row) => `    ${row}`).join("\n")}\n    from practice\n` +
  `step do "Do {picked}"`;
const codes = (text: string, most: number) =>
  [
    ...new Set(
      within(most, () => readBook(text))
        .findings.filter((finding) => finding.weight !== "note")
        .map((finding) => finding.code),
    ),
  ].sort();

test("20 conditions, rows at random: holes and overlaps are found", () => {
  const by = chance(1);
  const rows = Array.from({ length: 40 }, (_, r) =>
    [
      ...names(20).map(() => {
        const a = by.whole(900);
        return by.odds(0.5) ? "any" : `${a} to under ${a + 50 + by.whole(1000 - a)} mm`;
      }),
      String(r),
    ].join(" | "),
  );
  expect(codes(chart(20, rows), 4000)).toContain("chart/hole");
});

test("20 conditions, each row cutting the space in halves another way: nothing wrong is said", () => {
  // Row i: below the middle in condition i, above it in all before. Together with the last they fill
  // everything.
  const rows = Array.from({ length: 20 }, (_, r) =>
    [
      ...names(20).map((_, c) => (c < r ? "500 mm and over" : c === r ? "under 500 mm" : "any")),
      String(r),
    ].join(" | "),
  );
  const last = [...names(20).map(() => "500 mm and over"), "20"].join(" | ");
  expect(codes(chart(20, [...rows, last]), 3000)).toEqual([]);
  expect(codes(chart(20, rows), 3000)).toEqual(["chart/hole"]);
  const text = chart(20, [...rows, last]);
  expect(
    within(20_000, () => standing(readBook(text), 20_000)).goals.filter((goal) => goal.verdict === "broken"),
  ).toEqual([]);
});

test("20 conditions, first row wins, a hard hole: never called proved when there is one", () => {
  const by = chance(5);
  const rows = Array.from({ length: 120 }, (_, r) =>
    [
      ...names(20).map(() => (by.odds(0.15) ? (by.odds(0.5) ? "under 500 mm" : "500 mm and over") : "any")),
      String(r),
    ].join(" | "),
  );
  const text = chart(20, rows, "    first row wins\n");
  const book = within(8000, () => readBook(text));
  const found = book.findings.some((finding) => finding.code === "chart/hole");
  if (!found) {
    const goals = within(60_000, () => standing(book, 14_000)).goals.filter(
      (goal) => goal.sort === "chart" || goal.sort === "numbers",
    );
    // Tried at random: is there a job without a row?
    let holes = 0;
    for (let n = 0; n < 3000 && holes === 0; n++)
      if (
        showJob(
          workJob(
            book,
            Object.fromEntries(names(20).map((name) => [name, by.odds(0.5) ? "100 mm" : "700 mm"])),
          ),
        ).state === "impossible"
      )
        holes++;
    if (holes > 0) for (const goal of goals) expect(goal.verdict).not.toBe("proved");
  }
});

test("5,000 rows", () => {
  const rows = Array.from({ length: 5000 }, (_, r) => `${r / 5} to under ${(r + 1) / 5} mm | ${r}`);
  expect(codes(chart(1, [...rows, "1000 mm | 9"]), 4000)).toEqual([]);
  expect(codes(chart(1, rows), 4000)).toEqual(["chart/hole"]);
  expect(codes(chart(1, [...rows.slice(0, 2000), ...rows.slice(2001), "1000 mm | 9"]), 4000)).toEqual([
    "chart/hole",
  ]);
  const book = readBook(chart(1, [...rows, "1000 mm | 9"]));
  expect(within(20_000, () => verificationOf(book).advance(40))).toBe(false);
  const job = workJob(book, { c0: "500.05 mm" });
  expect(within(3000, () => sensitivityOfJob(job))).toEqual([]);
  expect(within(3000, () => relevantQuestionsOf(workJob(book, {}))).ask).toEqual(["c0"]);
});

test("5,000 rows over two conditions, and one row of them lost", () => {
  const rows = Array.from(
    { length: 5000 },
    (_, r) =>
      `${(r % 50) * 20} to ${r % 50 === 49 ? "" : "under "}${(r % 50) * 20 + 20} mm ` +
      `| ${Math.floor(r / 50) * 10} to ${r >= 4950 ? "" : "under "}` +
      `${Math.floor(r / 50) * 10 + 10} mm | ${r}`,
  );
  expect(codes(chart(2, rows), 6000)).toEqual([]);
  const lost = within(6000, () =>
    readBook(
      chart(
        2,
        rows.filter((_, r) => r !== 2718),
      ),
    ),
  );
  expect(
    lost.findings.filter((finding) => finding.weight === "error").map((finding) => finding.witness),
  ).toEqual(["c0 360 mm to under 380 mm, c1 540 mm to under 550 mm"]);
  expect(chartOf(lost, "picked")!.holes).toHaveLength(1);
});

test.each([
  ["an end below the other", "10 mm to 3 mm"],
  ["under and over one end", "over 3 mm to under 3 mm"],
  ["nothing at all", "over 1/8 inch to under 3.175 mm"],
])("a band upside down: %s", (_what, band) => {
  expect(codes(chart(1, [`${band} | 1`, "any | 2"]), 1000)).toContain("band/upside-down");
});

test.each([
  [
    "a quotient that may be nought by nought",
    "(n - 3) * (n - 4) / ((n - 3) * (n - 4)) is 1 or n is 3 or n is 4",
  ],
  ["roots of differences", "sqrt(n * n - 6 * n + 9) >= n - 3"],
  ["a root of a root of a root", "sqrt(sqrt(sqrt(n + 1) + 1) + 1) <= n + 3"],
  ["waves upon waves", "sin(sin(sin(n * 100) * 100) * 100) <= 0.99999999"],
  ["a power of a power", "((n ^ 3) ^ 3) ^ 3 >= n ^ 27"],
  ["a tower of exponents", "exp(exp(n)) >= exp(n)"],
  ["a tangent over its poles", "tan(n * 50) < 100000"],
  ["a long chain", `${Array.from({ length: 200 }, (_, i) => `n * ${i % 7} `).join("+ ")} >= n`],
])("a promise over %s ends", (_what, rule) => {
  const book = readBook(
    "ask x in mm, 0 to 10\nask y in mm, 1 to 10\nfigure n = x / 1 mm\n" +
      `figure m = y / x\npromise ${rule}\nstep do "Do {m}"`,
  );
  expect(
    book.findings.filter((finding) => finding.weight === "error").map((finding) => finding.says),
  ).toEqual([]);
  const view = within(30_000, () => standing(book, 40_000));
  expect(view.done).toBe(true);
  const [goal] = view.goals;
  if (goal!.verdict === "broken") expect(brokenBy(book, goal!.job!, goal!.id)).toBe(true);
});

test("nesting: figures upon figures that each rest twice on the one before", () => {
  const text =
    "ask x in mm, 0 to 10\nfigure f0 = x / 1 mm\n" +
    Array.from({ length: 60 }, (_, i) => `figure f${i + 1} = f${i} / 2 + f${i} / (2 + f${i} * 0)`).join(
      "\n",
    ) +
    "\npromise f60 <= 10.1\npromise f60 > f59 - 1";
  const view = within(30_000, () => standing(readBook(text), 30_000));
  expect(view.done).toBe(true);
  for (const goal of view.goals) expect(goal.verdict).not.toBe("broken");
});

test("a list of 10,000 rows, and one that may have as many", () => {
  const text =
    "ask most in count, 1 to 10000\nlist rows for n from 1 to most\n" +
    "    a in mm = n * 1 mm\nfigure whole in mm = sum of rows.a\n" +
    "promise whole <= 51 km\npromise whole >= 1 mm";
  const view = within(60_000, () => standing(readBook(text), 30_000));
  expect(view.done).toBe(true);
  expect(view.goals.map((goal) => goal.verdict)).not.toContain("broken");
});

test("an ask of very many words, and one whose range is a single number", () => {
  const words = Array.from({ length: 60 }, (_, i) => `word-${i}`);
  const text =
    `kind big\n${words.map((word) => `    ${word} "W"`).join("\n")}\n` +
    "ask which of big\nask one in mm, 5 to 5\npromise which is not word-47\n" +
    `promise one is 5 mm\npromise which is one of ${words.join(", ")}`;
  const book = readBook(text);
  const view = within(20_000, () => standing(book, 40_000));
  const [first, second, third] = view.goals;
  expect(first!.verdict).toBe("broken");
  expect(first!.job).toEqual({ which: "word-47" });
  expect(second!.verdict).toBe("proved");
  expect(["proved", "not settled"]).toContain(third!.verdict);
});

test("books that are no books have nothing to prove and nothing to guard", () => {
  for (const text of [
    "",
    "promise",
    "promise x",
    "chart",
    "ask x in mm, 10 to 1\npromise x > 5 mm",
    "figure a = b\nfigure b = a\npromise a > 1",
    'step "{x}" when y\npromise 1 / 0 > 1',
  ]) {
    const book = readBook(text);
    const view = within(5000, () => standing(book, 5000));
    expect(view.done, text).toBe(true);
    expect(
      view.goals.filter((goal) => goal.sort === "promise" && goal.verdict === "proved"),
      text,
    ).toEqual([]);
    expect(mutationTestOf(book).advance(100)).toBe(true);
  }
});
