// The shipped book of road panels against the world: the bonded face against plain geometry and numerical
// integration, its grit ladder against the P grades of FEPA 43 / ISO 6344 in plain code, its solvents against
// published rates and flash points.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { bookOf, given, seeded } from "./small-book.ts";

const book = bookOf(readFileSync(new URL("../../rulesets/road-panels.bevel", import.meta.url), "utf8"));
const near = (has: number, wants: number, relative: number) =>
  expect(Math.abs(has - wants), `${has} against ${wants}`).toBeLessThanOrEqual(relative * Math.abs(wants));

describe("the face that a bevel gives to bond on", () => {
  test("of a round hole: the side of a truncated cone, pi (r + R) s", () => {
    const by = seeded(7);
    for (let n = 0; n < 40; n++) {
      const [across, thick] = [20 + Math.floor(by() * 300), 1 + Math.floor(by() * 100) / 10];
      const job = given(book, {
        "longest-side": `${across} mm`,
        "shortest-side": `${across} mm`,
        thickness: `${thick} mm`,
        damage: "through",
        flexes: "no",
      });
      const run = Math.ceil((thick * 10) / 5 - 1e-9) * 5;
      near(
        job.number("bond-face"),
        (Math.PI * (across / 2 + across / 2 + run) * Math.hypot(run, thick)) / 100,
        1e-9,
      );
      near(job.number("notch-face"), (Math.PI * across * thick) / 100, 1e-9);
    }
  });
  test(
    "of an oval up to four times as long as wide: its rim within a thousandth of the " +
      "integral of its arc",
    () => {
      for (const [long, wide] of [
        [120, 80],
        [100, 50],
        [200, 50],
        [300, 299],
      ] as const) {
        const [a, b, parts] = [long / 2, wide / 2, 20_000];
        let rim = 0;
        for (let i = 0; i < parts; i++) {
          const t = ((i + 0.5) / parts) * 2 * Math.PI;
          rim += (Math.hypot(a * Math.sin(t), b * Math.cos(t)) * 2 * Math.PI) / parts;
        }
        near(
          given(book, { "longest-side": `${long} mm`, "shortest-side": `${wide} mm` }).number("hole-rim"),
          rim,
          0.001,
        );
      }
    },
  );
});

describe("the grit ladder", () => {
  const P: readonly (readonly [number, number])[] = [
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
  ];
  const text = readFileSync(new URL("../../rulesets/road-panels.bevel", import.meta.url), "utf8");
  const ladder = (from: number, to: number, step: number): number[] => {
    const out = [from];
    while (out.at(-1)! < to) {
      const least = P.find(([grade]) => grade === out.at(-1))![1] / step;
      out.push(Math.min(to, P.findLast(([, um]) => um >= least * (1 - 1e-12))![0]));
    }
    return out;
  };
  const words = (grits: readonly number[]) => grits.map((grit) => `P${grit}`).join(", then ");
  // Common practice, no source: how large a step may be.
  for (const [step, rough, primer] of [
    [2.2, 40, 240],
    [1.8, 36, 320],
    [2.5, 36, 180],
    [1.8, 60, 220],
    [2.2, 50, 320],
  ] as const) {
    test(`steps of at most ${step}, P${rough} to P${primer}`, () => {
      const tuned = bookOf(
        text
          .replace("dial largest-grit-step = 2.2", `dial largest-grit-step = ${step}`)
          .replace("dial rough-grit = 40", `dial rough-grit = ${rough}`)
          .replace("dial primer-grit = 240", `dial primer-grit = ${primer}`),
        ["worked/fails"],
      );
      const job = given(tuned, { thickness: "3 mm", damage: "through" });
      expect(job.word("grits")).toBe(words(ladder(rough, 80, step)));
      expect(job.word("level-grits")).toBe(words(ladder(80, primer, step).slice(0, -1)));
      expect(job.number("steepest-step")).toBeLessThanOrEqual(step);
    });
  }
});

describe("solvents for bare fibres", () => {
  // Rates against butyl acetate = 1 and their classes (a published hazard glossary; isopropyl alcohol from
  // memory); flash points of IEC 60079-20-1 (2010), white spirit from memory.
  const PUBLISHED = [
    ["acetone", 5.6, -20],
    ["butanone", 3.8, -10],
    ["isopropyl-alcohol", 1.7, 12],
    ["ethanol", 1.4, 12],
    ["xylene", 0.6, 25],
    ["white-spirit", 0.1, 38],
  ] as const;
  const text = readFileSync(new URL("../../rulesets/road-panels.bevel", import.meta.url), "utf8");
  for (const [solvent, rate, flash] of PUBLISHED)
    test(`${solvent}: ${rate}, ${flash} °C`, () => {
      const tuned = bookOf(
        text.replace("dial fibre-wipe of solvent = acetone", `dial fibre-wipe of solvent = ${solvent}`),
        ["worked/fails", "promise/broken"],
      );
      expect(
        tuned.findings.some((one) => one.code === "promise/broken"),
        "only a fast one keeps the promise",
      ).toBe(rate <= 3);
      const job = given(tuned);
      expect(job.word("wipe-leaves")).toBe(rate > 3 ? "fast" : rate >= 0.8 ? "medium" : "slow");
      expect(job.number("wipe-flash")).toBeCloseTo(flash, 9);
      expect(job.number("wipe-wait")).toBe(Math.ceil((10 * 5.6) / rate / 5 - 1e-9) * 5);
    });
});

// R = 8.314462618 J/mol/K (CODATA 2018); 40 to 60 kJ/mol for polyester with peroxide and cobalt (J. Appl.
// Polym. Sci. 102 (2006) 1870-1876, abstract).
test(
  "working time by Arrhenius' law from the chart's 20 °C, within a fifth of the chart where the " +
    "bay is neither too cold nor too hot",
  () => {
    for (const [strands, back, known] of [
      ["layered", "rough", 25],
      ["chopped", "smooth", 45],
    ] as const) {
      for (let air = 15; air <= 32; air++) {
        const job = given(book, { strands, back, air: `${air} °C`, panel: `${air} °C` });
        const law = known * Math.exp((45_000 / 8.314462618) * (1 / (air + 273.15) - 1 / 293.15));
        near(job.number("law-working"), law, 1e-9);
        near(job.number("resin-pace.working"), law, 0.2);
      }
    }
  },
);

test("the cost of a job is its work and what it weighs, in plain arithmetic", () => {
  const worked = book.worked.find((one) => one.name === "laid-up")!;
  const job = given(book, worked.answers);
  const minutes = job.view.steps.reduce((all, step) => all + (step.minutes?.takes ?? 0), 0);
  // The card shows each step to a tenth of a minute; the sum is of what lies behind it.
  expect(Math.abs(job.number("work-time") - minutes)).toBeLessThan(0.05 * job.view.steps.length);
  const materials =
    (9 * (job.number("patch-batch") + job.number("resin-batch")) +
      8 * (job.number("patch-glass") + job.number("glass-needed"))) /
      1000 +
    24;
  expect(job.number("materials")).toBeCloseTo(materials, 6);
  expect(job.number("repair-cost")).toBe(Math.round(materials + (job.number("work-time") / 60) * 58));
});

test("no cup sets before it is laid, and none is one too many", () => {
  const by = seeded(11);
  for (let n = 0; n < 60; n++) {
    const [long, air] = [160 + Math.floor(by() * 240), 15 + Math.floor(by() * 18)];
    const job = given(book, {
      edge: "glass-fibre",
      strands: "layered",
      back: "rough",
      damage: "through",
      "longest-side": `${long} mm`,
      "shortest-side": `${long - 50} mm`,
      thickness: "4 mm",
      flexes: "no",
      air: `${air} °C`,
      panel: `${air} °C`,
      "can-least": "1 %",
      "can-most": "2 %",
    });
    // Three quarters of the working time are counted on; 3 min for each ply, 25 g laid in a minute.
    const within = 0.75 * job.number("resin-pace.working");
    const usable = Math.min(500, 25 * within);
    expect(job.number("usable-cup")).toBeCloseTo(usable, 9);
    const cups = (batch: number, layers: number, lots: number) =>
      lots *
      Math.max(
        Math.ceil(batch / lots / usable - 1e-9),
        Math.ceil((3 * layers + batch / 25) / lots / within - 1e-9),
      );
    const [resin, patch] = [job.number("resin-batch"), job.number("patch-batch")];
    expect(job.number("cups")).toBe(cups(resin, job.number("ply-count"), job.number("lots")));
    // 4 mm lies between two published panels: two layers of each mat.
    expect(job.number("patch-cups")).toBe(cups(patch, 4, job.number("patch-lots")));
    for (const name of ["cup-resin", "patch-cup"])
      expect(job.number(name)).toBeLessThanOrEqual(Math.max(50, usable + 5));
  }
});
