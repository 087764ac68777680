// The sums at the cup against independent arithmetic: units by mathjs, whose factors are its own; the inch,
// the avoirdupois ounce and the US fluid ounce are exact by definition (NIST Handbook 44, appendix C).
// Amounts of hardener by mass balance.
import "../../../editor/ui/words/all-words.ts";
import fc from "fast-check";
import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { unit } from "mathjs";
import { describe, expect, it } from "vitest";
import type { PictureShown, PictureValue } from "../../../core/view.ts";
import {
  amountIn,
  dropsIn,
  measureOf,
  unitsOf,
  writeAmount,
} from "../../../editor/technician/mixing/mix-amounts.ts";
import { MixPanel } from "../../../editor/technician/mixing/mix-panel.tsx";
import {
  baseFor,
  batchesOf,
  hardenerFor,
  inMeasure,
  isTooMuch,
  judgeCup,
  mixesOf,
} from "../../../editor/technician/mixing/mix.ts";
import type { Mix } from "../../../editor/technician/mixing/mix.ts";
import { amountOf } from "../../../editor/technician/mixing/amount-field.tsx";
import { readBook, showJob, workJob } from "../../../engine/index.ts";

const value = (argument: string, si: number, unitName: string | null, text = String(si)): PictureValue => ({
  argument,
  name: argument,
  state: "known",
  text,
  value: si,
  unit: unitName,
  si,
});
const cup = (...values: readonly PictureValue[]): PictureShown => ({
  id: "picture #1",
  shape: "cup",
  title: "",
  values,
});
const mixOf = (...values: readonly PictureValue[]): Mix => mixesOf([cup(...values)])[0]!;
/** 130 g of resin of 1.10 g/mL, 1.5 % of peroxide of 1.17 g/mL, 1 to 2 % allowed, 25 min. */
const polyester = mixOf(
  value("resin", 0.13, "g"),
  value("hardener", 0.00195, "g"),
  value("resin-density", 1100, "g/mL"),
  value("hardener-density", 1170, "g/mL"),
  value("least", 0.01, "% by mass", "1 % by mass"),
  value("most", 0.02, "% by mass", "2 % by mass"),
  value("working", 1500, "min"),
  value("cups", 3, null),
);
const amount = fc.double({ min: 0.5, max: 5000, noNaN: true });
const mathUnit = { g: "g", oz: "oz", mL: "mL", floz: "floz", mm: "mm", inch: "inch" } as const;

describe("amounts", () => {
  it("are what mathjs makes of the same unit", () => {
    const si = { mass: "kg", volume: "m3", length: "m" } as const;
    for (const name of unitsOf(["mass", "volume", "length"])) {
      const read = amountIn(7.25, name)!;
      // Its fluid ounce is rounded to 29.57353 mL, which is 2e-9 off.
      expect(
        read.amount / unit(7.25, mathUnit[name as keyof typeof mathUnit]).toNumber(si[read.measure]),
      ).toBeCloseTo(1, 6);
    }
  });
  it("the fluid ounce is 29.5735295625 mL, the ounce 28.349523125 g (NIST Handbook 44, C)", () => {
    expect(amountIn(1, "floz")!.amount).toBe(29.5735295625e-6);
    expect(amountIn(1, "oz")!.amount).toBe(0.028349523125);
  });
  it("are written in both systems with what a scale can show", () => {
    expect(writeAmount(0.00195, "mass")).toEqual(["1.95 g", "0.069 oz"]);
    expect(writeAmount(0.4667, "mass")).toEqual(["467 g", "16.5 oz"]);
    expect(writeAmount(0.102, "length")).toEqual(["102 mm", "4.02 inch"]);
  });
  it("are typed as people type them, and nothing else is taken", () => {
    const inGrams = (text: string) => amountOf({ text, unit: "g" }, polyester.base);
    for (const [text, grams] of [
      ["130", 130],
      ["4,5", 4.5],
      [" 1 3/8 ", 1.375],
      ["1\u00bd", 1.5],
      [".5", 0.5],
      ["3/8", 0.375],
    ] as const)
      expect(inGrams(text)).toBeCloseTo(grams / 1000, 12);
    for (const wrong of ["", "0", "-3", "1e9", "12 g", "1/0", "1.2.3", "NaN", "1,250"])
      expect(inGrams(wrong)).toBeUndefined();
  });
  it("twenty drops to a millilitre, the convention (from memory, no source)", () => {
    expect(dropsIn(1.82e-6)).toBe(36);
  });
  it("a unit that is none of the three measures nothing", () => {
    expect([measureOf("min"), measureOf("% by mass"), measureOf("constructor"), measureOf("")]).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });
});

describe("the largest cup", () => {
  const two = mixOf(
    value("resin", 0.13, "g"),
    value("hardener", 0.00195, "g"),
    value("resin-density", 1100, "g/mL"),
    value("largest", 0.5, "g"),
  );
  it("is the most that is mixed at once", () => {
    expect([0.13, 0.5, 0.501].map((base) => isTooMuch(two, base))).toEqual([false, false, true]);
  });
  it("given as a volume, it is weighed by the density; without one it says nothing", () => {
    const poured = (...more: readonly PictureValue[]) =>
      mixOf(
        value("resin", 0.13, "g"),
        value("hardener", 0.00195, "g"),
        value("largest", 5e-4, "mL"),
        ...more,
      );
    expect(poured(value("resin-density", 1100, "g/mL")).largest).toBeCloseTo(0.55, 12);
    expect(poured().largest).toBeUndefined();
  });
  it("is never less than the card's own cup", () => {
    const small = mixOf(value("resin", 0.13, "g"), value("hardener", 0.002, "g"), value("largest", 0.1, "g"));
    expect([0.13, 0.14].map((base) => isTooMuch(small, base))).toEqual([false, true]);
  });
});

describe("what goes in", () => {
  it("1 % by mass of a quart of 1.10 g/mL is 10.41 g, or 8.90 mL at 1.17 g/mL (by mathjs)", () => {
    const mix = mixOf(
      value("resin", 0.1, "g"),
      value("hardener", 0.001, "g"),
      value("resin-density", 1100, ""),
      value("hardener-density", 1170, ""),
    );
    const quart = unit(32, "floz").toNumber("m3");
    const resin = inMeasure(quart, "volume", "mass", mix.base.density)!;
    const wanted = unit(1, "quart").toNumber("L") * 1.1 * 0.01;
    expect(hardenerFor(mix, resin)).toBeCloseTo(wanted, 6);
    expect(hardenerFor(mix, resin) * 1000).toBeCloseTo(10.41, 2);
    expect(inMeasure(hardenerFor(mix, resin), "mass", "volume", mix.hardener.density)! * 1e6).toBeCloseTo(
      8.897,
      2,
    );
  });
  it("is in proportion, and the other way about leads back", () => {
    fc.assert(
      fc.property(amount, amount, amount, (resin, hardener, inCup) => {
        const mix = mixOf(value("resin", resin / 1000, "g"), value("hardener", hardener / 1000, "g"));
        expect(hardenerFor(mix, inCup) / inCup).toBeCloseTo(hardener / resin, 9);
        expect(baseFor(mix, hardenerFor(mix, inCup)) / inCup).toBeCloseTo(1, 9);
      }),
    );
  });
  it("too much hardener is put right by resin: after adding, the cup is as the card says", () => {
    fc.assert(
      fc.property(amount, amount, (resin, hardener) => {
        const [r, h] = [resin / 1000, hardener / 1000];
        const judged = judgeCup(polyester, r, h);
        expect(Math.min(judged.addBase, judged.addHardener)).toBe(0);
        const again = judgeCup(polyester, r + judged.addBase, h + judged.addHardener);
        expect(again.addBase + again.addHardener).toBe(0);
        expect(again.limits).toBe("within");
      }),
    );
  });
  it("7 g in 260 g is 2.69 %: over the book's 2 %, and 206.67 g of resin put it right", () => {
    const judged = judgeCup(polyester, 0.26, 0.007);
    expect(judged.limits).toBe("over");
    expect(judged.addBase * 1000).toBeCloseTo(7 / 0.015 - 260, 6);
  });
  it("limits hold at their ends, and only a book that gives them judges", () => {
    expect(judgeCup(polyester, 0.1, 0.002).limits).toBe("within");
    expect(judgeCup(polyester, 0.1, 0.001).limits).toBe("within");
    expect(judgeCup(polyester, 0.1, 0.00099).limits).toBe("under");
    expect(judgeCup(mixOf(value("resin", 0.13, "g"), value("hardener", 0.002, "g")), 0.1, 0.1).limits).toBe(
      "label",
    );
  });
  it("a limit by volume needs both densities: without them the label decides", () => {
    const with_ = (...more: readonly PictureValue[]): Mix =>
      mixOf(
        value("resin", 0.1, "g"),
        value("hardener", 0.002, "g"),
        value("most", 0.02, "% by volume"),
        ...more,
      );
    expect(judgeCup(with_(), 0.1, 0.003).limits).toBe("label");
    // 2 % by mass is 1.88 % by volume at 1.10 and 1.17 g/mL; 2.2 % by mass is 2.07 %.
    const dense = with_(value("resin-density", 1100, ""), value("hardener-density", 1170, ""));
    expect([judgeCup(dense, 0.1, 0.002).limits, judgeCup(dense, 0.1, 0.0022).limits]).toEqual([
      "within",
      "over",
    ]);
  });
  it("mass and volume never mix without a density", () => {
    expect(inMeasure(1, "mass", "volume", undefined)).toBeUndefined();
    expect(inMeasure(1, "length", "mass", 1000)).toBeUndefined();
  });
});

describe("cups", () => {
  it("hold together what the card says, however many", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 50 }), (wish) => {
        const { count, base, hardener } = batchesOf(polyester, wish);
        expect(count).toBe(wish);
        expect(base * count).toBeCloseTo(0.39, 12);
        expect(hardener / base).toBeCloseTo(0.015, 12);
      }),
    );
  });
  it("are as many as each needs to be used up before it sets", () => {
    // 390 g in all, 8 g/min used for 25 min is 200 g a cup: two would do, the card says three; at 4 g/min it
    // is 100 g: four.
    const at = (pace: number): Mix =>
      mixOf(
        value("resin", 0.13, "g"),
        value("hardener", 0.002, "g"),
        value("cups", 3, null),
        value("working", 1500, "min"),
        value("pace", pace / 60_000, "g/min"),
      );
    expect(batchesOf(at(8))).toMatchObject({ count: 3, fewest: 2 });
    expect(batchesOf(at(4))).toMatchObject({ count: 4, fewest: 4 });
    expect(batchesOf(at(4), 1).count).toBe(4);
    // A pace over an area says nothing about a cup of grams.
    expect(
      batchesOf(
        mixOf(
          value("resin", 0.13, "g"),
          value("hardener", 0.002, "g"),
          value("working", 1500, "min"),
          value("pace", 1, "m2/min"),
        ),
      ),
    ).not.toHaveProperty("fewest");
  });
});

describe("which cups are mixes", () => {
  it("two amounts that are known make one; anything less makes none", () => {
    expect(mixesOf([cup(value("resin", 0.1, "g"))])).toEqual([]);
    expect(mixesOf([cup(value("resin", 0, "g"), value("hardener", 0.1, "g"))])).toEqual([]);
    expect(
      mixesOf([
        cup(value("resin", 0.1, "g"), { ...value("hardener", 1, "g"), state: "unknown", si: undefined }),
      ]),
    ).toEqual([]);
    expect(
      mixesOf([{ ...cup(value("resin", 0.1, "g"), value("hardener", 0.1, "g")), shape: "section" }]),
    ).toEqual([]);
    expect(mixOf(value("filler", 0.1, "g"), value("hardener", 0.002, "g")).base.role).toBe("filler");
    expect(
      mixOf(value("resin", 0.1, "g"), value("filler", 0.05, "g"), value("hardener", 0.002, "g")),
    ).toMatchObject({ base: { role: "resin" }, filler: { amount: 0.05 } });
  });
  it("a book says so by its picture: cups, time and limits arrive as it wrote them", () => {
    const book = readBook(
      [
        "book cups, edition 1",
        "ask resin in g, 10 to 900",
        '    "Resin?"',
        "figure peroxide = 1.5 % by mass",
        "figure drops in g = peroxide of resin",
        "figure pots = resin / 200 g rounded up to whole",
        'picture cup "Test cup" with resin resin, hardener drops, hardener-density 1.1 ' +
          "g/mL, cups pots, working 25 min, pace 20 g/min, bead 12 cm, least 1 % by " +
          "mass, most 2 % by mass",
        'step mix "Mix {drops}"',
      ].join("\n"),
    );
    expect(book.findings.filter((finding) => finding.weight === "error")).toEqual([]);
    const [mix] = mixesOf(showJob(workJob(book, { resin: "450 g" }), "us").pictures ?? []);
    expect(mix).toMatchObject({
      title: "Test cup",
      cups: 3,
      working: 1500,
      bead: 0.12,
      least: { share: 0.01, by: "mass" },
      most: { share: 0.02, by: "mass" },
    });
    expect(mix!.base.amount).toBeCloseTo(0.45, 12);
    expect(mix!.hardener).toMatchObject({ measure: "mass", density: expect.closeTo(1100, 9) as number });
    expect(mix!.rate).toBeCloseTo(0.02 / 60, 12);
  });
});

describe("the panel of a mix", () => {
  const draw = (mix: Mix, timers: Parameters<typeof MixPanel>[0]["timers"] = []) =>
    renderToStaticMarkup(
      createElement(MixPanel, {
        mix,
        baseName: "resin",
        hardenerName: "peroxide",
        fillerName: undefined,
        timers,
        onStart: () => undefined,
      }),
    );
  it("offers each unit in which the part can be measured, and a start for each cup", () => {
    const page = draw(polyester);
    expect([...page.matchAll(/value="(g|oz|mL|floz)"/g)].map((found) => found[1])).toEqual([
      "g",
      "oz",
      "mL",
      "floz",
    ]);
    expect(page.match(/use within/g)?.length).toBe(3);
    expect(draw(mixOf(value("resin", 0.13, "g"), value("hardener", 0.002, "g")))).not.toContain('value="mL"');
  });
  it("a cup that was started says until when", () => {
    expect(
      draw(polyester, [{ timer: `${polyester.id} cup 2`, says: "", ends: Date.now() + 60_000, at: 0 }]).match(
        /Use by \d\d:\d\d/g,
      )?.length,
    ).toBe(1);
  });
});
