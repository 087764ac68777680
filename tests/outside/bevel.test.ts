// Taper, scarf and bevel against published rules and their arithmetic. Tolerances as stated for each value.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { bookOf, given } from "./small-book.ts";

const near = (has: number, wants: number, tolerance: number) =>
  expect(Math.abs(has - wants), `${has} against ${wants}`).toBeLessThanOrEqual(tolerance);
/** "Exact" in a source: what is left is the rounding of doubles. */
const EXACT = 1e-9;

describe("width of a bevel, w = t k (arithmetic)", () => {
  const cases: readonly (readonly [thickness: string, taper: string, mm: number])[] = [
    ["2.5 mm", "1:8", 20],
    ["2.5 mm", "1:12", 30],
    ["2.5 mm", "1:20", 50],
    ["3.2 mm", "1:12", 38.4],
    ["6.35 mm", "1:12", 76.2],
    ["1/4 inch", "1:12", 76.2],
    // FAA-H-8083-31, chapter 7, "Solid Laminates, Bonded Flush Patch Repairs": scarf ratios 10:1 to 70:1.
    ["2.5 mm", "1:10", 25],
    ["2.5 mm", "1:70", 175],
    // FAA AC 43.13-1B Chg 1, chapter 3, par. 3-2, p. 3-3: about 50 times the facing all round.
    ["0.010 inch", "1:50", 12.7],
    ["0.020 inch", "1:50", 25.4],
    ["0.030 inch", "1:50", 38.1],
    // US Navy NAVEDTRA 14018, chapter 14, fig. 14-11: scarf length at least 100 times the facing.
    ["0.010 inch", "1:100", 25.4],
    ["0.020 inch", "1:100", 50.8],
    ["0.030 inch", "1:100", 76.2],
  ];
  for (const [thickness, taper, mm] of cases)
    test(`${thickness} at ${taper} is ${mm} mm`, () =>
      near(given(`figure w in mm = ${thickness} run out at ${taper}`).number("w"), mm, EXACT));
  test("1/4 inch at 1:12 reads 3 inch", () =>
    expect(given("figure w in inch = 1/4 inch run out at 1:12").word("w")).toBe("3 inch"));
});

describe("geometry of a scarf", () => {
  test("hole of 50 mm, 3 mm thick, 1:12: 122 mm outside (D + 2 t k)", () =>
    near(given("figure outer in mm = 50 mm + 2 * (3 mm run out at 1:12)").number("outer"), 122, EXACT));
  test("US Navy NAVEDTRA 14315, fig. 5-8: a dish 100 times as wide as deep runs out 1:50 each way", () => {
    const book = given(
      'dial deep = 0.5 mm, from 0.1 mm to 2 mm\n    from standard "NAVEDTRA 14315, fig. ' +
        '5-8"\nfigure across in mm = 2 * (deep run out at 1:50)\nfigure enough = across >= 100 * deep',
    );
    near(book.number("across"), 50, EXACT);
    expect(book.word("enough")).toBe("yes");
  });
  for (const [k, degrees] of [
    [8, 7.125],
    [12, 4.7636],
    [20, 2.8624],
    [50, 1.1458],
    [100, 0.5729],
  ] as const) {
    test(`scarf angle of 1:${k} is ${degrees} deg (atan 1/k)`, () =>
      near(given(`figure angle in deg = atan(1 / ratio(1:${k}))`).number("angle"), degrees, 0.0001));
  }
  // Mean stress in a simple scarf joint: standard result (L. J. Hart-Smith, NASA contractor reports, 1973),
  // from memory.
  for (const [k, shear, peel] of [
    [8, 12.308, 1.538],
    [12, 8.276, 0.69],
    [20, 4.988, 0.249],
    [50, 1.999, 0.04],
  ] as const) {
    test(`shear and peel in the bond at 1:${k} under 100 MPa (formula from memory)`, () => {
      const book = given(
        `figure angle = atan(1 / ratio(1:${k}))\nfigure shear in MPa = 100 MPa * sin(angle) * ` +
          `cos(angle)\nfigure peel in MPa = 100 MPa * sin(angle) ^ 2`,
      );
      near(book.number("shear"), shear, 0.001);
      near(book.number("peel"), peel, 0.001);
    });
  }
});

describe("stepped repairs", () => {
  const steps = (opening: string, step: string, count: number) =>
    bookOf(
      `list plies for n from 1 to ${count}\n    radius in mm = ${opening} + n * ${step}\n    ` +
        `across in inch = 2 * radius\n    area in cm2 = pi * radius ^ 2\n    square in inch2 = ` +
        `area\nfigure total in cm2 = sum of plies.area\nfigure total-inch in inch2 = sum of ` +
        `plies.square\nfigure last-area in cm2 = last of plies.area\nfigure last-square in ` +
        `inch2 = last of plies.square\nfigure first-one in mm = first of plies.radius\nfigure ` +
        `last-one in mm = last of plies.radius`,
    );
  test("four plies, opening of radius 25 mm, 15 mm a ply: 40, 55, 70, 85 mm; 526.22 cm2 (geometry)", () => {
    const book = given(steps("25 mm", "15 mm", 4));
    expect((book.shown("plies").value as readonly { radius: string }[]).map((row) => row.radius)).toEqual([
      "40 mm",
      "55 mm",
      "70 mm",
      "85 mm",
    ]);
    // A list shows its rows rounded for people: the exact area of each ply is that of the last of a shorter
    // list.
    [50.27, 95.03, 153.94, 226.98].forEach((area, i) =>
      near(given(steps("25 mm", "15 mm", i + 1)).number("last-area"), area, 0.01),
    );
    near(book.number("total"), 526.22, 0.01);
    near(book.number("first-one"), 40, EXACT);
    near(book.number("last-one"), 85, EXACT);
  });
  test(
    "US Navy NAVEDTRA 14018, fig. 14-14, 1.5 inch back for each ply: 6, 9, 12 inch; 204.99 " + "inch2 in all",
    () => {
      const book = given(steps("1 1/2 inch", "1 1/2 inch", 3));
      expect((book.shown("plies").value as readonly { across: string }[]).map((row) => row.across)).toEqual([
        "6 inch",
        "9 inch",
        "12 inch",
      ]);
      [28.27, 63.62, 113.1].forEach((area, i) =>
        near(given(steps("1 1/2 inch", "1 1/2 inch", i + 1)).number("last-square"), area, 0.01),
      );
      near(book.number("total-inch"), 204.99, 0.01);
    },
  );
});

// US Army TM 5-3820-256-24-5, fibreglass repair reprint: a small fracture is 3 inch or less, a large one 3
// inch or more.
describe("the published tie at 3 inch", () => {
  const kinds =
    'kind size\n    small "small fracture"\n    large "large fracture"\nask puncture in mm, 1 to 500\n';
  const rows =
    "    puncture | size-of\n    up to 3 inch | small\n    3 inch and over | large\n    from " +
    'standard "US Army TM 5-3820-256-24-5"';
  test("as published, exactly 3 inch stands in both rows, and the checker says so", () => {
    expect(() => bookOf(`${kinds}chart size-of by puncture gives size\n${rows}`)).toThrow(/chart\//);
  });
  test("a book that keeps both rows shows the tie", () => {
    const book = bookOf(
      `${kinds}chart size-of by puncture gives size\n    keep every row that fits\n${rows}`,
    );
    expect(given(book, { puncture: "3 inch" }).word("size-of")).toBe("small or large");
    expect(given(book, { puncture: "76.2 mm" }).word("size-of")).toBe("small or large");
    expect(given(book, { puncture: "76 mm" }).word("size-of")).toBe("small");
    expect(given(book, { puncture: "77 mm" }).word("size-of")).toBe("large");
  });
});

describe("the shipped book", () => {
  const book = bookOf(readFileSync(new URL("../../rulesets/road-panels.bevel", import.meta.url), "utf8"));
  for (const [thickness, flexes, run] of [
    ["2.5 mm", "no", 25],
    ["2.5 mm", "yes", 30],
    ["3.2 mm", "yes", 38.4],
    ["1/4 inch", "yes", 76.2],
    ["5 mm", "no", 50],
  ] as const) {
    test(`${thickness}, flexes ${flexes}: runs out ${run} mm (w = t k)`, () =>
      near(given(book, { thickness, flexes, damage: "through" }).number("run-out"), run, EXACT));
  }
  test("exactly 3 inch is large, as the stricter of the two published classes", () => {
    expect(
      given(book, {
        edge: "glass-fibre",
        strands: "layered",
        back: "rough",
        damage: "through",
        "longest-side": "3 inch",
      }).word("method"),
    ).toBe("layup");
    expect(
      given(book, {
        edge: "glass-fibre",
        strands: "layered",
        back: "rough",
        damage: "through",
        "longest-side": "2.99 inch",
      }).word("method"),
    ).toBe("long-filler");
  });
  test("bare border within 1 to 2 inch (US Army TM 1-1500-204-23-11, chapter 6)", () => {
    const border = given(book).number("paint-border");
    expect(border).toBeGreaterThanOrEqual(25.4);
    expect(border).toBeLessThanOrEqual(50.8);
  });
});

// Sandwich facing 0.030 inch, trimmed hole 2.0 inch: FAA AC 43.13-1B against US Navy NAVEDTRA 14018, same
// damage.
test(
  "two agencies, one damage: 5.00 and 8.00 inch outside, 16.493 and 47.124 inch2 ground, " + "2.857 times",
  () => {
    const book = given(
      `formula outer(t in inch, k) = 2 inch + 2 * k * t
formula ground(across in inch) = pi / 4 * (across ^ 2 - 2 inch ^ 2)
figure faa in inch = outer(0.030 inch, 50)
figure navy in inch = outer(0.030 inch, 100)
figure faa-area in inch2 = ground(faa)
figure navy-area in inch2 = ground(navy)
figure times = navy-area / faa-area`.replace("2 inch ^ 2", "(2 inch) ^ 2"),
    );
    near(book.number("faa"), 5, EXACT);
    near(book.number("navy"), 8, EXACT);
    near(book.number("faa-area"), 16.493, 0.001);
    near(book.number("navy-area"), 47.124, 0.001);
    near(book.number("times"), 2.857, 0.001);
  },
);
