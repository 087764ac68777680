// Charts read straight or along a curve, against independent computations.
//
// Straight: the textbook formulas of linear and bilinear interpolation, written here anew. Curve: M. Steffen,
// "A simple method for monotonic interpolation in one dimension", Astronomy and Astrophysics 239 (1990)
// 443-450: exact at the points, monotone between them, first derivative continuous. One example by hand.
import { describe, expect, test } from "vitest";
import { bookOf, given, seeded } from "./small-book.ts";
import { readBook, showJob, workJob } from "../../engine/index.ts";
import type { Book } from "../../engine/index.ts";

const oneWay = (mode: string, points: readonly (readonly [number, number])[], outside = ""): Book =>
  bookOf(
    [
      `ask x in mm, -1000 to 1000`,
      `chart y by x gives g`,
      `    ${mode} between rows${outside}`,
      `    x | y`,
      ...points.map(([x, y]) => `    ${x} | ${y}`),
      `    from practice`,
    ].join("\n"),
  );
const at = (book: Book, x: number): number => given(book, { x: `${x} mm` }).number("y");

/** Rising places with values at random. */
function points(next: () => number, count: number): [number, number][] {
  let x = Math.round(next() * 100) / 10;
  return Array.from({ length: count }, () => {
    x += 0.5 + Math.round(next() * 100) / 10;
    return [Math.round(x * 10) / 10, Math.round(next() * 1000) / 10];
  });
}

describe("straight, one number", () => {
  for (let seed = 1; seed <= 8; seed++) {
    test(`against y0 + (y1 - y0)(x - x0) / (x1 - x0), seed ${seed}`, () => {
      const next = seeded(seed);
      const data = points(next, 2 + Math.floor(next() * 7));
      const book = oneWay("straight", data);
      for (let i = 0; i < 40; i++) {
        const x = data[0]![0] + next() * (data.at(-1)![0] - data[0]![0]);
        const j = data.findIndex(([px]) => px > x);
        const [[x0, y0], [x1, y1]] = [data[j - 1]!, data[j]!];
        expect(Math.abs(at(book, x) - (y0 + ((y1 - y0) * (x - x0)) / (x1 - x0)))).toBeLessThanOrEqual(
          1e-10 * (1 + Math.abs(y0) + Math.abs(y1)),
        );
      }
      for (const [x, y] of data) expect(at(book, x)).toBe(y);
    });
  }
  test("outside the points there is nothing, unless the ends are held", () => {
    const data: [number, number][] = [
      [10, 1],
      [20, 3],
    ];
    for (const x of ["9.9 mm", "20.1 mm"])
      expect(
        showJob(workJob(oneWay("straight", data), { x })).values.find((one) => one.name === "y")!.state,
      ).toBe("impossible");
    const held = oneWay("straight", data, ", hold ends");
    expect([at(held, -50), at(held, 10), at(held, 15), at(held, 20), at(held, 900)]).toEqual([1, 1, 2, 3, 3]);
  });
  test("over temperature: 1.5 % at 20 °C and 1.25 % at 25 °C make 1.4 % at 22 °C, and at 71.6 °F", () => {
    const text =
      "ask air in °C, 0 to 50\nchart dose by air gives % by mass\n    straight between " +
      "rows\n    air | dose\n    20 °C | 1.5\n    25 °C | 1.25\n    from practice";
    expect(given(text, { air: "22 °C" }).number("dose")).toBeCloseTo(1.4, 10);
    expect(given(text, { air: "71.6 °F" }).number("dose")).toBeCloseTo(1.4, 10);
  });
});

describe("straight, two numbers", () => {
  for (let seed = 20; seed < 26; seed++) {
    test(`against the bilinear formula, seed ${seed}`, () => {
      const next = seeded(seed);
      const axis = () => points(next, 2 + Math.floor(next() * 4)).map(([x]) => x);
      const [xs, ys] = [axis(), axis()];
      const z = xs.map(() => ys.map(() => Math.round(next() * 1000) / 10));
      // The rows of a grid may stand in any order.
      const rows = xs
        .flatMap((x, i) => ys.map((y, j) => `    ${x} | ${y} | ${z[i]![j]!}`))
        .sort(() => next() - 0.5);
      const book = bookOf(
        [
          "ask a in mm, -1000 to 1000",
          "ask b in °C, -100 to 1000",
          "chart z by a, b gives min",
          "    straight between rows",
          "    a | b | z",
          ...rows,
          "    from practice",
        ].join("\n"),
      );
      for (let n = 0; n < 40; n++) {
        const [x, y] = [xs[0]! + next() * (xs.at(-1)! - xs[0]!), ys[0]! + next() * (ys.at(-1)! - ys[0]!)];
        const i = xs.findIndex((one) => one > x) - 1;
        const j = ys.findIndex((one) => one > y) - 1;
        const t = (x - xs[i]!) / (xs[i + 1]! - xs[i]!);
        const u = (y - ys[j]!) / (ys[j + 1]! - ys[j]!);
        const wants =
          (1 - t) * (1 - u) * z[i]![j]! +
          t * (1 - u) * z[i + 1]![j]! +
          t * u * z[i + 1]![j + 1]! +
          (1 - t) * u * z[i]![j + 1]!;
        expect(Math.abs(given(book, { a: `${x} mm`, b: `${y} °C` }).number("z") - wants)).toBeLessThanOrEqual(
          1e-9,
        );
      }
      xs.forEach((x, i) =>
        ys.forEach((y, j) =>
          expect(
            Math.abs(given(book, { a: `${x} mm`, b: `${y} °C` }).number("z") - z[i]![j]!),
          ).toBeLessThanOrEqual(1e-11),
        ),
      );
    });
  }
});

describe("curve (Steffen 1990)", () => {
  // By hand from the paper's equations 2 to 5, 11 and 24 to 27, for the points (0, 0), (1, 1), (2, 3), (4,
  // 4): slopes of the stretches 1, 2, 1/2; at the points 1/2, 3/2, 1, 0. Cubics give the values below
  // exactly.
  test("an example by hand", () => {
    const book = oneWay("curve", [
      [0, 0],
      [1, 1],
      [2, 3],
      [4, 4],
    ]);
    expect(at(book, 0.5)).toBeCloseTo(0.375, 12);
    expect(at(book, 1.5)).toBeCloseTo(2.0625, 12);
    expect(at(book, 3)).toBeCloseTo(3.75, 12);
  });
  test("with a turning point by hand: (0, 0), (1, 2), (2, 1) has slope 0 at its top", () => {
    // Ends: p = 2 * 1.5 + 1 * 0.5 = 3.5, held to no more than 2 * 2; p = -1 * 1.5 - 2 * 0.5 = -2.5, held to 2
    // * -1. First stretch: a = 3.5 + 0 - 4 = -0.5, b = 6 - 7 - 0 = -1, so f(0.5) = -0.0625 - 0.25 + 1.75 =
    // 1.4375. Second: a = 0 - 2 + 2 = 0, b = -3 - 0 + 2 = -1, so f(1.5) = 2 - 0.25 = 1.75.
    const book = oneWay("curve", [
      [0, 0],
      [1, 2],
      [2, 1],
    ]);
    expect(at(book, 0.5)).toBeCloseTo(1.4375, 12);
    expect(at(book, 1)).toBe(2);
    expect(at(book, 1.5)).toBeCloseTo(1.75, 12);
  });
  for (let seed = 40; seed < 48; seed++) {
    test(`laws of the method on random points, seed ${seed}`, () => {
      const next = seeded(seed);
      const data = points(next, 3 + Math.floor(next() * 6));
      const book = oneWay("curve", data);
      for (const [x, y] of data)
        expect(Math.abs(at(book, x) - y), "exact at its points").toBeLessThanOrEqual(1e-11 * Math.max(1, y));
      for (let i = 0; i + 1 < data.length; i++) {
        const [[x0, y0], [x1, y1]] = [data[i]!, data[i + 1]!];
        let last = y0;
        for (let n = 1; n <= 25; n++) {
          const y = at(book, x0 + ((x1 - x0) * n) / 25);
          expect(y, "never beyond its neighbours").toBeGreaterThanOrEqual(Math.min(y0, y1) - 1e-9);
          expect(y, "never beyond its neighbours").toBeLessThanOrEqual(Math.max(y0, y1) + 1e-9);
          expect((y - last) * Math.sign(y1 - y0), "monotone between two points").toBeGreaterThanOrEqual(
            -1e-9,
          );
          last = y;
        }
      }
      // The first derivative from the left and from the right of an inner point, by one-sided differences of
      // second order.
      for (let i = 1; i + 1 < data.length; i++) {
        const [x, y] = data[i]!;
        const h = 1e-4;
        const right = (-3 * y + 4 * at(book, x + h) - at(book, x + 2 * h)) / (2 * h);
        const left = (3 * y - 4 * at(book, x - h) + at(book, x - 2 * h)) / (2 * h);
        const steepest = Math.max(
          ...data.slice(1).map(([px, py], j) => Math.abs((py - data[j]![1]) / (px - data[j]![0]))),
        );
        expect(Math.abs(left - right), `slope at ${x}`).toBeLessThanOrEqual(1e-5 * (1 + steepest));
      }
    });
  }
  test("straight data stay straight, and a falling one stays falling", () => {
    const book = oneWay("curve", [
      [0, 10],
      [1, 8],
      [3, 4],
      [4, 2],
      [5, 0],
    ]);
    for (let x = 0; x <= 5; x += 0.125) expect(at(book, x)).toBeCloseTo(10 - 2 * x, 10);
  });
  test("a plane stays a plane over two numbers", () => {
    const rows = [0, 1, 3, 4].flatMap((x) => [0, 2, 3].map((y) => `    ${x} | ${y} | ${2 * x + 3 * y + 1}`));
    const book = bookOf(
      [
        "ask a in mm, 0 to 4",
        "ask b in mm, 0 to 3",
        "chart z by a, b gives g",
        "    curve between rows",
        "    a | b | z",
        ...rows,
        "    from practice",
      ].join("\n"),
    );
    for (const [x, y] of [
      [0.5, 0.5],
      [1, 1.5],
      [2.25, 2.75],
      [3.5, 0.1],
      [4, 3],
    ] as const)
      expect(given(book, { a: `${x} mm`, b: `${y} mm` }).number("z")).toBeCloseTo(2 * x + 3 * y + 1, 10);
  });
  test("no curve beyond the last point", () => {
    const book = readBook(
      "ask x in mm, 0 to 100\nchart y by x gives g\n    curve between rows, nothing " +
        "outside\n    x | y\n    1 | 1\n    2 | 4\n    3 | 9\n    from practice",
    );
    expect(showJob(workJob(book, { x: "3.5 mm" })).values.find((one) => one.name === "y")!.state).toBe(
      "impossible",
    );
  });
});
