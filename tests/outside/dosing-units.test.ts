// Amounts of common sums against the units of mathjs, a reference library: the book works in the units of its
// language, the other side is a sum in words of mathjs. Its gallon and ounce are those of NIST Handbook 44.
import { readFileSync } from "node:fs";
import { evaluate } from "mathjs";
import { describe, expect, test } from "vitest";
import { bookOf, given, seeded } from "./small-book.ts";

const SUMS = readFileSync(new URL("../../rulesets/common-sums.bevel", import.meta.url), "utf8");
const close = (has: number, wants: number, part = 1e-9) =>
  expect(Math.abs(has - wants) / Math.abs(wants), `${has} against ${wants}`).toBeLessThanOrEqual(part);

/** One book holds every figure of a test, so that the sums are read once. */
function figures(rules: readonly (readonly [rule: string, unit: string])[]): readonly number[] {
  const book = given(
    bookOf(
      `${SUMS}\n${rules.map(([rule, unit], n) => `figure probe-${n} in ${unit} = ${rule}`).join("\n")}\n`,
    ),
  );
  return rules.map((_, n) => book.number(`probe-${n}`));
}
/** Compares rules of the book with sums of mathjs, each in one unit. */
function same(
  cases: readonly {
    readonly rule: string;
    readonly unit: string;
    readonly sum: string;
    readonly as: string;
    readonly part?: number;
  }[],
): void {
  const has = figures(cases.map((one) => [one.rule, one.unit]));
  cases.forEach((one, n) => close(has[n]!, Number(evaluate(`number(${one.sum}, ${one.as})`)), one.part));
}

const next = seeded(17);
const some = (low: number, high: number): number => Number((low + next() * (high - low)).toFixed(3));

describe("hardener by mass into resin measured by volume", () => {
  const volumes = [
    ["mL", "ml"],
    ["L", "litre"],
    ["gal", "gallon"],
    ["quart", "quart"],
    ["pint", "pint"],
    ["floz", "fluidounce"],
    ["cup", "cup"],
    ["inch3", "inch^3"],
    ["ft3", "ft^3"],
    ["m3", "m^3"],
  ] as const;
  test.each(volumes)("%s", (unit, word) =>
    same(
      Array.from({ length: 5 }, () => {
        const [share, amount, resin, hardener] = [some(0.5, 3), some(0.5, 900), some(1, 1.2), some(1, 1.18)];
        return {
          rule:
            `volume-of(${share} % by mass of mass-of(${amount} ${unit}, ${resin} ` +
            `g/mL), ${hardener} g/mL)`,
          unit: "mL",
          sum: `${share} / 100 * ${amount} ${word} * ${resin} g/ml / (${hardener} g/ml)`,
          as: "ml",
        };
      }),
    ),
  );
  test("densities in pounds to the gallon and kilograms to the cubic metre", () =>
    same(
      Array.from({ length: 8 }, () => {
        const [share, amount, resin, hardener] = [some(0.5, 3), some(0.5, 40), some(8, 10), some(1000, 1180)];
        return {
          rule:
            `volume-of(${share} % by mass of mass-of(${amount} quart, ${resin} ` +
            `lb/gal), ${hardener} kg/m3)`,
          unit: "floz",
          sum: `${share} / 100 * ${amount} quart * ${resin} lbm/gallon / (${hardener} kg/m^3)`,
          as: "fluidounce",
        };
      }),
    ));
});

test("resin weighed in pounds, ounces and kilograms, split by its parts", () =>
  same(
    (["lb", "oz", "kg", "g"] as const).flatMap((unit) => {
      const word = unit === "lb" ? "lbm" : unit === "oz" ? "ounce" : unit;
      const [all, second] = [some(1, 90), some(0.1, 1)];
      return [
        {
          rule: `first-part-of(${all} ${unit}, ${second})`,
          unit: "g",
          sum: `${all} ${word} / (1 + ${second})`,
          as: "g",
        },
        {
          rule: `second-part-of(${all} ${unit}, ${second})`,
          unit: "oz",
          sum: `${all} ${word} * ${second} / (1 + ${second})`,
          as: "ounce",
        },
      ];
    }),
  ));

test("a part by mass is, by volume, the part whose masses are right again", () => {
  for (let n = 0; n < 12; n++) {
    const [part, first, second] = [some(0.005, 1), some(0.9, 1.3), some(0.9, 1.3)];
    const [byVolume, byMass] = figures(
      [
        [`100 * by-volume-from-mass(${part}, ${first} g/mL, ${second} g/mL)`, "number"],
        [`100 * by-mass-from-volume(${part}, ${first} g/mL, ${second} g/mL)`, "number"],
      ].map(([rule, unit]) => [rule!, unit!] as const),
    );
    close(
      byVolume!,
      100 * Number(evaluate(`(${part} kg / (${second} kg/litre)) / (1 kg / (${first} kg/litre))`)),
    );
    close(
      byMass!,
      100 * Number(evaluate(`(${part} litre * ${second} kg/litre) / (1 litre * ${first} kg/litre)`)),
    );
  }
});

test("glass by the square foot and the square yard, and what it drinks", () =>
  same(
    Array.from({ length: 8 }, () => {
      const [ounces, long, wide, part] = [some(0.5, 24), some(2, 40), some(2, 40), some(0.25, 0.6)];
      return [
        { rule: `mat-of(${ounces})`, unit: "g/m2", sum: `${ounces} ounce / (1 ft^2)`, as: "g/m^2" },
        { rule: `cloth-of(${ounces})`, unit: "g/m2", sum: `${ounces} ounce / (1 yard^2)`, as: "g/m^2" },
        {
          rule: `resin-of-glass(box-area(${long} inch, ${wide} inch) * mat-of(${ounces}), ${part})`,
          unit: "oz",
          sum: `${long} inch * ${wide} inch * ${ounces} ounce / (1 ft^2) * (1 - ${part}) / ${part}`,
          as: "ounce",
        },
      ];
    }).flat(),
  ));

test("beads, puddles and batches", () =>
  same(
    Array.from({ length: 6 }, () => {
      const [volume, across, thick, minutes, pace] = [
        some(0.1, 5),
        some(2, 9),
        some(4, 15),
        some(3, 60),
        some(5, 60),
      ];
      return [
        {
          rule: `bead-of(${volume} floz, ${across} mm)`,
          unit: "inch",
          sum: `${volume} fluidounce / (pi / 4 * (${across} mm)^2)`,
          as: "inch",
        },
        {
          rule: `puddle-of(${across} inch, ${thick} mm)`,
          unit: "mL",
          sum: `pi / 4 * (${across} inch)^2 * ${thick} mm`,
          as: "ml",
        },
        {
          rule: `usable-batch(${minutes} min, ${pace} g/min, 100 kg)`,
          unit: "oz",
          sum: `${minutes} minute * ${pace} g/minute`,
          as: "ounce",
        },
      ];
    }).flat(),
  ));

test("time by the rate law, with the gas constant that mathjs holds", () =>
  same(
    Array.from({ length: 8 }, () => {
      const [known, barrier, there, here] = [some(5, 90), some(40, 80), some(15, 35), some(15, 35)];
      return {
        rule: `time-by-law(${known} min, ${barrier} kJ/mol, ${there} °C, ${here} °C)`,
        unit: "min",
        sum:
          `${known} minute * exp(number(${barrier} kJ/mol / gasConstant, K) * (1 / (${here} + ` +
          `273.15) - 1 / (${there} + 273.15)))`,
        as: "minute",
      };
    }),
  ));
