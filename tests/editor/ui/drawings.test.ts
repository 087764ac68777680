// Drawings measured as on the sheet: what is drawn to scale has the job's own lengths, heights and times are
// in proportion, and every number is said in words. The jobs are the worked examples of the shipped book;
// what they should come to is the book's own values, by plain proportion.
import "../../../editor/ui/words/all-words.ts";
import { readFileSync } from "node:fs";
import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import type { PictureShown } from "../../../core/view.ts";
import { drawingOf, isReleased } from "../../../editor/ui/drawings/drawing-of.ts";
import { Drawing } from "../../../editor/ui/drawings/drawing.tsx";
import type { Drawn, LineMark, OvalMark } from "../../../editor/ui/drawings/marks.ts";
import { narrowSheet, wideSheet } from "../../../editor/ui/drawings/paper.ts";
import { wordsIn } from "../../../editor/ui/words/words.ts";
import { chartDrawn, outcomeMap, readBook, showJob, workJob } from "../../../engine/index.ts";

const book = readBook(readFileSync(new URL("../../../rulesets/road-panels.bevel", import.meta.url), "utf8"));
const jobOf = (name: string) => workJob(book, book.worked.find((one) => one.name === name)!.answers);
const ready = book.worked
  .filter((one) => showJob(workJob(book, one.answers)).state === "ready")
  .map((one) => one.name);
const say = wordsIn("en");
const sheets = [
  ["wide", wideSheet(say)],
  ["narrow", narrowSheet(say)],
] as const;
const picturesOf = (name: string, shape: string): readonly PictureShown[] =>
  (showJob(jobOf(name)).pictures ?? []).filter((one) => one.shape === shape);
/** Millimetres of a value of the job. */
const lengthIn = (name: string, value: string): number => {
  const found = showJob(jobOf(name)).values.find((one) => one.name === value)!;
  expect(found.unit).toBe("mm");
  return found.value as number;
};

/** The scale as a reader has it: from the note under the drawing. */
function scaleSaid(drawn: Drawn): number {
  const [, on, of] = /Drawn ([\d.]+):([\d.]+)/.exec(drawn.notes.join(" "))!;
  return Number(on) / Number(of);
}
const linesWith = (drawn: Drawn, key: string, value?: string | number): readonly LineMark[] =>
  drawn.marks.filter(
    (mark): mark is LineMark =>
      mark.is === "line" &&
      mark.data?.[key] !== undefined &&
      (value === undefined || mark.data[key] === value),
  );

test("some worked examples are ready, and among them are fillers, plies, patches and gouges", () => {
  expect(ready.length).toBeGreaterThanOrEqual(6);
  expect(ready).toEqual(expect.arrayContaining(["small-chip", "open-hole", "laid-up", "moulded-hole"]));
});

describe.each(sheets)("on a %s sheet", (_, sheet) => {
  test.each(ready)(
    "%s: the bevel is as long on the sheet as the job says, to the scale that is said",
    (name) => {
      for (const picture of picturesOf(name, "section")) {
        const drawn = drawingOf(picture, sheet)!;
        const [bevel] = linesWith(drawn, "part", "bevel");
        const [, top, edge] = bevel!.points;
        expect(edge![0] - top![0]).toBeCloseTo(lengthIn(name, "bevel-width") * scaleSaid(drawn), 6);
        const [thick] = linesWith(drawn, "dimension", "thickness");
        const stretch = Number(/thickness ×([\d.]+)/.exec(drawn.notes.join(" "))?.[1] ?? 1);
        expect(thick!.data!["length"]).toBeCloseTo(
          lengthIn(name, "thickness") * scaleSaid(drawn) * stretch,
          2,
        );
      }
      expect(picturesOf(name, "section")).toHaveLength(1);
    },
  );

  test.each(["section", "plies"])(
    "a %s that numbers its plies by size says so, and leaves to the steps which goes down first",
    (shape) => {
      const [picture] = picturesOf("laid-up", shape);
      expect(drawingOf(picture!, sheet)!.notes).toContain(say("draw.by-size"));
    },
  );

  test("the plies step out over the bevel as the list does", () => {
    const [picture] = picturesOf("laid-up", "section");
    const drawn = drawingOf(picture!, sheet)!;
    const right = linesWith(drawn, "ply").filter((mark) => mark.data!["side"] === 1);
    expect(right).toHaveLength(4);
    const ends = right.map((mark) => Math.max(...mark.points.map(([x]) => x)));
    // 8.75 mm from one ply to the next.
    for (let i = 1; i < ends.length; i++)
      expect(ends[i]! - ends[i - 1]!).toBeCloseTo(lengthIn("laid-up", "ply-step") * scaleSaid(drawn), 6);
    // The last one meets the edge of the bevel on the face.
    const [bevel] = linesWith(drawn, "part", "bevel-right");
    expect(ends.at(-1)).toBeCloseTo(bevel!.points[1]![0], 6);
  });

  test("plies from above have their lengths and widths", () => {
    for (const name of ["laid-up", "moulded-hole"]) {
      const [picture] = picturesOf(name, "plies");
      const drawn = drawingOf(picture!, sheet)!;
      const rows = picture!.values.find((one) => one.argument === "plies")!.rows!;
      const ovals = drawn.marks.filter(
        (mark): mark is OvalMark => mark.is === "oval" && mark.data?.["ply"] !== undefined,
      );
      expect(ovals).toHaveLength(rows.length);
      for (const one of ovals) {
        const row = rows[(one.data!["ply"] as number) - 1]!;
        expect(2 * one.rx).toBeCloseTo(row["length"]!.si * 1000 * scaleSaid(drawn), 6);
        expect(2 * one.ry).toBeCloseTo(row["width"]!.si * 1000 * scaleSaid(drawn), 6);
      }
      const [hole] = drawn.marks.filter(
        (mark): mark is OvalMark => mark.is === "oval" && mark.data?.["part"] === "hole",
      );
      expect(2 * hole!.rx).toBeCloseTo(lengthIn(name, "longest-side") * scaleSaid(drawn), 6);
    }
  });

  test("marks of a cup are in proportion to the volumes, or to amounts without a density", () => {
    for (const name of ready)
      for (const picture of picturesOf(name, "cup")) {
        const drawn = drawingOf(picture, sheet)!;
        const rows = picture.values.find((one) => one.argument === "marks")!.rows!;
        const of = (row: (typeof rows)[number]) =>
          rows.every((one) => one["volume"] !== undefined) ? row["volume"]!.si : row["amount"]!.si;
        const layers = linesWith(drawn, "part").filter((mark) => mark.fill !== "none");
        expect(layers).toHaveLength(rows.length);
        const heights = layers.map(
          (mark) => Math.max(...mark.points.map(([, y]) => y)) - Math.min(...mark.points.map(([, y]) => y)),
        );
        const all = rows.reduce((sum, row) => sum + of(row), 0),
          high = heights.reduce((sum, one) => sum + one, 0);
        rows.forEach((row, i) => expect(heights[i]! / high).toBeCloseTo(of(row) / all, 6));
      }
  });

  test.each(ready)(
    "%s: bars of the time line are in proportion to their minutes, one after the other",
    (name) => {
      const [picture] = picturesOf(name, "timeline");
      const drawn = drawingOf(picture!, sheet)!;
      const bars = linesWith(drawn, "minutes");
      const long = (mark: LineMark) =>
        Math.max(...mark.points.map(([x]) => x)) - Math.min(...mark.points.map(([x]) => x));
      const whole = bars.filter((mark) => mark.data!["cut"] === undefined);
      const per = long(whole[0]!) / (whole[0]!.data!["minutes"] as number);
      for (const mark of whole) expect(long(mark)).toBeCloseTo((mark.data!["minutes"] as number) * per, 6);
      // No bar begins before the one before it has ended, and nothing is longer than the longest wait.
      let end = 0;
      for (const mark of bars) {
        const from = Math.min(...mark.points.map(([x]) => x));
        expect(from).toBeGreaterThanOrEqual(end - 2);
        end = Math.max(end, Math.max(...mark.points.map(([x]) => x)));
      }
      expect(end).toBeLessThanOrEqual(sheet.width);
      const steps = showJob(jobOf(name)).steps;
      const work = steps.reduce((sum, step) => sum + (step.minutes?.takes ?? 0), 0);
      expect(
        bars
          .filter((mark) => mark.data!["kind"] === "work")
          .reduce((sum, mark) => sum + (mark.data!["minutes"] as number), 0),
      ).toBeCloseTo(work, 1);
      const longest = Math.max(...steps.map((step) => step.minutes?.waits ?? 0));
      const [marked] = bars.filter((mark) => mark.fill === "longest");
      expect(marked?.data?.["minutes"] ?? 0).toBeCloseTo(longest, 1);
    },
  );

  test("words say every number that the engine gives, in both unit systems", () => {
    const missing: string[] = [];
    for (const name of ready)
      for (const units of ["book", "us", "metric"] as const)
        for (const picture of showJob(jobOf(name), units).pictures ?? []) {
          if (picture.shape === "map" || picture.shape === "chart") continue;
          const words = drawingOf(picture, sheet)!.describes.join("\n");
          for (const value of picture.values) {
            // What only the mixing helper uses is no part of the drawing.
            if (
              ["cups", "working", "pace", "bead", "least", "most"].includes(value.argument) &&
              picture.shape === "cup"
            )
              continue;
            if (value.rows === undefined && !words.includes(value.text))
              missing.push(`${name} ${picture.id}: ${value.argument} ${value.text}`);
            for (const row of value.rows ?? [])
              for (const [column, cell] of Object.entries(row)) {
                // From the side a ply shows how long it is, and nothing else.
                if (picture.shape === "section" && column !== "length") continue;
                if (column !== "says" && column !== "part" && cell.text !== "" && !words.includes(cell.text))
                  missing.push(`${name} ${picture.id}: ${column} ${cell.text}`);
              }
          }
        }
    expect(missing).toEqual([]);
  });
});

test("a drawing is an image with a title and all its words for who does not see it", () => {
  const [picture] = picturesOf("laid-up", "section");
  const page = renderToStaticMarkup(createElement(Drawing, { picture: picture! }));
  expect(page.match(/<svg/g)).toHaveLength(2);
  expect(page).toContain('role="img"');
  for (const [, titled, described] of page.matchAll(/aria-labelledby="(\S+) (\S+)"/g)) {
    expect(page).toMatch(new RegExp(`<title id="${titled}">[^<]+</title>`));
    expect(page).toMatch(new RegExp(`<desc id="${described}">[^<]*35 mm[^<]*</desc>`));
  }
});

test("amounts, plies and steps are not drawn before the job is released", () => {
  for (const shape of ["cup", "plies", "timeline"])
    for (const state of ["waiting", "stopped", "impossible"]) expect(isReleased(shape, state)).toBe(false);
  for (const shape of ["cup", "plies", "timeline", "section", "map", "chart"]) {
    expect(isReleased(shape, "ready")).toBe(true);
    expect(isReleased(shape, "stopped")).toBe(false);
  }
});

describe("the map of outcomes", () => {
  const job = jobOf("laid-up");
  const map = outcomeMap(job, { across: "longest-side", up: "thickness", shows: "method" })!;
  test("its fields fill it without lying over one another", () => {
    const area = map.fields.reduce((sum, one) => sum + (one.right - one.left) * (one.top - one.bottom), 0);
    expect(area).toBeCloseTo((map.across.high - map.across.low) * (map.up.high - map.up.low), 12);
    for (const [i, a] of map.fields.entries())
      for (const b of map.fields.slice(i + 1))
        expect(a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top).toBe(false);
  });
  test("they end at the limits that the book names: 25 mm, 3 inch and 400 mm", () => {
    expect([...new Set(map.fields.flatMap((one) => [one.left, one.right]))].sort((a, b) => a - b)).toEqual([
      0.005, 0.025, 0.0762, 0.4, 0.6,
    ]);
  });
  test("what a field says comes out of a job worked there", () => {
    for (const other of ["laid-up", "open-hole", "moulded-hole", "small-chip"])
      for (const [across, up, shows] of [
        ["longest-side", "thickness", "method"],
        ["air", "humidity", "resin-type"],
        ["longest-side", "to-edge", "fills"],
        ["panel", "humidity", "method"],
      ] as const) {
        const from = jobOf(other);
        const drawn = outcomeMap(from, { across, up, shows }, "book", 24)!;
        for (const field of drawn.fields) {
          // Just inside the field's own corner fields that follow a limit aslant are only near it: the middle
          // is what they were made of.
          const at = {
            [across]: `${inBook(across, (field.left + field.right) / 2)}`,
            [up]: `${inBook(up, (field.bottom + field.top) / 2)}`,
          };
          const view = showJob(workJob(book, { ...from.answers, ...at }));
          const value = view.values.find((one) => one.name === shows)!;
          const word =
            value.state !== "known"
              ? undefined
              : value.value === true
                ? "yes"
                : value.value === false
                  ? "no"
                  : value.value;
          expect([word, view.state === "stopped"], `${other}, ${JSON.stringify(at)}`).toEqual([
            drawn.words[field.word],
            field.stopped,
          ]);
        }
      }
  });
  test("the job's point lies where its answers are", () => {
    expect([map.across.at?.si, map.up.at?.si, map.words[map.here]]).toEqual([0.17, 0.0032, "layup"]);
  });
  test("what is no number or no outcome has no map", () => {
    expect(outcomeMap(job, { across: "longest-side", up: "longest-side", shows: "method" })).toBeUndefined();
    expect(outcomeMap(job, { across: "use", up: "thickness", shows: "method" })).toBeUndefined();
    expect(
      outcomeMap(job, { across: "longest-side", up: "thickness", shows: "bevel-width" }),
    ).toBeUndefined();
    expect(outcomeMap(job, { across: "nothing", up: "thickness", shows: "method" })).toBeUndefined();
  });
  const inBook = (ask: string, si: number): string =>
    ask === "humidity"
      ? `${si * 100} %`
      : ask === "air" || ask === "panel"
        ? `${si - 273.15} °C`
        : `${si * 1000} mm`;
});

test("a chart is drawn through its rows, with the job on it", () => {
  const chart = chartDrawn(jobOf("laid-up"), "house-dose")!;
  expect(chart.points.map((point) => point.says)).toEqual([
    "15 °C: 2 % by mass",
    "20 °C: 1.5 % by mass",
    "30 °C: 1 % by mass",
  ]);
  expect([chart.across.at?.text, chart.up.at?.text]).toEqual(["20 °C", "1.5 % by mass"]);
  expect(chartDrawn(jobOf("laid-up"), "resin-pace.cure")?.held).toEqual(["resin-type polyester"]);
  // Bands are level; where a cell is a rule of the number itself, the line follows it.
  const light = chartDrawn(jobOf("laid-up"), "backing.light")!;
  expect(light.lines.map((stretch) => [stretch[0]!.x, stretch.at(-1)!.x, stretch[0]!.y])).toEqual([
    [0.001, 0.0018, 2],
    [0.0018, 0.0028, 3],
    [0.0028, 0.003, 2],
    [0.003, 0.0033, 1],
    [0.0033, 0.0036, 0],
    [0.0036, 0.0043, 2],
    [0.0043, 0.012, 0],
  ]);
  expect(chartDrawn(jobOf("laid-up"), "skin-key")).toBeUndefined();
  expect(chartDrawn(jobOf("laid-up"), "nothing")).toBeUndefined();
});
