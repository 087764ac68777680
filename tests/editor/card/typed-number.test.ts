// Numbers as they are typed at a panel, and the drafts and answers made of them.
import { describe, expect, it } from "vitest";
import { unit as mathUnit } from "mathjs";
import { convert, unitIn, unitsFor } from "../../../editor/card/other-units.ts";
import { draftOf, judge, stepped } from "../../../editor/card/quantity-draft.ts";
import type { QuantityAnswer } from "../../../editor/card/quantity-draft.ts";
import { readNumber, writeSixteenths } from "../../../editor/card/typed-number.ts";

const thickness: QuantityAnswer = {
  is: "quantity",
  unit: "mm",
  low: "1 mm",
  high: "12 mm",
  resolution: "0.1 mm",
};
const air: QuantityAnswer = { is: "quantity", unit: "°C", low: "-10", high: "50" };
const draft = (number: string, unit = "mm", tolerance = "") => ({ number, unit, tolerance });

describe("a typed number", () => {
  it.each([
    ["12.5", 12.5, "12.5"],
    ["12,5", 12.5, "12.5"],
    [" 3/8 ", 0.375, "3/8"],
    ["1 3/8", 1.375, "1 3/8"],
    ["1  3 / 8", 1.375, "1 3/8"],
    ["-4", -4, "-4"],
    ["\u22124", -4, "-4"],
    ["-1 1/2", -1.5, "-1 1/2"],
    ["1\u00bd", 1.5, "1 1/2"],
    ["1-1/2", 1.5, "1 1/2"],
    ["0,125", 0.125, "0.125"],
    ["1,250.5", 1250.5, "1250.5"],
    [".5", 0.5, "0.5"],
    ["7.", 7, "7"],
  ])("%s is read", (typed, value, text) => {
    expect(readNumber(typed)).toEqual({ value, text });
  });
  it.each(["", "six", "1/0", "1,000", "1.2.3", "1 2", "--4", "1e3"])(
    "“%s” is answered with a sentence",
    (typed) => {
      expect(readNumber(typed)).toHaveProperty("says");
    },
  );
  it("names both readings of a comma before three digits", () => {
    expect(readNumber("1,250")).toEqual({
      says: "“1,250” can be read in two ways. Type 1250 or, if a decimal was meant, 1.250.",
    });
  });
  it.each([
    [0.25, "1/4"],
    [1.375, "1 3/8"],
    [2, "2"],
    [0.999, "1"],
    [0, "0"],
    [-0.5, "-1/2"],
    [-0.01, "0"],
  ])("%d inch in sixteenths is %s", (value, text) => {
    expect(writeSixteenths(value)).toBe(text);
  });
});

describe("the units of a question", () => {
  // Against the general-purpose mathematics library's own unit tables.
  it.each([
    ["mm", "inch", "mm", "inch"],
    ["m", "ft", "m", "ft"],
    ["g", "oz", "gram", "ounce"],
    ["kg", "lb", "kg", "lbm"],
    ["mL", "floz", "mL", "floz"],
    ["L", "gal", "L", "gallon"],
    ["m2", "ft2", "m2", "sqft"],
    ["cm2", "inch2", "cm2", "sqin"],
    ["um", "mil", "um", "mil"],
    ["kPa", "psi", "kPa", "psi"],
    ["bar", "psi", "bar", "psi"],
    ["°C", "°F", "degC", "degF"],
    ["g/m2", "oz/yd2", "gram/m^2", "ounce/sqyd"],
    ["m/min", "ft/min", "m/minute", "ft/minute"],
  ])("%s and %s", (metric, us, libraryMetric, libraryUs) => {
    for (const value of [-10, 0.375, 20, 1234.5]) {
      const there = convert(value, metric, us);
      const library = mathUnit(value, libraryMetric).toNumber(libraryUs);
      // The library keeps psi to ten digits; all others agree to the last.
      expect(Math.abs((there ?? Number.NaN) / library - 1)).toBeLessThan(1e-9);
      expect(convert(there ?? Number.NaN, us, metric)).toBeCloseTo(value, 9);
    }
  });
  it("gives the book's own unit first, and alone where it knows no other", () => {
    expect(unitsFor("inch")).toEqual(["inch", "mm"]);
    expect(unitsFor("degC")).toEqual(["degC", "°F"]);
    expect(unitsFor("% by mass")).toEqual(["% by mass"]);
    expect([unitIn("mm", "us"), unitIn("mm", "metric"), unitIn("inch", "metric"), unitIn("%", "us")]).toEqual(
      ["inch", "mm", "mm", "%"],
    );
    expect(convert(1, "mm", "g")).toBeUndefined();
    expect([convert(32, "°F", "°C"), convert(0, "degC", "degF"), convert(-40, "°F", "°C")]).toEqual([
      0, 32, -40,
    ]);
  });
});

describe("a quantity answer", () => {
  it("is written as the language writes it", () => {
    expect(judge(draft("3,2", "mm", "0.2"), thickness)).toMatchObject({ answer: "3.2 mm ± 0.2 mm" });
    expect(judge(draft("1/4", "inch"), thickness)).toEqual({ answer: "1/4 inch", value: 6.35 });
    expect(judge(draft("6 mm"), thickness)).toEqual({ answer: "6 mm", value: undefined });
    expect(judge(draft("4", "count"), { is: "quantity", unit: "count", low: "0", high: "9" })).toMatchObject({
      answer: "4",
    });
  });
  it("takes both ends of the range, also when they were typed in the other unit", () => {
    expect(judge(draft("12"), thickness)).toHaveProperty("answer");
    expect(judge(draft("12.01"), thickness)).toHaveProperty("says");
    expect(judge(draft("14", "°F"), air)).toHaveProperty("answer");
    expect(judge(draft("122", "°F"), air)).toHaveProperty("answer");
    expect(judge(draft("122.1", "°F"), air)).toHaveProperty("says");
  });
  it("says where a value falls outside and offers the unit in which the digits would fit", () => {
    expect(judge(draft("6", "inch"), thickness)).toEqual({
      says: "6 inch (152.4 mm) is more than 12 mm, the most that the book takes here.",
      instead: draft("6", "mm"),
    });
    expect(judge(draft("68", "°C"), air)).toMatchObject({ instead: { unit: "°F" } });
    expect(judge(draft("60"), thickness)).toMatchObject({ instead: undefined });
  });
  it("refuses a ± that cannot be read or is less than nothing", () => {
    expect(judge(draft("6", "mm", "a bit"), thickness)).toHaveProperty("says");
    expect(judge(draft("6", "mm", "-1"), thickness)).toHaveProperty("says");
  });
  it("is taken apart again for a change", () => {
    expect(draftOf("1 3/8 inch ± 1/16 inch", "mm")).toEqual(draft("1 3/8", "inch", "1/16"));
    expect(draftOf("-4 °C", "°C")).toEqual(draft("-4", "°C"));
    expect(draftOf("450 g/m2", "g/m2")).toEqual(draft("450", "g/m2"));
    expect(draftOf("5 ft 3 inch", "m")).toEqual(draft("5 ft 3 inch", "m"));
    expect(draftOf("unknown", "mm")).toEqual(draft("", "mm"));
    expect(draftOf(undefined, "mm")).toEqual(draft("", "mm"));
  });
  it("is stepped by the resolution or by sixteenths, and never out of range", () => {
    expect(stepped(draft("3.2"), thickness, 1).number).toBe("3.3");
    expect(stepped(draft("3.25"), thickness, -1).number).toBe("3.2");
    expect(stepped(draft("12"), thickness, 1).number).toBe("12");
    expect(stepped(draft(""), thickness, 1).number).toBe("1");
    expect(stepped(draft("1/4", "inch"), thickness, 1).number).toBe("5/16");
    expect(stepped(draft("", "inch"), thickness, -1).number).toBe("1/16");
    expect(stepped(draft("20", "°C"), air, 1).number).toBe("21");
  });
  it("steps from every number in range to another that is in range", () => {
    for (let number = 1; number <= 12; number += 0.07) {
      for (const ways of [1, -1] as const)
        expect(judge(stepped(draft(number.toFixed(2)), thickness, ways), thickness)).toHaveProperty("answer");
    }
  });
});
