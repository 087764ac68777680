// Volume ground away, two independent ways: the closed form in the rule language, and a numeric integration
// over the depth written here in plain code (Simpson's rule on 2,000 slices). Published-style values to the
// tolerance stated.
import { describe, expect, test } from "vitest";
import { bookOf, given } from "./small-book.ts";

const near = (has: number, wants: number, tolerance: number) =>
  expect(Math.abs(has - wants), `${has} against ${wants}`).toBeLessThanOrEqual(tolerance);

/** Integral of an area over depth from 0 to t, in the units of its arguments. */
function integrate(area: (z: number) => number, t: number, slices = 2000): number {
  const h = t / slices;
  let sum = area(0) + area(t);
  for (let i = 1; i < slices; i++) sum += area(i * h) * (i % 2 === 1 ? 4 : 2);
  return (sum * h) / 3;
}

/** Perimeter of an ellipse by integration of its arc length. */
const ellipse = (a: number, b: number): number =>
  4 * integrate((angle) => Math.hypot(a * Math.sin(angle), b * Math.cos(angle)), Math.PI / 2);

const RULES = `formula frustum(small in mm, large in mm, t in mm) =
    pi * t / 3 * (small ^ 2 + small * large + large ^ 2)
formula box(a in mm, b in mm, t in mm, k, corner) =
    a * b * t + (a + b) * k * t ^ 2 + corner * k ^ 2 * t ^ 3 / 3
formula oval(a in mm, b in mm, t in mm, k) = pi * (a * b * t + (a + b) * k * t ^ 2 / 2 + k ^ 2 * t ^ 3 / 3)
`;
const volume = (rule: string, unit = "mm3") => given(`${RULES}figure v in ${unit} = ${rule}`).number("v");

test("round hole of 50 mm, 3 mm, 1:12: 18 444.290 mm3; the ring alone 12 553.804", () => {
  const closed = volume("frustum(25 mm, 25 mm + (3 mm run out at 1:12), 3 mm)");
  near(closed, 18444.29, 0.001);
  near(
    closed,
    integrate((z) => Math.PI * (25 + 12 * z) ** 2, 3),
    0.001,
  );
  near(
    volume("frustum(25 mm, 25 mm + (3 mm run out at 1:12), 3 mm) - pi * (25 mm) ^ 2 * 3 mm"),
    12553.804,
    0.001,
  );
});

test("round hole of 3 inch, 0.100 inch, 1:20: 2.068215 inch3 or 33.892 mL", () => {
  const rule = "frustum(1 1/2 inch, 1 1/2 inch + (0.100 inch run out at 1:20), 0.100 inch)";
  near(volume(rule, "inch3"), 2.068215, 1e-6);
  near(
    volume(rule, "inch3"),
    integrate((z) => Math.PI * (1.5 + 20 * z) ** 2, 0.1),
    1e-9,
  );
  near(volume(rule, "mL"), 33.892, 0.0005);
});

test("a dish to a point, 0.5 mm deep at 1:50 (NAVEDTRA 14315, fig. 5-8): 327.249 mm3", () => {
  near(volume("pi / 3 * (0.5 mm run out at 1:50) ^ 2 * 0.5 mm"), 327.249, 0.001);
  near(
    volume("pi / 3 * (0.5 mm run out at 1:50) ^ 2 * 0.5 mm"),
    integrate((z) => Math.PI * (50 * z) ** 2, 0.5),
    0.001,
  );
});

describe("rectangle of 100 by 60 mm, 4 mm, 1:12", () => {
  test("round corners: 64 370.973 mm3", () => {
    const closed = volume("box(100 mm, 60 mm, 4 mm, 12, pi)");
    near(closed, 64370.973, 0.01);
    near(
      closed,
      integrate((z) => 100 * 60 + 2 * 160 * 12 * z + Math.PI * (12 * z) ** 2, 4),
      0.01,
    );
  });
  test("square corners: 67 008 mm3, 4.1 % more; outside 196 by 156 mm", () => {
    const closed = volume("box(100 mm, 60 mm, 4 mm, 12, 4)");
    near(closed, 67008, 0.01);
    near(
      closed,
      integrate((z) => (100 + 24 * z) * (60 + 24 * z), 4),
      0.01,
    );
    const book = given(
      `${RULES}figure more in % = box(100 mm, 60 mm, 4 mm, 12, 4) / box(100 mm, 60 mm, 4 mm, ` +
        `12, pi) - 1\nfigure long in mm = 100 mm + 2 * (4 mm run out at 1:12)\nfigure short in ` +
        `mm = 60 mm + 2 * (4 mm run out at 1:12)`,
    );
    near(book.number("more"), 4.1, 0.05);
    expect([book.number("long"), book.number("short")]).toEqual([196, 156]);
  });
});

describe("ellipse of 120 by 80 mm, 5 mm, 1:10", () => {
  test("both axes growing: 90 058.989 mm3", () => {
    const closed = volume("oval(60 mm, 40 mm, 5 mm, 10)");
    near(closed, 90058.989, 0.001);
    near(
      closed,
      integrate((z) => Math.PI * (60 + 10 * z) * (40 + 10 * z), 5),
      0.001,
    );
  });
  test("perimeter: 317.308792 mm by the elliptic integral, 317.308751 by Ramanujan's first formula", () => {
    const ramanujan = given(
      "figure p in mm = pi * (3 * (60 mm + 40 mm) - sqrt((3 * 60 mm + 40 mm) * (60 mm + 3 * 40 mm)))",
    ).number("p");
    near(ramanujan, 317.308751, 1e-6);
    near(ellipse(60, 40), 317.308792, 1e-6);
  });
  test("taper of constant width: 90 452.680 mm3, 0.44 % more", () => {
    const closed = volume(
      "pi * 60 mm * 40 mm * 5 mm + 317.308792 mm * 10 * (5 mm) ^ 2 / 2 + pi * 10 ^ 2 * (5 mm) ^ 3 / 3",
    );
    near(closed, 90452.68, 0.01);
    // Area of a curve moved outwards by d: A + P d + pi d2 (Steiner's formula).
    near(
      closed,
      integrate((z) => Math.PI * 2400 + ellipse(60, 40) * 10 * z + Math.PI * (10 * z) ** 2, 5, 200),
      0.01,
    );
    near((closed / 90058.989 - 1) * 100, 0.44, 0.005);
  });
});

test("plan of the taper round 50 mm at 36 mm: 9726.371 mm2", () =>
  near(given("figure a in mm2 = pi * ((61 mm) ^ 2 - (25 mm) ^ 2)").number("a"), 9726.371, 0.001));

test("ground from both sides, each 1.5 mm at 1:12: 11 149.512 mm3, 60.4 % of one side", () => {
  const rule = "2 * frustum(25 mm, 25 mm + (1.5 mm run out at 1:12), 1.5 mm)";
  near(volume(rule), 11149.512, 0.001);
  near(volume(rule), 2 * integrate((z) => Math.PI * (25 + 12 * z) ** 2, 1.5), 0.001);
  near(
    given(`${RULES}figure part-of in % = ${rule} / frustum(25 mm, 61 mm, 3 mm)`).number("part-of"),
    60.4,
    0.06,
  );
});

test(
  "mass that goes back into 18 444.290 mm3 at 1.4275 g/mL and 0.30: 26.329 g, of it 7.899 g glass " +
    "and 18.430 g resin",
  () => {
    const book = given(
      `${RULES}figure all in g = frustum(25 mm, 61 mm, 3 mm) / (0.30 / 2.56 g/mL + 0.70 / 1.20 ` +
        `g/mL) * 1\nfigure glass in g = 30 % by mass of all\nfigure resin in g = all - glass`,
    );
    near(book.number("all"), 26.329, 0.001);
    near(book.number("glass"), 7.899, 0.001);
    near(book.number("resin"), 18.43, 0.001);
  },
);

describe("limits", () => {
  const book = bookOf(
    `${RULES}ask t in mm, 0 to 10\nask k in count, 0 to 100\nfigure v in mm3 = frustum(25 mm, ` +
      `25 mm + k * t, t)\nfigure plan in mm3 = pi * (25 mm) ^ 2 * t`,
  );
  test("no depth, no volume", () => expect(given(book, { t: "0 mm", k: "12" }).number("v")).toBe(0));
  test("no taper: the plan times the depth", () => {
    const job = given(book, { t: "3 mm", k: "0" });
    near(job.number("v"), job.number("plan"), 1e-9);
  });
});
