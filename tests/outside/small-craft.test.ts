// The boat book against sums done again here in plain code. Published in it: the thickness form of ISO
// 12215-5 (3.072, 2.56, 1.36: from memory), the Magnus form with the constants of WMO-No. 8, annex 4.B,
// Arrhenius' law with the gas constant of CODATA 2018, the grains of FEPA 43 / ISO 6344, the 3 inch of US
// Army TM 5-3820-256-24-5 and the first ply of FAA AC 43.13-1B, par. 3-2b(1). Tapers of 1:12 and 1:15:
// practice.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { Answers } from "../../core/view.ts";
import { readBook } from "../../engine/index.ts";
import { type Given, given, seeded } from "./small-book.ts";

const read = (name: string): string =>
  readFileSync(new URL(`../../rulesets/${name}.bevel`, import.meta.url), "utf8");
const BOOK = readBook(read("small-craft"), undefined, [read("common-sums")]);
const HULL: Answers = {
  duty: "plain",
  place: "bottom",
  fibre: "glass",
  damage: "through",
  build: "single",
  "built-with": "ester-built",
  "outside-coat": "gel-coat",
  ashore: "yes",
  "back-open": "yes",
  meter: "8",
  "longest-side": "120 mm",
  "shortest-side": "80 mm",
  spread: "20 mm",
  thickness: "6 mm",
  "to-edge": "400 mm",
  air: "20 °C",
  panel: "20 °C",
  humidity: "50 %",
  "can-coldest": "5 °C",
  "can-least": "1 %",
  "can-most": "2.5 %",
  "can-hardener": "25 %",
};
const near = (has: number, wants: number, tolerance: number) =>
  expect(Math.abs(has - wants), `${has} against ${wants}`).toBeLessThanOrEqual(tolerance);
/** Up to the next multiple; what is a multiple but for dust stays. */
const up = (x: number, to: number): number => Math.ceil(x / to - 1e-9) * to;

/** Thickness of one ply in mm by the ISO 12215-5 form, for polyester and vinyl ester. */
const iso = (kgPerM2: number, psi: number): number => (kgPerM2 / 3.072) * (2.56 / psi - 1.36);
const saturated = (celsius: number): number => Math.exp((17.62 * celsius) / (243.12 + celsius));
const dewPoint = (celsius: number, humidity: number): number => {
  const g = Math.log(humidity) + (17.62 * celsius) / (243.12 + celsius);
  return (243.12 * g) / (17.62 - g);
};
/** How many times as long a cure takes as at 20 °C, at 50 kJ/mol. */
const slower = (celsius: number): number =>
  Math.exp((50_000 / 8.314462618) * (1 / (celsius + 273.15) - 1 / 293.15));

interface Hole {
  readonly long: number;
  readonly wide: number;
  readonly spread: number;
  readonly skin: number;
}

/** The plies of a hole in a bottom, in vinyl ester, at 20 °C. */
function plies({ long, wide, spread, skin }: Hole) {
  const [mat, roving] = [iso(0.3, 0.3), iso(0.6, 0.48)];
  const bevel = up(skin * 15, 5);
  const pairs = Math.ceil((skin - mat) / (mat + roving) - 1e-9);
  const count = 2 * pairs + 1;
  let [glass, resin] = [0, 0];
  for (let n = 1; n <= count; n++) {
    const [a, b] = [long + 2 * spread + (2 * n * bevel) / count, wide + 2 * spread + (2 * n * bevel) / count];
    const own = (Math.PI / 4) * a * b * (n % 2 === 1 ? 300e-6 : 600e-6);
    glass += own;
    resin += own * (n % 2 === 1 ? 0.7 / 0.3 : 0.52 / 0.48);
  }
  const total = Math.max(50, up(resin * 1.15, 10));
  const stack = (pairs + 1) * mat + pairs * roving;
  const lots = Math.max(1, Math.ceil(stack / 4 - 1e-9));
  const cups = lots * Math.ceil(total / lots / Math.min(600, 15 * 25 * 0.75) - 1e-9);
  return { bevel, count, stack, glass, resin, total, cups, cup: Math.max(50, total / cups) };
}

describe("plies", () => {
  test("the 6 mm hull: 90 mm of bevel at 1:15, nine plies of 6.607 mm, 330 g of resin in two cups", () => {
    const [job, again] = [given(BOOK, HULL), plies({ long: 120, wide: 80, spread: 20, skin: 6 })];
    expect([again.bevel, again.count, again.total, again.cups]).toEqual([90, 9, 330, 2]);
    held(job, again);
  });
  test("two hundred hulls by chance come out as they do here", () => {
    const next = seeded(12);
    for (let n = 0; n < 200; n++) {
      const hole: Hole = {
        long: 40 + Math.floor(next() * 200),
        wide: 30 + Math.floor(next() * 10),
        spread: 5 * Math.floor(next() * 6),
        skin: 2 + Math.floor(next() * 20) / 2,
      };
      held(
        given(BOOK, {
          ...HULL,
          "longest-side": `${hole.long} mm`,
          "shortest-side": `${hole.wide} mm`,
          spread: `${hole.spread} mm`,
          thickness: `${hole.skin} mm`,
        }),
        plies(hole),
      );
    }
  });
  test("one ply: 300 g/m2 mat at 30 % is 0.7005 mm, 600 g/m2 roving at 48 % is 0.7760 mm (ISO form)", () => {
    const job = given(BOOK, HULL);
    near(job.number("mat-ply"), 0.7005, 0.0001);
    near(job.number("roving-ply"), 0.776, 0.0001);
  });
});

function held(job: Given, again: ReturnType<typeof plies>): void {
  near(job.number("bevel-width"), again.bevel, 1e-9);
  near(job.number("ply-count"), again.count, 1e-9);
  near(job.number("stack"), again.stack, 1e-6);
  near(job.number("glass-needed"), Math.ceil(again.glass - 1e-7), 1e-6);
  near(job.number("resin-needed"), again.resin, 1e-6);
  near(job.number("resin-total"), again.total, 1e-6);
  near(job.number("cups"), again.cups, 1e-9);
  near(job.number("cup-resin"), again.cup, 0.5 + 1e-6);
  near(job.number("cup-peroxide"), 0.0175 * job.number("cup-resin"), 0.05 + 1e-9);
}

describe("weather and time", () => {
  for (const [celsius, percent, dew] of [
    [20, 50, 9.255],
    [15, 60, 7.292],
    [25, 60, 16.693],
    [18, 65, 11.319],
  ] as const) {
    test(`dew point at ${celsius} °C and ${percent} %: ${dew} °C (WMO constants)`, () =>
      near(
        given(BOOK, { ...HULL, air: `${celsius} °C`, humidity: `${percent} %` }).number("dew-point"),
        dew,
        0.001,
      ));
  }
  test(
    "a tent warmed to 20 °C holds the same water: 85 % at 14 °C is 58.1 % there, and the dew " +
      "point stays",
    () => {
      const job = given(BOOK, { ...HULL, air: "14 °C", panel: "14 °C", humidity: "85 %", "can-heat": "yes" });
      near(job.number("lay-humidity"), (85 * saturated(14)) / saturated(20), 1e-6);
      near(job.number("dew-point"), dewPoint(14, 0.85), 1e-6);
      expect(job.view.state).toBe("ready");
    },
  );
  test("without heat, fast epoxy never waits shorter than Arrhenius' law, nor is used longer", () => {
    for (let at = 10; at < 16; at += 0.5) {
      const job = given(BOOK, {
        ...HULL,
        air: `${at} °C`,
        panel: `${at} °C`,
        humidity: "40 %",
        "can-heat": "no",
      });
      expect(job.word("resin")).toMatch(/fast/);
      expect(job.number("sand-after")).toBeGreaterThanOrEqual(12 * slower(at) - 1e-9);
      expect(job.number("working")).toBeLessThanOrEqual(20 * slower(at) + 1e-9);
      near(job.number("load-wait"), Math.ceil(7 * slower(at) - 1e-9), 1e-9);
    }
  });
  test(
    "at every temperature from -10 to 45 °C the hull is released or stopped, and never released " +
      "cold in polyester or vinyl ester",
    () => {
      for (const heat of ["yes", "no"])
        for (let at = -10; at <= 45; at++) {
          const { view, word, number } = given(BOOK, {
            ...HULL,
            air: `${at} °C`,
            panel: `${at} °C`,
            humidity: "40 %",
            "can-heat": heat,
          });
          expect(view.state, `${at} °C, heat ${heat}`).toBe(
            at > 32 || at < (heat === "yes" ? 0 : 10) ? "stopped" : "ready",
          );
          if (view.state === "ready" && !/epoxy/.test(word("resin")))
            expect(number("cure-at")).toBeGreaterThanOrEqual(16);
        }
    },
  );
});

test(
  "grits: no step of grains (FEPA 43 / ISO 6344) over 2.5, from the cutting disc to the " + "last wet paper",
  () => {
    const um: Readonly<Record<number, number>> = {
      40: 425,
      80: 201,
      120: 125,
      180: 82,
      320: 46.2,
      600: 25.8,
      1000: 18.3,
    };
    const job = given(BOOK, HULL);
    const [cut, bevel, key, shape, primer, wet1, wet2, wet3] = [
      "cut-grit",
      "bevel-grit",
      "key-grit",
      "shape-grit",
      "primer-grit",
      "wet-grit-1",
      "wet-grit-2",
      "wet-grit-3",
    ].map((name) => um[job.number(name)]!) as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    for (const [coarse, fine] of [
      [cut, bevel],
      [key, shape],
      [shape, primer],
      [wet1, wet2],
      [wet2, wet3],
    ] as const)
      expect(coarse / fine).toBeLessThanOrEqual(2.5);
  },
);
test("epoxy 4:1 by mass with 1.15 and 0.98 g/mL is 0.2934 by volume (mass balance)", () =>
  near(given(BOOK, HULL).number("volume-mix"), 0.25 * (1.15 / 0.98), 1e-9));
test("exactly 3 inch and exactly 1 mm is filled, a hair more of either is laid up", () => {
  const shallow = { ...HULL, place: "topside", damage: "torn", spread: "0 mm" };
  const method = (long: string, depth: string) =>
    given(BOOK, { ...shallow, "longest-side": long, depth }).word("method");
  expect(
    [method("3 inch", "1 mm"), method("76.3 mm", "1 mm"), method("3 inch", "1.1 mm")].map((word) =>
      /putty/i.test(word),
    ),
  ).toEqual([true, false, false]);
});
