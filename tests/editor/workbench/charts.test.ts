// Charts without their drawing: words, tab-separated text, holes in their places, and the geometry of curves.
import fc from "fast-check";
import { expect, test } from "vitest";
import type { ChartView, JobView } from "../../../core/view.ts";
import {
  chartAsTabbed,
  clashLanes,
  gridLines,
  readTabbed,
  rowInWords,
  writeTabbed,
} from "../../../editor/workbench/charts/chart-words.ts";
import { curveInWords } from "../../../editor/workbench/charts/curve-words.ts";
import { onward, STEPS, gridKey, withDraft } from "../../../editor/workbench/charts/grid-steps.ts";
import { plottedJobs, pointAsCells } from "../../../editor/workbench/charts/plotted-jobs.ts";
import {
  gapsBetween,
  pathThrough,
  reachOf,
  risers,
  roundStep,
  scale,
  spread,
  ticks,
  withRoom,
} from "../../../editor/workbench/charts/geometry.ts";

const chart = (holes: ChartView["holes"]): ChartView => ({
  name: "method",
  at: { start: 0, end: 100 },
  mode: "rows",
  outside: "nothing",
  columns: [
    { name: "skin", role: "condition", unit: "", type: "one of substrate", words: ["smc"] },
    { name: "size", role: "condition", unit: "mm", type: "length in mm" },
    { name: "method", role: "value", unit: "", type: "one of repair" },
  ],
  rows: [10, 20, 30].map((start, i) => ({
    at: { start, end: start + 9 },
    cells: ["smc", `${i} mm`, "fill"].map((text) => ({ at: { start, end: start + 2 }, text })),
  })),
  holes,
  clashes: [],
});
const hole = (at?: number) => ({
  witness: "w",
  repair: at === undefined ? undefined : { says: "", edits: [{ at: { start: at, end: at }, text: "" }] },
});

test("a hole stands where its row would come, one without a repair last", () => {
  expect(
    gridLines(chart([hole(19), hole()])).map((line) => (line.is === "row" ? line.row : `hole ${line.hole}`)),
  ).toEqual([0, "hole 0", 1, 2, "hole 1"]);
});

test("a row is named by what it asks for", () => {
  expect(rowInWords(chart([]), 1)).toBe("smc · 1 mm");
});

test("brackets over the same rows take lanes of their own, the shorter nearer", () => {
  expect(clashLanes([{ rows: [0, 3] }, { rows: [1, 2] }, { rows: [4, 5] }])).toEqual([1, 0, 0]);
});

test("tab-separated text, as table programs give it", () => {
  expect(readTabbed('a\tb\r\n"c\td"\t"say ""e"""\r\n')).toEqual([
    ["a", "b"],
    ["c d", 'say "e"'],
  ]);
  expect(readTabbed("5 mm | x")).toEqual([["5 mm x"]]);
  expect(chartAsTabbed(chart([])).split("\n")[0]).toBe("skin\tsize (mm)\tmethod");
});

test("what is written tab-separated reads back the same", () => {
  const cell = fc.stringMatching(/^[a-z0-9",.]{0,8}$/);
  fc.assert(
    fc.property(
      fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 4 }),
      (rows) => {
        expect(readTabbed(writeTabbed(rows))).toEqual(rows);
      },
    ),
    { seed: 8, numRuns: 500 },
  );
});

test("steps are 1, 2 or 5 times a power of ten", () => {
  expect([0.9, 1, 1.1, 2.4, 6, 0.03].map(roundStep)).toEqual([1, 1, 2, 5, 10, 0.05]);
});

test("ticks are round, within the reach, and free of binary dust", () => {
  expect(ticks({ low: 15, high: 30 }, 4)).toEqual([15, 20, 25, 30]);
  expect(ticks({ low: 0, high: 0.32 }, 4)).toEqual([0, 0.1, 0.2, 0.3]);
});

test("reaches of nothing, of one value, and with room", () => {
  expect(reachOf([])).toEqual({ low: 0, high: 1 });
  expect(reachOf([4])).toEqual({ low: 2, high: 6 });
  expect(withRoom({ low: 1, high: 11 }, 0.2)).toEqual({ low: 0, high: 13 });
  expect(withRoom({ low: -1, high: 9 }, 0.1)).toEqual({ low: -2, high: 10 });
});

test("a scale and its way back meet", () => {
  fc.assert(
    fc.property(fc.double({ min: -100, max: 100, noNaN: true }), (value) => {
      const x = scale({ low: -3, high: 12 }, 400, 40);
      expect(x.back(x(value))).toBeCloseTo(value, 9);
    }),
    { seed: 5, numRuns: 200 },
  );
});

test("a path goes through its points", () => {
  expect(
    pathThrough(
      [
        { x: 0, y: 0 },
        { x: 1, y: 2 },
      ],
      scale({ low: 0, high: 1 }, 10, 20),
      scale({ low: 0, high: 2 }, 100, 50),
    ),
  ).toBe("M10 100L20 50");
});

test("a gap lies between pieces, a riser where they meet", () => {
  const pieces = [
    [
      { x: 0, y: 1 },
      { x: 2, y: 1 },
    ],
    [
      { x: 2, y: 3 },
      { x: 4, y: 3 },
    ],
    [
      { x: 6, y: 2 },
      { x: 8, y: 2 },
    ],
  ];
  expect(gapsBetween(pieces, { low: 0, high: 8 })).toEqual([{ low: 4, high: 6 }]);
  expect(risers(pieces, { low: 0, high: 8 })).toEqual([{ x: 2, from: 1, to: 3 }]);
});

test("labels keep apart and in order", () => {
  expect(spread([10, 12, 50], 20, { low: 0, high: 100 })).toEqual([10, 30, 50]);
  expect(spread([90, 95], 20, { low: 0, high: 100 })).toEqual([80, 100]);
});

test("a curve is told in words", () => {
  const points = [
    [15, 2],
    [20, 1.5],
    [30, 1],
  ].map(([x, y], row) => ({ x: x!, y: y!, row }));
  expect(
    curveInWords({ x: "air", xUnit: "°C", y: "catalyst", yUnit: "%", points, line: [points] }, "straight", [
      { name: "Door", x: 18, y: 1.7 },
    ]),
  ).toBe(
    "catalyst over air. Rows: 15 °C gives 2 %; 20 °C gives 1.5 %; 30 °C gives 1 %. " +
      "It falls all the way. Door stands at 18 °C, 1.7 %.",
  );
});

const catalyst: ChartView = {
  name: "catalyst",
  at: { start: 0, end: 90 },
  mode: "straight",
  outside: "nothing",
  holes: [],
  clashes: [],
  columns: [
    { name: "air", role: "condition", unit: "°C", type: "temperature" },
    { name: "catalyst", role: "value", unit: "% by mass", type: "share by mass" },
  ],
  rows: [
    ["15 °C", "2.0"],
    ["30 °C", "1.0"],
  ].map((cells) => ({
    at: { start: 0, end: 1 },
    cells: cells.map((text) => ({ at: { start: 0, end: 1 }, text })),
  })),
  curve: {
    x: "air",
    xUnit: "°C",
    y: "catalyst",
    yUnit: "% by mass",
    points: [
      { x: 15, y: 2, row: 0 },
      { x: 30, y: 1, row: 1 },
    ],
    line: [],
  },
};
const known = (name: string, value: number, unit: string) => ({
  name,
  state: "known" as const,
  text: "",
  value,
  unit,
});
const job = (values: JobView["values"]): JobView => ({
  state: "ready",
  values,
  steps: [],
  cautions: [],
  stops: [],
  waiting: [],
  findings: [],
  broken: [],
});

test("a job is laid on the curve in the curve's units, and left out while a value is not known", () => {
  const us = job([known("air", 68, "°F"), known("catalyst", 1.5, "% by mass")]);
  const waits = job([
    { ...known("air", 0, "°C"), state: "unknown", value: null },
    known("catalyst", 1.5, "% by mass"),
  ]);
  const [laid, ...rest] = plottedJobs(catalyst, [
    { name: "Wing", view: us, chosen: true },
    { name: "Door", view: waits },
  ]);
  expect(rest).toEqual([]);
  expect(laid).toMatchObject({ name: "Wing", y: 1.5, chosen: true });
  expect(laid!.x).toBeCloseTo(20, 9);
});

test("a moved point is written into the cells that change, with the unit where it stood", () => {
  expect(pointAsCells(catalyst, 0, 16, 2)).toEqual([{ column: 0, text: "16 °C" }]);
  expect(pointAsCells(catalyst, 1, 30, 1.1)).toEqual([{ column: 1, text: "1.1" }]);
  expect(pointAsCells(catalyst, 5, 1, 1)).toEqual([]);
});

const key = (
  name: string,
  held: Partial<Record<"altKey" | "ctrlKey" | "metaKey" | "shiftKey", boolean>> = {},
) => ({ key: name, altKey: false, ctrlKey: false, metaKey: false, shiftKey: false, ...held });

test.each([
  [
    "an arrow goes to the next cell",
    key("ArrowRight"),
    { does: "go", to: { line: 1, column: 2 }, extend: false },
  ],
  [
    "with Shift it extends the block",
    key("ArrowDown", { shiftKey: true }),
    { does: "go", to: { line: 2, column: 1 }, extend: true },
  ],
  [
    "with Ctrl it goes to the end",
    key("ArrowDown", { ctrlKey: true }),
    { does: "go", to: { line: 4, column: 1 }, extend: false },
  ],
  ["with Alt it moves the row", key("ArrowUp", { altKey: true }), { does: "shift-row", by: -1 }],
  ["Enter writes", key("Enter"), { does: "write" }],
  ["Ctrl+Enter begins a row", key("Enter", { ctrlKey: true }), { does: "new-row" }],
  ["a letter begins to write", key("5"), { does: "type", letter: "5" }],
  ["a space does not", key(" "), undefined],
  ["copying is left to the browser", key("c", { metaKey: true }), undefined],
  ["Tab leaves the grid", key("Tab"), undefined],
])("%s", (_says, pressed, wish) => {
  expect(gridKey(pressed, { line: 1, column: 1 }, { line: 4, column: 3 })).toEqual(wish);
});

test("after the last column comes the next line, before the first the one above", () => {
  expect(onward({ line: 1, column: 2 }, STEPS.right, 3)).toEqual({ line: 2, column: 0 });
  expect(onward({ line: 1, column: 0 }, STEPS.left, 3)).toEqual({ line: 0, column: 2 });
  expect(onward({ line: 0, column: 0 }, STEPS.left, 3)).toEqual({ line: 0, column: 0 });
});

test("a row being written stands below the row it comes after, or first", () => {
  const lines = gridLines(chart([]));
  expect(withDraft(lines, { after: 0, cells: [] }).map((line) => line.is)).toEqual([
    "row",
    "draft",
    "row",
    "row",
  ]);
  expect(withDraft(lines, { after: -1, cells: [] }).map((line) => line.is)).toEqual([
    "draft",
    "row",
    "row",
    "row",
  ]);
});
