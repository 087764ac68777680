// Abrasive grades as charts. FEPA 43 / ISO 6344 P grades in micrometres (P12 to P120 as published coarse
// rows, P240 to P1200 as published fine medians; P150, P180, P1500 and P2000 from memory) and CAMI grades as
// two published tables give them.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { bookOf, given } from "./small-book.ts";

const P: readonly (readonly [number, number])[] = [
  [12, 1815],
  [16, 1324],
  [20, 1000],
  [24, 764],
  [30, 642],
  [36, 538],
  [40, 425],
  [50, 336],
  [60, 269],
  [80, 201],
  [100, 162],
  [120, 125],
  [150, 100],
  [180, 82],
  [220, 68],
  [240, 58.5],
  [280, 52.2],
  [320, 46.2],
  [360, 40.5],
  [400, 35],
  [500, 30.2],
  [600, 25.8],
  [800, 21.8],
  [1000, 18.3],
  [1200, 15.3],
  [1500, 12.6],
  [2000, 10.3],
  [2500, 8.4],
];
const CAMI: readonly (readonly [number, number])[] = [
  [80, 192],
  [100, 141],
  [120, 116],
  [150, 93],
  [180, 78],
  [220, 66],
  [240, 53.5],
  [280, 44],
  [320, 36],
  [360, 28.8],
  [400, 23],
  [500, 20],
  [600, 16],
];

const grades = P.map(([grade]) => `    P${grade} "Grade P${grade}"`).join("\n");
const chart = (name: string, by: string, unit: string, column: 0 | 1) => `chart ${name} by ${by} gives ${unit}
    ${by} | ${name}
${P.map((row) => `    P${row[0]} | ${row[column]}`).join("\n")}
    from standard "FEPA 43 / ISO 6344"
`;
const STEPS = bookOf(`kind grade
${grades}
ask before of grade
ask next of grade
${["before", "next"].map((side) => chart(`${side}-size`, side, "um", 1)).join("")}
${["before", "next"].map((side) => chart(`${side}-number`, side, "count", 0)).join("")}
figure in-number = next-number / before-number
figure in-size = before-size / next-size
figure in-reach = in-number <= 2
    because "Common practice, no source: the number is not more than doubled"
figure finer = next > before
`);

test("every P grade is finer than the one before", () => {
  let last = Infinity;
  for (const [grade] of P) {
    const um = given(STEPS, { before: `P${grade}` }).number("before-size");
    expect(um).toBeLessThan(last);
    last = um;
  }
  expect(given(STEPS, { before: "P80", next: "P120" }).word("finer")).toBe("yes");
});
test("no grade in between is made up", () =>
  expect(() => given(STEPS, { before: "P90" })).toThrow(/not one of grade/));

describe("steps between grades (common practice, no source)", () => {
  for (const [before, next, number, reach] of [
    [80, 180, 2.25, "no"],
    [80, 120, 1.5, "yes"],
    [120, 220, 1.83, "yes"],
  ] as const) {
    test(`P${before} to P${next}: ${number} in number`, () => {
      const book = given(STEPS, { before: `P${before}`, next: `P${next}` });
      expect(Math.abs(book.number("in-number") - number)).toBeLessThanOrEqual(0.01);
      expect(book.word("in-reach")).toBe(reach);
    });
  }
  for (const [before, next, size] of [
    [80, 180, 2.45],
    [40, 80, 2.11],
    [60, 80, 1.34],
  ] as const) {
    test(`P${before} to P${next}: ${size} in size`, () =>
      expect(
        Math.abs(given(STEPS, { before: `P${before}`, next: `P${next}` }).number("in-size") - size),
      ).toBeLessThanOrEqual(0.01));
  }
});

// The nearest P grade: bands with their ends half way between two sizes, made here from the published sizes.
describe("the P grade nearest to a CAMI grade", () => {
  const bands = P.map(([grade, um], i) => {
    const [coarser, finer] = [P[i - 1]?.[1], P[i + 1]?.[1]];
    const [low, high] = [
      finer === undefined ? undefined : (um + finer) / 2,
      coarser === undefined ? undefined : (um + coarser) / 2,
    ];
    return (
      "    " +
      (low === undefined
        ? `up to ${high} um`
        : high === undefined
          ? `over ${low} um`
          : `over ${low} to ${high} um`) +
      ` | P${grade}`
    );
  });
  const book = bookOf(
    `kind grade\n${grades}\nkind ` +
      `other-grade\n${CAMI.map(([grade]) => `    C${grade} "CAMI ${grade}"`).join("\n")}\nask ` +
      `cami of other-grade\nchart size by cami gives um\n    cami | ` +
      `size\n${CAMI.map(([grade, um]) => `    C${grade} | ${um}`).join("\n")}\n    from ` +
      `standard "CAMI"\nchart nearest by size gives grade\n    size | ` +
      `nearest\n${bands.join("\n")}\n    from standard "FEPA 43 / ISO 6344"`,
  );
  for (const [cami, grade] of [
    ["320", "P400"],
    ["400", "P800"],
    ["600", "P1200"],
  ] as const)
    test(`${cami} is nearest to ${grade}`, () =>
      expect(given(book, { cami: `C${cami}` }).word("nearest")).toBe(grade));
  test("and by arithmetic in plain code, for every grade", () => {
    for (const [cami, um] of CAMI) {
      const [nearest] = [...P].sort((a, b) => Math.abs(a[1] - um) - Math.abs(b[1] - um));
      expect(given(book, { cami: `C${cami}` }).word("nearest")).toBe(`P${nearest![0]}`);
    }
  });
});

describe("the shipped book's grits", () => {
  const job = given(
    bookOf(readFileSync(new URL("../../rulesets/road-panels.bevel", import.meta.url), "utf8")),
  );
  const grits = ["rough-grit", "bevel-grit", "level-2", "primer-grit"].map((name) => job.number(name));
  test("each is a P grade", () => {
    for (const grit of grits) expect(P.map(([grade]) => grade)).toContain(grit);
  });
  test("the bevel is finished at 80 (common practice, no source)", () => expect(grits[1]).toBe(80));
  test("none is more than double the one before (common practice, no source)", () => {
    for (let i = 1; i < grits.length; i++) expect(grits[i]! / grits[i - 1]!).toBeLessThanOrEqual(2);
  });
});
