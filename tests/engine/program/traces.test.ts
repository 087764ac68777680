// A trace never grows beyond the book: each statement that was used stands in it once, however often it is
// used.
import { expect, test } from "vitest";
import { traceReport } from "../../../core/schemas/report.ts";
import { readBook, why, workJob } from "../../../engine/index.ts";

const chain = (length: number) =>
  ["ask f0 in mm, 0 to 10", ...Array.from({ length }, (_, i) => `figure f${i + 1} = f${i} + f${i}`)].join(
    "\n",
  );

test.each(["deciding", "full"] as const)(
  "40 figures that each use the one above twice have 41 steps (%s)",
  (depth) => {
    const trace = why(workJob(readBook(chain(40)), { f0: "1 mm" }), "f40", depth)!;
    expect(trace.steps).toHaveLength(41);
    expect(new Set(trace.steps.map((step) => step.id)).size).toBe(41);
    expect(trace.steps.flatMap((step) => step.rests)).toHaveLength(40);
  },
);

test("a trace grows with the book in a straight line", () => {
  const size = (length: number) =>
    JSON.stringify(why(workJob(readBook(chain(length)), { f0: "1 mm" }), `f${length}`, "full")).length;
  expect(size(80)).toBeLessThan(2.5 * size(40));
});

test("a trace is what its schema says, and begins with what was asked about", () => {
  const book = readBook(
    `${chain(5)}\nstep go "Go {f5}" when f5 > 3 mm\nchart grit by f0 gives number\n` +
      "    f0 | grit\n    any | 80\n    from practice",
  );
  const job = workJob(book, { f0: "1 mm" });
  for (const row of book.rows) {
    const trace = why(job, row.id, "full")!;
    expect(traceReport.parse(trace)).toBeDefined();
    expect(trace.steps[0]!.id).toBe(row.id);
    for (const step of trace.steps) expect(step.at.end).toBeGreaterThan(step.at.start);
  }
  expect(why(job, "nothing-of-that-name", "full")).toBeUndefined();
});

test("values, steps and columns are asked for by their names", () => {
  const book = readBook(
    "ask depth in mm, 0 to 10\nchart care by depth gives a in mm, b in mm\n" +
      "    depth | a | b\n    any | 1 | 2\n    from practice\n" +
      'step go "Go" when depth > 3 mm\nstop deep "No" when depth > 9 mm',
  );
  const job = workJob(book, { depth: "4 mm" });
  expect(
    ["depth", "care", "care.b", "go", "step go", "deep", "stop deep"].map(
      (name) => why(job, name, "deciding")?.steps[0]?.value,
    ),
  ).toEqual(["4 mm", "1 mm · 2 mm", "2 mm", "yes: Go", "yes: Go", "no: No", "no: No"]);
});

test("where a layer's rule leaves the base rule in force, its reason and basis are not told", () => {
  const house =
    'book house, edition 1\n    "House"\nask depth in mm, 0 to 10\n' +
    'figure width = 3 * depth\n    because "The house grinds so"\n    from practice';
  const book = readBook(
    'book yard, edition 1, amends house, edition 1\n    "Yard"\n' +
      "instead figure width = as-before + 5 mm when depth > 4 mm\n" +
      '    because "The yard grinds more"\n    from house "the lead"',
    undefined,
    [house],
  );
  const told = (depth: string) =>
    why(workJob(book, { depth }), "width", "deciding")!
      .steps.filter((step) => step.name === "width")
      .map(({ layer, because, basis }) => [layer, because, basis]);
  expect(told("5 mm")).toEqual([
    ["yard", "The yard grinds more", 'house "the lead"'],
    ["house", "The house grinds so", "practice"],
  ]);
  expect(told("3 mm")).toEqual([
    ["yard", undefined, undefined],
    ["house", "The house grinds so", "practice"],
  ]);
});

test("where two rows apply, the trace names both", () => {
  const book = readBook(
    `ask air in °C, 0 to 40
chart hours by air gives h
    air            | value
    under 23 °C    | 24 h
    22 °C and over | 8 h`,
  );
  const step = why(workJob(book, { air: "22.5 °C" }), "hours", "deciding")!.steps[0]!;
  expect(step.state).toBe("impossible");
  expect(step.decided).toBe(
    "rows 1 (air under 23 °C | value 24 h) and 2 (air 22 °C and over | value 8 h) both apply",
  );
  expect(book.text.slice(step.at.start, step.at.end)).toBe("22 °C and over | 8 h");
});
