// Units against published exact factors, and against a general-purpose units library.
//
// Factors: NIST SP 811 (2008), Appendix B, and NIST Handbook 44, Appendix C (2024): the international yard
// (0.9144 m) and pound (0.45359237 kg), the US gallon of 231 cubic inches, standard gravity 9.80665 m/s2.
// Typed here as exact decimals; what has no finite decimal is typed as a quotient of two. SI prefixes: SI
// Brochure, 9th edition.
import { create, all } from "mathjs";
import { describe, expect, test } from "vitest";
import { readUnit, simpleUnit, unitSymbols } from "../../core/unit.ts";
import { given } from "./small-book.ts";

const math = create(all!, {});

/** Unit, exact SI factor as decimal or quotient, the name that mathjs has for it ("" where it has none). */
const FACTORS: readonly (readonly [symbol: string, top: string, bottom: string, mathjs: string])[] = [
  ["m", "1", "1", "m"],
  ["cm", "0.01", "1", "cm"],
  ["mm", "0.001", "1", "mm"],
  ["um", "0.000001", "1", "um"],
  ["km", "1000", "1", "km"],
  ["inch", "0.0254", "1", "inch"],
  ["ft", "0.3048", "1", "ft"],
  ["yd", "0.9144", "1", "yd"],
  ["mil", "0.0000254", "1", "mil"],
  ["m2", "1", "1", "m^2"],
  ["cm2", "0.0001", "1", "cm^2"],
  ["mm2", "0.000001", "1", "mm^2"],
  ["inch2", "0.00064516", "1", "inch^2"],
  ["ft2", "0.09290304", "1", "ft^2"],
  ["yd2", "0.83612736", "1", "yd^2"],
  ["m3", "1", "1", "m^3"],
  ["cm3", "0.000001", "1", "cm^3"],
  ["mm3", "0.000000001", "1", "mm^3"],
  ["L", "0.001", "1", "L"],
  ["mL", "0.000001", "1", "mL"],
  ["uL", "0.000000001", "1", "uL"],
  ["inch3", "0.000016387064", "1", "inch^3"],
  ["ft3", "0.028316846592", "1", "ft^3"],
  ["gal", "0.003785411784", "1", "gallon"],
  ["quart", "0.000946352946", "1", "quart"],
  ["pint", "0.000473176473", "1", "pint"],
  ["cup", "0.0002365882365", "1", "cup"],
  ["floz", "0.0000295735295625", "1", "floz"],
  // mathjs knows the metric spoons of 15 and 5 mL only; the US ones are half and a sixth of a fluid ounce.
  ["tbsp", "0.00001478676478125", "1", ""],
  ["tsp", "0.00000492892159375", "1", ""],
  ["kg", "1", "1", "kg"],
  ["g", "0.001", "1", "g"],
  ["mg", "0.000001", "1", "mg"],
  ["t", "1000", "1", "tonne"],
  ["lb", "0.45359237", "1", "lb"],
  ["oz", "0.028349523125", "1", "oz"],
  ["s", "1", "1", "s"],
  ["min", "60", "1", "min"],
  ["h", "3600", "1", "h"],
  ["day", "86400", "1", "day"],
  ["mol", "1", "1", "mol"],
  ["N", "1", "1", "N"],
  ["kN", "1000", "1", "kN"],
  ["lbf", "4.4482216152605", "1", "lbf"],
  ["Pa", "1", "1", "Pa"],
  ["hPa", "100", "1", "hPa"],
  ["kPa", "1000", "1", "kPa"],
  ["MPa", "1000000", "1", "MPa"],
  ["bar", "100000", "1", "bar"],
  ["psi", "4.4482216152605", "0.00064516", "psi"],
  // SP 811, B.8: conventional inch of mercury, 3.386 389 E+03 Pa to seven digits; 13595.1 kg/m3 x 9.80665
  // m/s2 x 0.0254 m.
  ["inHg", "3386.388640341", "1", ""],
  ["J", "1", "1", "J"],
  ["kJ", "1000", "1", "kJ"],
  ["W", "1", "1", "W"],
  ["kW", "1000", "1", "kW"],
  // SP 811, B.8: horsepower (550 ft · lbf/s), 7.456 999 E+02 W to seven digits; 550 x 0.3048 m x
  // 4.4482216152605 N. mathjs keeps ten digits of it.
  ["hp", "745.69987158227022", "1", ""],
  ["rpm", "1", "60", ""],
  ["deg", "3.14159265358979323846", "180", "deg"],
  ["rad", "1", "1", "rad"],
  ["%", "0.01", "1", "%"],
  ["count", "1", "1", ""],
];

/** Other spellings of a unit above, and the scales of temperature, which have tests of their own. */
const SPELLINGS: Readonly<Record<string, string>> = {
  µm: "um",
  μm: "um",
  inches: "inch",
  "m²": "m2",
  "cm²": "cm2",
  "mm²": "mm2",
  "m³": "m3",
  "cm³": "cm3",
  "mm³": "mm3",
  ml: "mL",
  µL: "uL",
  μL: "uL",
  days: "day",
};
const SCALES = new Set(["°C", "degC", "°F", "degF", "K"]);

/**
 * Two doubles that stand for the same decimal may differ by the rounding of a few operations: eight parts in
 * 1e16.
 */
const ROUNDING = 8e-16;
const near = (has: number, wants: number, relative: number) =>
  expect(Math.abs(has - wants), `${has} against ${wants}`).toBeLessThanOrEqual(Math.abs(wants) * relative);
const factorOf = (symbol: string) => {
  const unit = readUnit({ text: symbol, apart: false });
  if (!("symbol" in unit)) throw new Error(`no unit ${symbol}`);
  return unit.factor;
};

describe("every unit of the program", () => {
  test("is in the table of published factors, or is another spelling, or a scale of temperature", () => {
    const listed = new Set([...FACTORS.map(([symbol]) => symbol), ...Object.keys(SPELLINGS), ...SCALES]);
    expect(unitSymbols().filter((symbol) => !listed.has(symbol))).toEqual([]);
    for (const symbol of listed) expect(simpleUnit(symbol), symbol).toBeDefined();
  });
  for (const [spelling, symbol] of Object.entries(SPELLINGS))
    test(`${spelling} is ${symbol}`, () => expect(factorOf(spelling)).toBe(factorOf(symbol)));

  for (const [symbol, top, bottom, mathjs] of FACTORS) {
    test(`${symbol}: ${top}${bottom === "1" ? "" : ` / ${bottom}`}`, () =>
      near(factorOf(symbol), Number(top) / Number(bottom), ROUNDING));
    if (mathjs === "") continue;
    test(`${symbol} against mathjs ${mathjs}`, () => {
      const theirs =
        mathjs === "%"
          ? (math.evaluate("1%") as number)
          : mathjs === "rad" || mathjs === "deg"
            ? math.unit(1, mathjs).toNumber("rad")
            : Number(math.unit(1, mathjs).toSI().toJSON().value);
      // mathjs carries psi as 6894.75729276459, which is off its own lbf / inch^2 in the eleventh digit.
      near(factorOf(symbol), theirs, symbol === "psi" ? 1e-10 : ROUNDING);
    });
  }
  test("psi against mathjs lbf/inch^2", () =>
    near(factorOf("psi"), math.unit(1, "lbf/inch^2").toNumber("Pa"), ROUNDING));
});

// Exact quotients of the factors above.
describe("units with a slash", () => {
  const cases: readonly (readonly [unit: string, wants: number, tolerance: number, source: string])[] = [
    ["oz/yd2", 33.9057474748823e-3, 1e-13, "28.349523125 g / 0.83612736 m2, SP 811"],
    ["oz/ft2", 305.151727273941e-3, 1e-12, "28.349523125 g / 0.09290304 m2, SP 811"],
    ["lb/gal", 119.8264273, 1e-7, "SP 811 B.8: 1.198 264 E+02 kg/m3; to ten digits from the exact factors"],
    ["lb/ft3", 16.01846337, 1e-8, "SP 811 B.8: 1.601 846 E+01 kg/m3; to ten digits from the exact factors"],
    ["g/mL", 1000, 1e-10, "SI Brochure"],
    ["g/m2", 1e-3, 1e-18, "SI Brochure"],
    ["kJ/mol", 1000, 1e-10, "SI Brochure"],
    ["J/mol/K", 1, 0, "SI Brochure"],
    ["m/min", 1 / 60, 1e-17, "SI Brochure"],
  ];
  for (const [unit, wants, tolerance, source] of cases) {
    test(`${unit} (${source})`, () =>
      expect(Math.abs(factorOf(unit) - wants)).toBeLessThanOrEqual(tolerance));
  }
  test("oz/ft2 is nine times oz/yd2", () => near(factorOf("oz/ft2"), 9 * factorOf("oz/yd2"), ROUNDING));
  for (const [ours, theirs, si] of [
    ["oz/yd2", "oz/yd^2", "kg/m^2"],
    ["oz/ft2", "oz/ft^2", "kg/m^2"],
    ["lb/gal", "lb/gallon", "kg/m^3"],
    ["lb/ft3", "lb/ft^3", "kg/m^3"],
    ["g/mL", "g/mL", "kg/m^3"],
    ["ft/min", "ft/min", "m/s"],
  ] as const) {
    test(`${ours} against mathjs`, () =>
      near(factorOf(ours), math.unit(1, theirs).toNumber(si), 4 * ROUNDING));
  }
});

// The same through the language: what a book shows when one of a unit is asked for in another.
describe("as a book converts them (SP 811 and Handbook 44, exact)", () => {
  const cases: readonly (readonly [rule: string, unit: string, wants: number])[] = [
    ["1 inch", "mm", 25.4],
    ["1 ft", "mm", 304.8],
    ["1 yd", "m", 0.9144],
    ["1 mil", "mm", 0.0254],
    ["1 lb", "g", 453.59237],
    ["1 oz", "g", 28.349523125],
    ["1 gal", "mL", 3785.411784],
    ["1 quart", "mL", 946.352946],
    ["1 pint", "mL", 473.176473],
    ["1 floz", "mL", 29.5735295625],
    ["1 inch3", "mL", 16.387064],
    ["1 oz/yd2", "g/m2", 33.9057474748823],
    ["1 oz/ft2", "g/m2", 305.151727273941],
    ["1 1/2 inch", "mm", 38.1],
    ["3/8 inch", "mm", 9.525],
    ["5 ft 3 inch", "mm", 1600.2],
    ["1 h 30 min", "min", 90],
  ];
  for (const [rule, unit, wants] of cases)
    test(`${rule} is ${wants} ${unit}`, () =>
      near(given(`figure x in ${unit} = ${rule}`).number("x"), wants, 5e-11));

  test("1 lb/gal is 0.1198264273 g/mL", () =>
    expect(Math.abs(given("figure x in g/mL = 1 lb/gal").number("x") - 0.1198264273)).toBeLessThanOrEqual(
      1e-10,
    ));
  test("1 lb/ft3 is 16.01846337 kg/m3", () =>
    expect(Math.abs(given("figure x in kg/m3 = 1 lb/ft3").number("x") - 16.01846337)).toBeLessThanOrEqual(
      1e-8,
    ));
  test("22 inHg is 74.5006 kPa (conventional inch of mercury, SP 811 B.8)", () =>
    expect(Math.abs(given("figure x in kPa = 22 inHg").number("x") - 74.5006)).toBeLessThanOrEqual(1e-4));
});

describe("traps of the trade", () => {
  test("glass mat by the square foot (quotients of SP 811 factors, to 0.01 g/m2)", () => {
    for (const [ounces, grams] of [
      ["0.75", 228.86],
      ["1.5", 457.73],
      ["2", 610.3],
      ["3", 915.46],
    ] as const) {
      expect(Math.abs(given(`figure x in g/m2 = ${ounces} oz/ft2`).number("x") - grams)).toBeLessThanOrEqual(
        0.01,
      );
    }
  });
  test("glass cloth by the square yard (quotients of SP 811 factors, to 0.01 g/m2)", () => {
    for (const [ounces, grams] of [
      ["4", 135.62],
      ["6", 203.43],
      ["10", 339.06],
      ["18", 610.3],
      ["24", 813.74],
    ] as const) {
      expect(Math.abs(given(`figure x in g/m2 = ${ounces} oz/yd2`).number("x") - grams)).toBeLessThanOrEqual(
        0.01,
      );
    }
  });
  test("2 oz mat and 18 oz roving weigh the same, exactly", () => {
    const book = given(
      "figure same = 2 oz/ft2 is 18 oz/yd2\nfigure mat in g/m2 = 2 oz/ft2\nfigure roving in g/m2 = 18 oz/yd2",
    );
    expect(book.word("same")).toBe("yes");
    near(book.number("mat"), book.number("roving"), 1e-12);
  });
  test("42 g and 57 g in US Army TM 5-3820-256-24-5, fig. 28, are grams per square foot", () => {
    const book = given("figure light in g = 1 1/2 oz/ft2 * 1 ft2\nfigure heavy in g = 2 oz/ft2 * 1 ft2");
    expect(Math.abs(book.number("light") - 42.52)).toBeLessThanOrEqual(0.01);
    expect(Math.abs(book.number("heavy") - 56.7)).toBeLessThanOrEqual(0.01);
  });
  test("a fluid ounce of resin of 1.10 g/mL is 32.531 g, an ounce is 28.350 g: 14.7 % apart", () => {
    const book = given(
      "figure wet in g = 1 floz * 1.10 g/mL\nfigure dry in g = 1 oz\nfigure apart-by in % = wet / dry - 1",
    );
    expect(Math.abs(book.number("wet") - 32.531)).toBeLessThanOrEqual(0.001);
    expect(Math.abs(book.number("dry") - 28.35)).toBeLessThanOrEqual(0.001);
    expect(Math.abs(book.number("apart-by") - 14.7)).toBeLessThanOrEqual(0.06);
  });
});

// °F = 1.8 °C + 32, SP 811 B.8, exact.
describe("temperatures", () => {
  for (const [f, c] of [
    [60, 15.556],
    [65, 18.333],
    [70, 21.111],
    [77, 25],
    [90, 32.222],
    [110, 43.333],
    [130, 54.444],
    [160, 71.111],
  ] as const) {
    test(`${f} °F is ${c} °C`, () => {
      const has = given(`figure x in °C = ${f} °F`).number("x");
      expect(Math.abs(has - c)).toBeLessThanOrEqual(0.001);
      expect(Math.abs(has - math.unit(f, "degF").toNumber("degC"))).toBeLessThanOrEqual(1e-9);
    });
  }
  for (const [c, f] of [
    [10, 50],
    [16, 60.8],
    [18, 64.4],
    [25, 77],
    [35, 95],
    [60, 140],
  ] as const) {
    test(`${c} °C is ${f} °F`, () => {
      const has = given(`figure x in °F = ${c} °C`).number("x");
      expect(Math.abs(has - f)).toBeLessThanOrEqual(1e-10);
      expect(Math.abs(has - math.unit(c, "degC").toNumber("degF"))).toBeLessThanOrEqual(1e-9);
    });
  }
  for (const [c, f] of [
    ["10", 18],
    ["3", 5.4],
    ["2.5", 4.5],
  ] as const) {
    test(`${c} °C apart is ${f} °F apart, with no 32`, () =>
      expect(Math.abs(given(`figure x in °F apart = ${c} °C apart`).number("x") - f)).toBeLessThanOrEqual(
        1e-12,
      ));
    test(`${f} °F apart is ${c} °C apart`, () =>
      expect(
        Math.abs(given(`figure x in °C apart = ${f} °F apart`).number("x") - Number(c)),
      ).toBeLessThanOrEqual(1e-12));
  }
  test("3 °C apart and 5 °F apart are not the same margin: 5.4 °F and 2.78 °C", () => {
    const book = given("figure a = 3 °C apart is 5 °F apart\nfigure b in °C apart = 5 °F apart");
    expect(book.word("a")).toBe("no");
    expect(Math.abs(book.number("b") - 25 / 9)).toBeLessThanOrEqual(1e-12);
  });
  test("absolute zero and the kelvin scale (SI Brochure: 273.15)", () => {
    const book = given("figure a in K apart = absolute(20 °C)\nfigure b in °C = 0 K\nfigure c in K = 77 °F");
    expect(book.number("a")).toBe(293.15);
    expect(book.number("b")).toBe(-273.15);
    expect(Math.abs(book.number("c") - 298.15)).toBeLessThanOrEqual(1e-10);
  });
  test("a difference of two points is a difference: 77 °F less 25 °C is nothing", () => {
    expect(Math.abs(given("figure x in °C apart = 77 °F - 25 °C").number("x"))).toBeLessThanOrEqual(1e-10);
  });
});
