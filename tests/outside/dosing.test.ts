// Hardener and mixes: arithmetic on exact units (NIST Handbook 44, Appendix C), published mix ratios, and
// that the language keeps shares by mass and by volume apart. A drop is 0.05 mL by convention, not by nature.
import { describe, expect, test } from "vitest";
import { readBook } from "../../engine/index.ts";
import { given } from "./small-book.ts";

const near = (has: number, wants: number, tolerance: number) =>
  expect(Math.abs(has - wants), `${has} against ${wants}`).toBeLessThanOrEqual(tolerance);
const one = (rule: string, unit: string, more = "") =>
  given(`${more}figure x in ${unit} = ${rule}`).number("x");

describe("shares by volume (Handbook 44 factors)", () => {
  test("1 % of 1 floz: 0.29574 mL, 5.9 drops", () => {
    near(one("1 % by volume of 1 floz", "mL"), 0.29574, 0.00001);
    near(given("figure x = 1 % by volume of 1 floz / 0.05 mL").number("x"), 5.9, 0.05);
  });
  const cases: readonly (readonly [share: string, of: string, mL: number, tolerance: number])[] = [
    ["1 %", "1 pint", 4.7318, 0.0001],
    ["1 %", "1 quart", 9.4635, 0.0001],
    ["1 %", "1 gal", 37.8541, 0.0001],
    ["1.25 %", "1 quart", 11.8294, 0.0001],
    ["1.5 %", "1 quart", 14.1953, 0.0001],
    ["2 %", "1 quart", 18.9271, 0.0001],
    ["1.5 %", "1 gal", 56.781, 0.001],
    ["2 %", "1 gal", 75.708, 0.001],
    ["2.5 %", "1 gal", 94.635, 0.001],
  ];
  for (const [share, of, mL, tolerance] of cases)
    test(`${share} of ${of}: ${mL} mL`, () => near(one(`${share} by volume of ${of}`, "mL"), mL, tolerance));
  test("four drops to the ounce are 0.676 %, not 1 %: that would need drops of 0.0739 mL", () => {
    near(one("4 * 0.05 mL / 1 floz", "%"), 0.676, 0.001);
    near(one("1 % by volume of 1 floz / 4", "mL"), 0.0739, 0.0001);
  });
});

describe("shares by mass (mass balance)", () => {
  const dose = (share: string, volume: string, resin: string, catalyst: string) =>
    given(
      `figure grams in g = ${share} by mass of (${volume} * ${resin})\nfigure measured in mL = ` +
        `grams / ${catalyst}`,
    );
  test("1 % of 1 quart of 1.10 g/mL: 10.4099 g; 8.8973 mL at 1.17 (by volume would say 6.4 % more)", () => {
    const book = given(
      "figure grams in g = 1 % by mass of (1 quart * 1.10 g/mL)\nfigure measured in mL = grams " +
        "/ 1.17 g/mL\nfigure excess in % = (1 % by volume of 1 quart) / measured - 1",
    );
    near(book.number("grams"), 10.4099, 0.0001);
    near(book.number("measured"), 8.8973, 0.0001);
    near(book.number("excess"), 6.4, 0.05);
  });
  test("the same at 1.00: 10.4099 mL (by volume would say 9.1 % less)", () => {
    const book = given(
      "figure measured in mL = 1 % by mass of (1 quart * 1.10 g/mL) / 1.00 g/mL\nfigure less in " +
        "% = 1 - (1 % by volume of 1 quart) / measured",
    );
    near(book.number("measured"), 10.4099, 0.0001);
    near(book.number("less"), 9.1, 0.05);
  });
  test("2 % of 1 gal of 1.12 g/mL, catalyst 1.10: 84.7932 g, 77.0847 mL", () => {
    const book = dose("2 %", "1 gal", "1.12 g/mL", "1.10 g/mL");
    near(book.number("grams"), 84.7932, 0.0001);
    near(book.number("measured"), 77.0847, 0.0001);
  });
  test("1.5 % of 500 g and of 1 lb, catalyst 1.10: 7.500 g, 6.818 mL; 6.8039 g, 6.185 mL", () => {
    near(one("1.5 % by mass of 500 g", "g"), 7.5, 0.001);
    near(one("1.5 % by mass of 500 g / 1.10 g/mL", "mL"), 6.818, 0.001);
    near(one("1.5 % by mass of 1 lb", "g"), 6.8039, 0.001);
    near(one("1.5 % by mass of 1 lb / 1.10 g/mL", "mL"), 6.185, 0.001);
  });
  for (const [catalyst, factor] of [
    ["1.17", 0.9402],
    ["1.10", 1],
    ["1.00", 1.1],
  ] as const) {
    test(`from mass to volume at 1.10 and ${catalyst} g/mL: ${factor}`, () =>
      near(given(`figure x = 1.10 g/mL / ${catalyst} g/mL`).number("x"), factor, 0.0001));
  }
  test("2 % of paste that is half peroxide: 2 g to 100 g, 9.072 g to 1 lb, 1 % active", () => {
    near(one("2 % by mass of 100 g", "g"), 2, 0.001);
    near(one("2 % by mass of 1 lb", "g"), 9.072, 0.001);
    near(one("50 % by mass of (2 % by mass of 100 g) / 100 g", "%"), 1, 1e-9);
  });
  test("active oxygen of pure peroxides, 16 n / M: 26.20 and 22.83 % (theory)", () => {
    // C4H10O4 with two, C8H18O6 with three active oxygens.
    near(one("2 * 15.999 / (4 * 12.011 + 10 * 1.008 + 4 * 15.999)", "%"), 26.2, 0.01);
    near(one("3 * 15.999 / (8 * 12.011 + 18 * 1.008 + 6 * 15.999)", "%"), 22.83, 0.01);
  });
  test("a share by mass of a volume is refused, and the message asks for the density", () => {
    const [finding] = readBook("figure x in mL = 1 % by mass of 1 quart").findings.filter(
      (one) => one.weight === "error",
    );
    expect(finding?.says).toMatch(/density/);
  });
});

describe("mixes", () => {
  // US Army TM 1-1500-204-23-1: 100 parts of resin to 10 of hardener by weight.
  test("550 g at 100:10 by mass: 500 and 50 g, hardener 0.0909 of the mix", () => {
    const book = given(
      "figure ratio-of = 100:10 by mass\nfigure base in g = 550 g / (1 + " +
        "ratio(ratio-of))\nfigure hardener in g = base paired at ratio-of\nfigure part-of = hardener / 550 g",
    );
    near(book.number("base"), 500, 1e-9);
    near(book.number("hardener"), 50, 1e-9);
    near(book.number("part-of"), 0.0909, 0.0001);
  });
  // US Army TM 55-1905-223-SDC, par. 8-24: 2 g of mix to the square inch of woven roving, kits of 400 g and
  // 100 g.
  test("strip of 6 by 40 inch at 2 g/inch2: 480 g, and one kit of 500 g is enough", () => {
    const book = given(
      "figure needed in g = 6 inch * 40 inch * 2 g/inch2\nfigure kit in g = 400 g + (400 g " +
        "paired at 4:1 by mass)\nfigure enough = kit >= needed",
    );
    near(book.number("needed"), 480, 1e-9);
    near(book.number("kit"), 500, 1e-9);
    expect(book.word("enough")).toBe("yes");
  });
  test("2 g/inch2 is 3100.0 g/m2: 2480 of resin, 620 of hardener at 4:1", () => {
    const book = given(
      "figure all in g/m2 = 2 g/inch2\nfigure mix-of = 4:1 by mass\nfigure base in g/m2 = all / " +
        "(1 + ratio(mix-of))\nfigure hardener in g/m2 = all - base",
    );
    near(book.number("all"), 3100, 0.1);
    near(book.number("base"), 2480, 0.1);
    near(book.number("hardener"), 620, 0.1);
  });
  test("12 by 12 inch: 288 g, 230.4 and 57.6 g", () => {
    const book = given(
      "figure all in g = 12 inch * 12 inch * 2 g/inch2\nfigure base in g = all / (1 + ratio(4:1 " +
        "by mass))\nfigure hardener in g = base paired at 4:1 by mass",
    );
    near(book.number("all"), 288, 0.1);
    near(book.number("base"), 230.4, 0.1);
    near(book.number("hardener"), 57.6, 0.1);
  });
  test("at most 5 % of thinner by weight (US Army TM 1-1500-204-23-1): 25 g to 500 g", () =>
    near(one("5 % by mass of 500 g", "g"), 25, 1e-9));
  test("7:5 and 1:1 (US Army TM 55-1520-240-23-4): 35 g take 25 g; a cup takes a cup", () => {
    near(one("35 g paired at 7:5 by mass", "g"), 25, 1e-9);
    near(one("1 cup paired at 1:1 by volume", "cup"), 1, 1e-12);
  });
});
