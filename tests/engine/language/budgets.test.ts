// What is too large has a finding of its own, or a value that is impossible and says why; either comes
// quickly.
import { expect, test } from "vitest";
import { readBook, showJob, tidy, why, workJob } from "../../../engine/index.ts";
import { spent } from "../../support/cpu.ts";

/**
 * Runs within `most` milliseconds of work; the first time, when nothing is warm, does not count against it.
 */
function quickly<T>(run: () => T, most = 1000): T {
  let out!: T;
  let least = Infinity;
  for (let i = 0; i < 2 && least > most; i++) {
    const done = spent(run);
    out = done.out;
    least = Math.min(least, done.milliseconds);
  }
  expect(least, "milliseconds").toBeLessThan(most);
  return out;
}

/** So many lines of a book, one or several for each number from 0. */
const lines = (count: number, line: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => `${line(i)}\n`).join("");

const codes = (text: string) => [
  ...new Set(quickly(() => readBook(text)).findings.map((finding) => finding.code)),
];
const value = (text: string, name: string, answers: Record<string, string> = {}) => {
  const shown = quickly(() => showJob(workJob(readBook(text), answers))).values.find(
    (one) => one.name === name,
  )!;
  return `${shown.state}: ${shown.text}`;
};

test("more than 2 MiB of text", () =>
  expect(codes(`figure a = 1\n-- ${"x".repeat(2 * 1024 * 1024)}`)).toEqual(["budget/size"]));
test("just 2 MiB of text is read", () =>
  expect(codes(`-- ${"x".repeat(2 * 1024 * 1024 - 16)}\nfigure a = 1`)).toEqual([]));
test("letters of several bytes count as such", () => {
  expect(codes(`figure a = 1\n-- ${"é".repeat(1024 * 1024)}`)).toEqual(["budget/size"]);
  expect(codes(`-- ${"é".repeat(1024 * 1024 - 16)}\nfigure a = 1`)).toEqual([]);
});
test("more than 50,000 lines", () => expect(codes("\n".repeat(50_000))).toEqual(["budget/lines"]));
test("just 50,000 lines are read", () => expect(codes("\n".repeat(49_999))).toEqual([]));

test.each([
  ["brackets", (n: number) => `figure a = ${"(".repeat(n)}1${")".repeat(n)}`],
  ["minuses", (n: number) => `figure a = ${"- ".repeat(n)}b`],
  ["nots", (n: number) => `figure a = ${"not ".repeat(n)}b`],
  ["calls", (n: number) => `figure a = ${"abs(".repeat(n)}1${")".repeat(n)}`],
  ["powers", (n: number) => `figure a = ${"1 ^ ".repeat(n)}1`],
  ["alternatives", (n: number) => `figure a = ${"(1 if ".repeat(n)}yes${", otherwise 2)".repeat(n)}`],
])("200 %s deep are read, 201 are not", (_what, make) => {
  expect(codes(make(200))).not.toContain("budget/nesting");
  expect(codes(make(201))).toEqual(["budget/nesting"]);
  expect(codes(make(20_000))).toEqual(["budget/nesting"]);
});

test.each([
  ["+", "1 + "],
  ["*", "1 * "],
  ["and", "yes and "],
  ["or", "no or "],
])("a chain of 1,000 %s is worked, a longer one is refused", (_op, link) => {
  const make = (n: number) => `figure a = ${link.repeat(n)}${link.trim().startsWith("1") ? "1" : "yes"}`;
  expect(codes(make(1000))).toEqual([]);
  expect(value(make(1000), "a")).toMatch(/^known/);
  quickly(() => tidy(make(1000)));
  quickly(() => why(workJob(readBook(make(1000)), {}), "a", "full"));
  expect(codes(make(1001))).toEqual(["budget/nesting"]);
  expect(codes(make(100_000))).toEqual(["budget/nesting"]);
});

test("1,000 alternatives", () => {
  const make = (n: number) => `ask d in mm, 0 to 10\nfigure a = ${"1 if d is 2 mm, ".repeat(n)}otherwise 3`;
  expect(codes(make(999))).toEqual([]);
  expect(value(make(999), "a", { d: "3 mm" })).toBe("known: 3");
  expect(codes(make(1001))).toEqual(["budget/nesting"]);
});

test("a list of 10,001 rows that is written out has a finding, one that comes about has no value", () => {
  expect(codes("list l for n from 1 to 10000\n    a in mm = n * 1 mm")).toEqual([]);
  expect(codes("list l for n from 1 to 10001\n    a in mm = n * 1 mm")).toEqual(["budget/list"]);
  const asked =
    "ask most in count, 1 to 100000000\nlist l for n from 1 to most\n    a in mm = n * 1 mm\n" +
    "figure total = sum of l.a";
  expect(value(asked, "total", { most: "10000" })).toBe("known: 50005000 mm");
  expect(value(asked, "total", { most: "10001" })).toBe(
    "impossible: l would have 10001 rows; a list has at most 10000",
  );
  expect(value(asked, "l", { most: "100000000" })).toBe(
    "impossible: l would have 100000000 rows; a list has at most 10000",
  );
});

test("formulas within formulas do not grow without end", () => {
  const text = [
    "formula f0(x) = x + x",
    ...Array.from({ length: 40 }, (_, i) => `formula f${i + 1}(x) = f${i}(x) + f${i}(x)`),
    "figure big = f40(1)",
  ].join("\n");
  expect(codes(text)).toEqual(["budget/formulas"]);
  expect(value(text, "big")).toMatch(/^impossible/);
});

test("figures that each use the one above twice are worked once each", () => {
  const text = [
    "figure f0 = 1",
    ...Array.from({ length: 60 }, (_, i) => `figure f${i + 1} = f${i} + f${i}`),
  ].join("\n");
  expect(value(text, "f60")).toBe("known: 1153000000000000000");
  expect(quickly(() => why(workJob(readBook(text), {}), "f60", "full"))!.steps).toHaveLength(61);
});

test("lists that go through lists come to an end", () => {
  const columns = "    a = n * 2\n    b = a * 2\n    c = b * 2\n    d = c * 2\n    e = d * 2";
  const lists = lines(100, (i) => `list l${i + 1} for n from 1 to 10000\n${columns}`);
  const text = `list l0 for n from 1 to 10000\n    a = n\n${lists}figure last = sum of l100.e`;
  expect(value(text, "last")).toBe("impossible: this job asks for more work than is done for one job");
});

test("numbers beyond all measure", () => {
  expect(value("figure a = 1e160 * 1e160", "a")).toBe("impossible: it grows too large");
  expect(value("ask d in mm, 0 to 10\nfigure a = exp(1000 * (d / 1 mm))", "a", { d: "1 mm" })).toBe(
    "impossible: it grows too large",
  );
  expect(value("figure a = 0 - 1\nfigure b = 1 / (a + 1)", "b")).toBe("impossible: it divides by zero");
});

test.each([
  [
    "unknown names, each with others near it",
    () => Array.from({ length: 5000 }, (_, i) => `figure name-${i} = nome-${i} + 1`).join("\n"),
  ],
  ["one name set 5,000 times", () => "figure same = 1\n".repeat(5000)],
  [
    "kinds that share a word",
    () =>
      Array.from({ length: 3000 }, (_, i) => `kind kind-${i}\n    rough "r"\n    own-${i} "o"`).join("\n"),
  ],
  [
    "kinds of very many words",
    () => `kind big\n${lines(20_000, (i) => `    word-${i} "w"`)}ask a of big\nfigure b = a is word-19999`,
  ],
  ["asks", () => Array.from({ length: 10_000 }, (_, i) => `ask ask-${i} in mm, 0 to 10 "?"`).join("\n")],
  [
    "a chain of figures",
    () =>
      [
        "ask f0 in mm, 0 to 10",
        ...Array.from({ length: 5000 }, (_, i) => `figure f${i + 1} = f${i} + 1 mm`),
      ].join("\n"),
  ],
  [
    "a loop of 5,000 figures",
    () => Array.from({ length: 5000 }, (_, i) => `figure f${i} = f${(i + 1) % 5000} + 1 mm`).join("\n"),
  ],
  ["one line of 100,000 words", () => `figure a = ${"b ".repeat(100_000)}`],
  [
    "one name of 100,000 letters",
    () => `figure ${"a".repeat(100_000)} = 1\nfigure b = ${"a".repeat(99_999)}`,
  ],
  ["signs that no token begins with", () => `figure a = ${";".repeat(50_000)}`],
  ["quotes", () => '"'.repeat(50_001)],
  ["inserts", () => `step a "${"{b}".repeat(20_000)}"\nfigure b = 1`],
  ["open braces", () => `step a "${"{".repeat(50_001)}"`],
  [
    "a chart of 3,000 bands over one number",
    () =>
      "ask d in mm, 0 to 3000\nchart c by d gives number\n    d | c\n" +
      lines(3000, (i) => `    ${i} to under ${i + 1} mm | ${i}`) +
      "    3000 mm | 1\n    from practice",
  ],
  [
    "a chart of 3,000 rows that all overlap",
    () =>
      "ask d in mm, 0 to 3000\nchart c by d gives number\n    d | c\n" +
      lines(3000, () => "    any | 1") +
      "    from practice",
  ],
  [
    "a table of 3,000 points that 100 figures call",
    () =>
      "ask x in mm, 0 to 10\nchart c by d in mm gives mm\n    d | c\n" +
      lines(3000, (i) => `    ${i} | ${2 * i}`) +
      "    from practice\n" +
      lines(100, (i) => `figure f-${i} = c(x) + c(${i} mm)`),
  ],
  [
    "charts within charts",
    () =>
      "ask x in mm, 0 to 10\nchart a0 by d in mm gives mm\n    d | a0\n    any | 1\n    from practice\n" +
      lines(
        30,
        (i) =>
          `chart a${i + 1} by d in mm gives mm\n    d | a${i + 1}\n` +
          `    any | a${i}(d) + a${i}(d)\n    from practice`,
      ) +
      "figure f = a30(x)",
  ],
  [
    "a chart of 3,000 rows of which the first wins",
    () =>
      "ask d in mm, 0 to 3000\nask e in mm, 0 to 3000\n" +
      "chart c by d, e gives number\n    first row wins\n    d | e | c\n" +
      lines(3000, (i) => `    under ${i + 1} mm | ${i} mm and over | 1`) +
      "    any | any | 2\n    from practice",
  ],
  [
    "a chart of 5,000 points",
    () =>
      "ask d in mm, 0 to 5000\nchart c by d gives number\n    straight between rows\n    d | c\n" +
      lines(5000, (i) => `    ${i} mm | ${i}`) +
      "    5000 mm | 1\n    from practice",
  ],
  [
    "a chart over twelve numbers",
    () => {
      const names = Array.from({ length: 12 }, (_, i) => `d${i}`);
      const band = (row: number, column: number): string =>
        `${(row * 7 + column * 3) % 50} to under ${50 + ((row * 5 + column) % 40)} mm`;
      return (
        lines(names.length, (i) => `ask ${names[i]} in mm, 0 to 100`) +
        `chart c by ${names.join(", ")} gives number\n    ${[...names, "c"].join(" | ")}\n` +
        lines(40, (row) => `    ${names.map((_, column) => band(row, column)).join(" | ")} | ${row}`) +
        "    from practice"
      );
    },
  ],
])("%s are read and worked in time", (_what, make) => {
  const text = make();
  const book = quickly(() => readBook(text), 2000);
  const job = quickly(() => workJob(book, { d: "5 mm", f0: "1 mm" }));
  quickly(() => showJob(job));
  quickly(() => tidy(text), 2000);
  for (const { at } of book.findings) expect(at.end > at.start && at.end <= text.length).toBe(true);
});
