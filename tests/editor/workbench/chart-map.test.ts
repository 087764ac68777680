// The map of a chart against the chart itself: at every field, ends included, the rows drawn are those by
// which the job is worked.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { ChartView } from "../../../core/view.ts";
import { bandIn, converted } from "../../../editor/workbench/charts/chart-bands.ts";
import { mapOf, placeOn } from "../../../editor/workbench/charts/chart-map-places.ts";
import { chartOf, readBook, showJob, workJob } from "../../../engine/index.ts";

const shipped = readBook(
  readFileSync(new URL("../../../rulesets/road-panels.bevel", import.meta.url), "utf8"),
);
const none = () => undefined;

describe("bands as they are written", () => {
  test.each([
    ["under 3 mm", [-Infinity, 3, false, false]],
    ["3 mm to under 6 mm", [3, 6, true, false]],
    ["over 3 mm to 6 mm", [3, 6, false, true]],
    ["over 3 mm to under 6 mm", [3, 6, false, false]],
    ["3 mm to 6 mm", [3, 6, true, true]],
    ["6 mm and over", [6, Infinity, true, false]],
    ["over 6 mm", [6, Infinity, false, false]],
    ["up to 6 mm", [-Infinity, 6, false, true]],
    ["any", [-Infinity, Infinity, false, false]],
    ["4.5", [4.5, 4.5, true, true]],
    ["1 to under 2 cm", [10, 20, true, false]],
    ["1/2 inch and over", [12.7, Infinity, true, false]],
    ["limit to under 40", [25, 40, true, false]],
  ] as const)("%s", (cell, [low, high, lowIn, highIn]) => {
    expect(bandIn(cell, "mm", (name) => (name === "limit" ? 25 : undefined))).toEqual({
      low,
      high,
      lowIn,
      highIn,
    });
  });
  test("what is no band, or names no dial, gives nothing", () => {
    for (const cell of ["", "thickness * 2", "under", "3 furlong and over", "nobody to 4 mm"])
      expect(bandIn(cell, "mm", none), cell).toBeUndefined();
    expect(converted(1, "inch", "mm")).toBe(25.4);
  });
});

/**
 * Every field of the map, and the middle of it as answers: the value that comes out must be that of the row
 * drawn.
 */
function against(
  chart: ChartView,
  book: typeof shipped,
  held: Readonly<Record<string, string>>,
  more: Readonly<Record<string, string>>,
): number {
  const map = mapOf(chart, book.rows, book.asks, held)!;
  let tried = 0;
  map.fields.forEach((line, j) =>
    line.forEach((rows, i) => {
      const answer = (stretch: (typeof map.x.stretches)[number], unit: string): string =>
        "word" in stretch ? stretch.word : `${(stretch.low + stretch.high) / 2} ${unit}`;
      const job = showJob(
        workJob(book, {
          ...more,
          ...held,
          [map.x.name]: answer(map.x.stretches[i]!, map.x.unit),
          [map.y.name]: answer(map.y.stretches[j]!, map.y.unit),
        }),
      );
      const shown = job.values.find((one) => one.name === chart.name)!;
      const wanted = rows.map((row) => chart.rows[row]!.cells.at(-1)!.text);
      if (rows.length === 1)
        expect(
          shown.text,
          `${answer(map.x.stretches[i]!, map.x.unit)}, ${answer(map.y.stretches[j]!, map.y.unit)}`,
        ).toBe(wanted[0]);
      else expect(shown.state).toBe("impossible");
      tried += 1;
    }),
  );
  return tried;
}

const small = (rows: string) =>
  readBook(
    `kind skin\n    smc "a"\n    laid "b"\nkind way\n    fill "f"\n    lay "l"\n` +
      `ask panel of skin\n    "p"\nask size in mm, 0 to 100\n    "s"\n` +
      "dial limit in mm = 25 mm, from 10 mm to 40 mm\n" +
      `chart method by panel, size gives way\n    panel | size | method\n${rows}`,
  );

test("a chart with a dial for an end: whole", () => {
  const book = small("    smc | under limit | fill\n    smc | limit and over | lay\n    laid | any | fill\n");
  expect(against(chartOf(book, "method")!, book, {}, {})).toBe(2 * 5);
});

test("an end that no row takes in is a field without a row, and so is a missing band", () => {
  const book = small(
    "    smc | under 25 mm | fill\n    smc | over 25 mm to under 50 mm | lay\n    laid | any | fill\n",
  );
  const map = mapOf(chartOf(book, "method")!, book.rows, book.asks, {})!;
  expect(
    map.x.stretches.map((one, i) =>
      "low" in one ? `${one.low}-${one.high}: ${map.fields[0]![i]!.join()}` : "",
    ),
  ).toEqual(["0-0: 0", "0-25: 0", "25-25: ", "25-50: 1", "50-50: ", "50-100: ", "100-100: "]);
});

test("the method of the shipped book, for each depth of damage: every field gives what the job gives", () => {
  const chart = chartOf(shipped, "method")!;
  const map = mapOf(chart, shipped.rows, shipped.asks, {})!;
  expect(map.held.map((one) => one.name)).toEqual(["damage", "deep"]);
  // The skin is worked out, so the map is held against the rows by the chart's own words: every field has
  // exactly one.
  for (const word of map.held[0]!.words)
    for (const deep of ["yes", "no"])
      expect(
        mapOf(chart, shipped.rows, shipped.asks, { damage: word, deep })!
          .fields.flat()
          .every((rows) => rows.length === 1),
      ).toBe(true);
});

test("a chart that goes between points, or over one condition, has no map", () => {
  expect(mapOf(chartOf(shipped, "house-dose")!, shipped.rows, shipped.asks, {})).toBeUndefined();
});

test("a job stands in its field, by word and by number, also exactly at an end", () => {
  const book = small("    smc | under limit | fill\n    smc | limit and over | lay\n    laid | any | fill\n");
  const map = mapOf(chartOf(book, "method")!, book.rows, book.asks, {})!;
  const at = (size: string) => {
    const view = showJob(workJob(book, { panel: "laid", size }));
    return [placeOn(map.x, view), placeOn(map.y, view)];
  };
  expect(at("10 mm")).toEqual([
    { stretch: 1, part: 0.4 },
    { stretch: 1, part: 0.5 },
  ]);
  expect(at("2.5 cm")[0]).toEqual({ stretch: 2, part: 0.5 });
  expect(placeOn(map.x, showJob(workJob(book, {})))).toBeUndefined();
});
