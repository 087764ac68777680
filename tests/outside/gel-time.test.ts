// Gel time and temperature, as rules of a book: the doubling rule and Arrhenius' law. R = 8.314462618 J/mol/K
// (CODATA 2018). Activation energy of cobalt/peroxide cure 40 to 60 kJ/mol: J. Appl. Polym. Sci. 102 (2006)
// 1870-1876, abstract. The doubling rule itself is common practice, no source.
import { describe, expect, test } from "vitest";
import { bookOf, given } from "./small-book.ts";

const near = (has: number, wants: number, tolerance: number) =>
  expect(Math.abs(has - wants), `${has} against ${wants}`).toBeLessThanOrEqual(tolerance);

const RULES = bookOf(`ask air in °C, -10 to 80
dial gas = 8.314462618 J/mol/K, from 8 J/mol/K to 9 J/mol/K
    from standard "CODATA 2018"
dial barrier = 50 kJ/mol, from 40 kJ/mol to 60 kJ/mol
    from standard "J. Appl. Polym. Sci. 102 (2006) 1870-1876"
dial known-gel = 20 min, from 5 min to 60 min
    from practice
dial known-at = 25 °C, from 15 °C to 30 °C
    from practice
figure doubling in min = known-gel * 2 ^ ((known-at - air) / 10 °C apart)
figure arrhenius in min = known-gel * exp(barrier / gas * (1 / absolute(air) - 1 / absolute(known-at)))
`);

describe("20 min at 25 °C", () => {
  for (const [celsius, doubling, arrhenius] of [
    [10, 56.569, 58.22],
    [15, 40, 40.274],
    [20, 28.284, 28.212],
    [30, 14.142, 14.34],
    [35, 10, 10.394],
    [40, 7.071, 7.611],
  ] as const) {
    test(`at ${celsius} °C: ${doubling} min by doubling, ${arrhenius} min by Arrhenius at 50 kJ/mol`, () => {
      const book = given(RULES, { air: `${celsius} °C` });
      near(book.number("doubling"), doubling, 0.001);
      near(book.number("arrhenius"), arrhenius, 0.001);
    });
  }
  test("the same in °F: 95 °F halves it", () =>
    near(given(RULES, { air: "95 °F" }).number("doubling"), 10, 1e-9));
});

const law = (from: string, to: string) => `(1 / absolute(${from}) - 1 / absolute(${to}))`;
const gas = "8.314462618 J/mol/K";

describe("Arrhenius", () => {
  for (const [from, to, kj] of [
    ["10 °C", "20 °C", 47.84],
    ["20 °C", "30 °C", 51.22],
    ["25 °C", "35 °C", 52.95],
  ] as const) {
    test(`what makes ${from} to ${to} exactly double: ${kj} kJ/mol`, () =>
      near(given(`figure x in kJ/mol = ${gas} * ln(2) / ${law(from, to)}`).number("x"), kj, 0.01));
  }
  for (const [kj, factor] of [
    [40, 1.7183],
    [50, 1.9674],
    [60, 2.2525],
    [80, 2.9526],
  ] as const) {
    test(`rate from 20 to 30 °C at ${kj} kJ/mol: ${factor}`, () =>
      near(
        given(`figure x = exp(${kj} kJ/mol / (${gas}) * ${law("20 °C", "30 °C")})`).number("x"),
        factor,
        0.0001,
      ));
  }
  for (const [kj, factor] of [
    [40, 1.7853],
    [50, 2.0637],
    [60, 2.3854],
  ] as const) {
    test(`rate from 10 to 20 °C at ${kj} kJ/mol: ${factor}`, () =>
      near(
        given(`figure x = exp(${kj} kJ/mol / (${gas}) * ${law("10 °C", "20 °C")})`).number("x"),
        factor,
        0.0001,
      ));
  }
});

describe("the doubling rule", () => {
  test("60 to 90 °F: 3.1748 times as fast", () =>
    near(given("figure x = 2 ^ ((90 °F - 60 °F) / 10 °C apart)").number("x"), 3.1748, 0.0001));
  test("77 to 95 °F: half the time, exactly", () =>
    near(given("figure x = 2 ^ ((77 °F - 95 °F) / 18 °F apart)").number("x"), 0.5, 1e-12));
  // US Army TM 55-1520-240-23-4, task 5-66: serviceable after 36 h at 70 °F, 16 h at 110 to 130 °F.
  test(
    "what it would make of a published window of 36 h at 70 °F: 7.72 h at 110 °F, 3.57 h at 130 " +
      "°F, against 16 h published",
    () => {
      const book = given(
        "formula doubled(at-least in h, from-here in °C, there in °C) = at-least * 2 ^ " +
          "((from-here - there) / 10 °C apart)\nfigure a in h = doubled(36 h, 70 °F, 110 " +
          "°F)\nfigure b in h = doubled(36 h, 70 °F, 130 °F)\nfigure less = a < 16 h",
      );
      near(book.number("a"), 7.72, 0.01);
      near(book.number("b"), 3.57, 0.01);
      expect(book.word("less")).toBe("yes");
    },
  );
});

// US Army TM 1-1500-204-23-11, chapter 7: above 90 °F the pot life of an epoxy patch resin is halved.
test("pot life halved above 90 °F (32.2 °C)", () => {
  const book = bookOf(
    "ask air in °F, 40 to 130\nfigure pot-life in min = 15 min if air > 90 °F, otherwise 30 min",
  );
  expect(
    [
      given(book, { air: "90 °F" }),
      given(book, { air: "32.2 °C" }),
      given(book, { air: "91 °F" }),
      given(book, { air: "32.3 °C" }),
    ].map((one) => one.word("pot-life")),
  ).toEqual(["30 min", "30 min", "15 min", "15 min"]);
});

// Polymers 16(17):2391 (2024), conclusions: gel after 13 and 60 min.
test("ratio of two published gel times: 4.615, or 361.5 % more", () => {
  const book = given("figure times = 60 min / 13 min\nfigure more in % = times - 1");
  near(book.number("times"), 4.615, 0.001);
  near(book.number("more"), 361.5, 0.1);
});

// Matuskova, Vinklarek, Honzicek, Ind. Eng. Chem. Res. (2021), supporting information, table S1: gel time
// against cobalt.
describe("measured gel times as a chart along a curve", () => {
  const rows: readonly (readonly [share: string, minutes: number])[] = [
    ["0.001", 108],
    ["0.003", 31.5],
    ["0.006", 16.5],
    ["0.01", 9.8],
    ["0.03", 5.3],
    ["0.06", 3.9],
    ["0.1", 3.5],
  ];
  const book = bookOf(
    `ask cobalt in %, 0 to 1\nchart gel by cobalt gives min\n    curve between rows, nothing ` +
      `outside\n    cobalt | ` +
      `gel\n${rows.map(([share, minutes]) => `    ${share} % | ${minutes}`).join("\n")}\n    ` +
      `from standard "Ind. Eng. Chem. Res. (2021), table S1"`,
  );
  test("each measured point comes back as it is", () => {
    for (const [share, minutes] of rows)
      expect(given(book, { cobalt: `${share} %` }).number("gel")).toBeCloseTo(minutes, 10);
  });
  test("more cobalt is never slower between the points", () => {
    let last = Infinity;
    for (let share = 0.001; share <= 0.1; share += 0.0005) {
      const now = given(book, { cobalt: `${share.toFixed(4)} %` }).number("gel");
      expect(now).toBeLessThanOrEqual(last + 1e-9);
      last = now;
    }
  });
});

test("adiabatic heating: 350 J/g over 2.0 J/g per kelvin is 175 (inputs from memory)", () =>
  near(given("figure x in K apart = 350 J/g / 2.0 J/g/K").number("x"), 175, 1e-9));
