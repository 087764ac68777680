// Volumes and areas of common sums against numerical integration written here in plain code: fields of
// heights over a fine grid, chords of slices, outlines moved outwards point by point, and faces as meshes of
// triangles. None of it uses a closed form.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { bookOf, given, seeded } from "./small-book.ts";

const SUMS = readFileSync(new URL("../../rulesets/common-sums.bevel", import.meta.url), "utf8");
const BOOK = bookOf(`${SUMS}
ask p-long in mm, 0 to 2000
ask p-wide in mm, 0 to 2000
ask p-deep in mm, 0 to 100
ask p-run in mm, 0 to 2000
ask p-corner in mm, 0 to 500
figure v-round in mm3 = tapered-round(p-long, p-deep, p-run)
figure v-oval in mm3 = tapered-oval(p-long, p-wide, p-deep, p-run)
figure v-box in mm3 = tapered-box(p-long, p-wide, p-deep, p-run)
figure v-mitred in mm3 = tapered-box-mitred(p-long, p-wide, p-deep, p-run)
figure v-any in mm3 = tapered-any(oval-area(p-long, p-wide), oval-rim(p-long, p-wide), p-deep, p-run)
figure a-oval in mm2 = oval-area(p-long, p-wide)
figure a-rounded in mm2 = rounded-box-area(p-long, p-wide, p-corner)
figure a-ring in mm2 = ring-area(p-long, p-wide)
figure rim-oval in mm = oval-rim(p-long, p-wide)
figure face-round in mm2 = slope-face(pi * p-long, p-run, p-deep)
figure face-box in mm2 = slope-face(box-rim(p-long, p-wide), p-run, p-deep)
figure face-oval in mm2 = slope-face(oval-rim(p-long, p-wide), p-run, p-deep)
figure gain in number = bond-gain(box-rim(p-long, p-wide), p-run, p-deep)
`);

interface Shape {
  readonly long: number;
  readonly wide: number;
  readonly deep: number;
  readonly run: number;
  readonly corner: number;
}

/**
 * Sizes as a repair has them: holes from a coin to a door, skins from one to twelve millimetres, tapers from
 * 1:5 to 1:50.
 */
function shapes(count: number, seed: number): readonly Shape[] {
  const next = seeded(seed);
  return Array.from({ length: count }, () => {
    const wide = 5 + 250 * next();
    const deep = 0.5 + 11 * next();
    return {
      wide,
      long: wide * (1 + 3 * next()),
      deep,
      run: deep * (5 + 45 * next()),
      corner: (wide / 2) * next(),
    };
  });
}
const SHAPES = shapes(12, 3);
const job = ({ long, wide, deep, run, corner }: Shape) =>
  given(BOOK, {
    "p-long": `${long} mm`,
    "p-wide": `${wide} mm`,
    "p-deep": `${deep} mm`,
    "p-run": `${run} mm`,
    "p-corner": `${corner} mm`,
  });
const close = (has: number, wants: number, part: number) =>
  expect(
    Math.abs(has - wants) / Math.max(1e-12, Math.abs(wants)),
    `${has} against ${wants}`,
  ).toBeLessThanOrEqual(part);

/** Midpoints of `count` equal pieces from 0 to `to`. */
const middles = (to: number, count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => ((i + 0.5) * to) / count);

/**
 * Volume under a field of heights over a quarter of the plane, times four. Heights follow from how far a
 * point is from the hole.
 */
function fieldVolume(
  shape: Shape,
  away: (x: number, y: number) => number,
  reachX: number,
  reachY: number,
  count = 500,
): number {
  const [xs, ys] = [middles(reachX, count), middles(reachY, count)];
  let sum = 0;
  for (const x of xs) for (const y of ys) sum += Math.max(0, shape.deep * (1 - away(x, y) / shape.run));
  return (4 * sum * reachX * reachY) / count ** 2;
}

type Point = readonly [x: number, y: number, nx: number, ny: number];
/** Points of an oval with the direction outwards at each. */
const ovalOutline = ({ long, wide }: Shape, count = 4000): readonly Point[] =>
  Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    const [a, b] = [long / 2, wide / 2];
    const [nx, ny] = [b * Math.cos(angle), a * Math.sin(angle)];
    const size = Math.hypot(nx, ny);
    return [a * Math.cos(angle), b * Math.sin(angle), nx / size, ny / size];
  });
/**
 * Points of a rectangle; each corner stands there many times, turning from one side's direction to the next.
 */
const boxOutline = ({ long, wide }: Shape, turns = 400): readonly Point[] =>
  [0, 1, 2, 3].flatMap((corner) => {
    const [sx, sy] = [
      [1, 1],
      [-1, 1],
      [-1, -1],
      [1, -1],
    ][corner]! as [number, number];
    return Array.from({ length: turns + 1 }, (_, i): Point => {
      const angle = (Math.PI / 2) * (corner + i / turns);
      return [(sx * long) / 2, (sy * wide) / 2, Math.cos(angle), Math.sin(angle)];
    });
  });
/** Area inside an outline moved outwards by `by` (shoelace). */
function areaMoved(outline: readonly Point[], by: number): number {
  const at = outline.map(([x, y, nx, ny]) => [x + by * nx, y + by * ny] as const);
  return (
    Math.abs(
      at.reduce((sum, [x, y], i) => {
        const [u, v] = at[(i + 1) % at.length]!;
        return sum + x * v - u * y;
      }, 0),
    ) / 2
  );
}
const rimOf = (outline: readonly Point[]): number =>
  outline.reduce((sum, [x, y], i) => {
    const [u, v] = outline[(i + 1) % outline.length]!;
    return sum + Math.hypot(u - x, v - y);
  }, 0);
/**
 * Area of the slanted face from the hole's outline at the bottom to the outline moved by the run at the top,
 * as triangles.
 */
function faceOf(outline: readonly Point[], { run, deep }: Shape): number {
  type Corner = readonly [number, number, number];
  const triangle = (a: Corner, b: Corner, c: Corner): number => {
    const [p, q] = [
      [b[0] - a[0], b[1] - a[1], b[2] - a[2]],
      [c[0] - a[0], c[1] - a[1], c[2] - a[2]],
    ] as const;
    return (
      Math.hypot(
        p[1]! * q[2]! - p[2]! * q[1]!,
        p[2]! * q[0]! - p[0]! * q[2]!,
        p[0]! * q[1]! - p[1]! * q[0]!,
      ) / 2
    );
  };
  const low = outline.map(([x, y]): Corner => [x, y, 0]);
  const high = outline.map(([x, y, nx, ny]): Corner => [x + run * nx, y + run * ny, deep]);
  return low.reduce((sum, corner, i) => {
    const j = (i + 1) % low.length;
    return sum + triangle(corner, low[j]!, high[j]!) + triangle(corner, high[j]!, high[i]!);
  }, 0);
}
/** Area of a shape that is symmetric both ways, by its chords. */
const byChords = (reach: number, chord: (x: number) => number, count = 40_000): number =>
  (4 * reach * middles(reach, count).reduce((sum, x) => sum + chord(x), 0)) / count;

describe("volumes against heights over a grid", () => {
  test("round holes", () => {
    for (const shape of SHAPES)
      close(
        job(shape).number("v-round"),
        fieldVolume(
          shape,
          (x, y) => Math.max(0, Math.hypot(x, y) - shape.long / 2),
          shape.long / 2 + shape.run,
          shape.long / 2 + shape.run,
        ),
        2e-4,
      );
  });
  test("rectangles whose taper goes round the corners", () => {
    for (const shape of SHAPES)
      close(
        job(shape).number("v-box"),
        fieldVolume(
          shape,
          (x, y) => Math.hypot(Math.max(0, x - shape.long / 2), Math.max(0, y - shape.wide / 2)),
          shape.long / 2 + shape.run,
          shape.wide / 2 + shape.run,
        ),
        1e-3,
      );
  });
  test("rectangles with corners that stay sharp", () => {
    for (const shape of SHAPES)
      close(
        job(shape).number("v-mitred"),
        fieldVolume(
          shape,
          (x, y) => Math.max(0, x - shape.long / 2, y - shape.wide / 2),
          shape.long / 2 + shape.run,
          shape.wide / 2 + shape.run,
        ),
        1e-3,
      );
  });
});

describe("volumes slice by slice", () => {
  const slices = (deep: number, area: (z: number) => number, count = 60): number =>
    (deep * middles(1, count).reduce((sum, z) => sum + area(z), 0)) / count;
  test("ovals that grow along both axes, each slice by its chords", () => {
    for (const shape of SHAPES.slice(0, 6)) {
      const volume = slices(shape.deep, (z) => {
        const [a, b] = [shape.long / 2 + z * shape.run, shape.wide / 2 + z * shape.run];
        return byChords(a, (x) => b * Math.sqrt(1 - (x / a) ** 2), 4000);
      });
      close(job(shape).number("v-oval"), volume, 3e-4);
    }
  });
  test("ovals with a taper equally wide all round, each slice by its outline", () => {
    for (const shape of SHAPES.slice(0, 6)) {
      const outline = ovalOutline(shape);
      close(
        job(shape).number("v-any"),
        slices(shape.deep, (z) => areaMoved(outline, z * shape.run)),
        3e-4,
      );
    }
  });
});

describe("areas and ways round", () => {
  test("oval, by chords", () => {
    for (const shape of SHAPES)
      close(
        job(shape).number("a-oval"),
        byChords(shape.long / 2, (x) => (shape.wide / 2) * Math.sqrt(1 - ((2 * x) / shape.long) ** 2)),
        1e-5,
      );
  });
  test("rectangle with rounded corners, by chords", () => {
    for (const shape of SHAPES) {
      const { long, wide, corner } = shape;
      close(
        job(shape).number("a-rounded"),
        byChords(long / 2, (x) => {
          const into = x - (long / 2 - corner);
          return wide / 2 - corner + (into > 0 ? Math.sqrt(Math.max(0, corner ** 2 - into ** 2)) : corner);
        }),
        1e-4,
      );
    }
  });
  test("ring, by the difference of two outlines", () => {
    for (const shape of SHAPES) {
      const at = (across: number) => areaMoved(ovalOutline({ ...shape, long: across, wide: across }), 0);
      close(job(shape).number("a-ring"), at(shape.long) - at(shape.wide), 1e-4);
    }
  });
  test("way round an oval: under a thousandth short up to four times as long as wide", () => {
    for (const shape of SHAPES) close(job(shape).number("rim-oval"), rimOf(ovalOutline(shape, 40_000)), 1e-3);
  });
});

describe("the slanted face as a mesh", () => {
  test("round", () => {
    for (const shape of SHAPES)
      close(
        job(shape).number("face-round"),
        faceOf(ovalOutline({ ...shape, wide: shape.long }), shape),
        1e-5,
      );
  });
  test("rectangle with rounded taper", () => {
    for (const shape of SHAPES) close(job(shape).number("face-box"), faceOf(boxOutline(shape), shape), 1e-5);
  });
  test("oval with a taper equally wide all round", () => {
    for (const shape of SHAPES)
      close(job(shape).number("face-oval"), faceOf(ovalOutline(shape), shape), 1e-3);
  });
  test("against the upright walls of a plain notch", () => {
    for (const shape of SHAPES)
      close(
        job(shape).number("gain"),
        faceOf(boxOutline(shape), shape) / (rimOf(boxOutline(shape)) * shape.deep),
        1e-5,
      );
  });
});
