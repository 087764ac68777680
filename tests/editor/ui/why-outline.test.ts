// The outline of reasons: its first sentence, and that shared steps never make it grow without end.
import "../../../editor/ui/words/all-words.ts";
import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import type { Decision } from "../../../core/reason.ts";
import { decisionsText } from "../../../core/reason-words.ts";
import type { TraceStep, TraceView, TracedLine } from "../../../core/view.ts";
import { atFirst, below, close, drawnLines, lineState, open } from "../../../editor/ui/parts/why-opened.ts";
import type { Opened } from "../../../editor/ui/parts/why-opened.ts";
import { WhyPanel } from "../../../editor/ui/parts/why-panel.tsx";
import { becauseIsSaid, whySentence } from "../../../editor/ui/parts/why-sentence.ts";

const step = (more: Partial<TraceStep>): TraceStep => ({
  does: "figure",
  name: "a",
  id: "figure a",
  at: { start: 0, end: 1 },
  state: "known",
  value: "75 mm",
  rule: "b",
  filled: "75 mm",
  decided: "",
  decidedBy: [],
  layer: "panels",
  rests: [],
  ...more,
});

const by = (decision: Decision) => ({ decided: decisionsText([decision]), decidedBy: [decision] });
const on = (applies: TracedLine["applies"], text: string, condition?: string) => ({
  value: `${applies}: ${text}`,
  line: { applies, text, ...(condition === undefined ? {} : { condition }) },
  rule: condition === undefined ? "always" : `when ${condition}`,
});
const between = by({
  code: "between-rows",
  points: [
    { row: 1, cells: "15 °C | 2.0" },
    { row: 2, cells: "20 °C | 1.5" },
  ],
});

describe("the sentence", () => {
  it.each([
    [
      { because: "6 mm of panel at 1:12, up to the next 5 mm" },
      "75 mm, because 6 mm of panel at 1:12, up to the next 5 mm.",
    ],
    [
      { because: "A through break is cut the whole way." },
      "75 mm, because a through break is cut the whole way.",
    ],
    [{ because: "SMC keeps release agent inside" }, "75 mm, because SMC keeps release agent inside."],
    [
      by({ code: "row", row: 3, cells: "hand-laid, 150 mm and over" }),
      "75 mm, by row 3: hand-laid, 150 mm and over.",
    ],
    [by({ code: "since", condition: "below-waterline is yes" }), "75 mm, since below-waterline is yes."],
    [
      {
        value: "1:12",
        ...by({ code: "since", condition: "flexes is yes" }),
        because: "Longer where the panel flexes",
      },
      "1:12, since flexes is yes, because longer where the panel flexes.",
    ],
    [
      {
        value: "1:10",
        ...by({ code: "otherwise" }),
        because: "Longer where the panel flexes",
      },
      "1:10, since no other case of its rule applies.",
    ],
    [
      {
        value: "10 min",
        ...by({
          code: "otherwise",
          not: [{ condition: "air < coldest", numbers: "20 °C < 18 °C" }, { condition: "wet" }],
        }),
      },
      "10 min, since this is not so: air < coldest (20 °C < 18 °C); wet.",
    ],
    [
      {
        value: "one cup,",
        ...by({ code: "since", condition: "cups is 1" }),
      },
      "one cup, since cups is 1.",
    ],
    [{ filled: "6 mm run out at 1:12" }, "75 mm, from 6 mm run out at 1:12."],
    [{}, "75 mm."],
    [{ does: "answer" }, "75 mm, as answered."],
    [{ does: "taken", because: "The stricter of the two" }, "75 mm, taken because the stricter of the two."],
    [{ does: "step", ...on("yes", "Wash it") }, "On the card, as always."],
    [{ does: "chart", ...between }, "75 mm, between rows 1 (15 °C | 2.0) and 2 (20 °C | 1.5)."],
    [{ does: "dial" }, "75 mm, set by the house."],
    [
      { state: "unknown", value: "waits for skin", because: "Not said here" },
      "Not known yet: waits for skin.",
    ],
    [{ state: "impossible", value: "No row for 45 °C." }, "No row for 45 °C."],
    [{ state: "impossible", value: "divided by zero" }, "No value: divided by zero."],
    [{ does: "step", ...on("yes", "Wash it"), because: "Not said here" }, "On the card, as always."],
    [
      {
        does: "stop",
        ...on("yes", "Too cold", "air < coldest"),
        filled: "12 °C < 15 °C",
        because: "Not said here",
      },
      "Holds, since air < coldest (12 °C < 15 °C).",
    ],
    [
      {
        does: "stop",
        ...on("no", "Carries load", "use is load-bearing"),
        filled: "body is load-bearing",
        because: "Not said here",
      },
      "Does not hold, since this is not so: use is load-bearing.",
    ],
    [
      { does: "step", ...on("no", "Patch it", "patched"), filled: "no" },
      "Not on the card, since patched is no.",
    ],
    [
      { does: "caution", ...on("no", "Peroxide"), rests: [1] },
      "Not on the card, since no step calls for it.",
    ],
    [{ does: "step", state: "unknown", ...on("waits", "Lay it up", "lays") }, "Not settled yet."],
    [{ does: "chart", ...between }, "75 mm, between rows 1 (15 °C | 2.0) and 2 (20 °C | 1.5)."],
    [{ does: "dial" }, "75 mm, set by the house."],
    [{ state: "impossible", value: "No row for 45 °C." }, "No row for 45 °C."],
  ] satisfies [Partial<TraceStep>, string][])("%j", (more, sentence) => {
    expect(whySentence(step(more))).toBe(sentence);
  });
});

it("says the book's reason once, and never as the reason why a step or stop applies", () => {
  expect(becauseIsSaid(step({ because: "Longer where the panel flexes" }))).toBe(true);
  expect(
    becauseIsSaid(step({ does: "stop", ...on("no", "Too cold", "a < b"), because: "The cure can stop" })),
  ).toBe(false);
  expect(becauseIsSaid(step({}))).toBe(false);
});

describe("the outline", () => {
  // Each step rests on the next, twice, and on the one after it: written out in full it would have millions
  // of lines.
  const deep = 30;
  const ladder: TraceView = {
    of: "s0",
    depth: "full",
    steps: Array.from({ length: deep }, (_, at) =>
      step({ name: `s${at}`, rests: [at + 1, at + 1, at + 2].filter((rest) => rest < deep) }),
    ),
  };

  it("opens a shared step in one place only, so that everything opened stays as long as the trace", () => {
    let opened: Opened = atFirst();
    let path = "0";
    for (let place = 1; place < deep; place++) {
      path = below(path, place);
      opened = open(opened, place, path);
    }
    expect(opened.size).toBe(deep);
    expect(drawnLines(ladder, opened)).toBeLessThanOrEqual(2 * deep);
  });
  it("refers to the line where a step stands open", () => {
    const opened = open(atFirst(), 2, "0/1/2");
    expect(lineState(opened, 2, "0/1/2")).toEqual({ is: "open" });
    expect(lineState(opened, 2, "0/2")).toEqual({ is: "elsewhere", home: "0/1/2" });
    expect(lineState(opened, 1, "0/1")).toEqual({ is: "closed" });
    expect(open(opened, 2, "0/2")).toBe(opened);
  });
  it("closes all that stood open below, and nothing beside", () => {
    const opened = open(open(open(atFirst(), 1, "0/1"), 2, "0/1/2"), 11, "0/11");
    expect([...close(opened, "0/1").keys()]).toEqual([0, 11]);
  });
  it("draws only what is opened, and says how many more there are", () => {
    const wide: TraceView = {
      of: "s",
      depth: "full",
      steps: [
        step({ rests: Array.from({ length: 500 }, (_, at) => at + 1) }),
        ...Array.from({ length: 500 }, (_, at) => step({ name: `row${at}` })),
      ],
    };
    const page = renderToStaticMarkup(
      createElement(WhyPanel, { trace: wide, depth: "full", onDepth: () => {} }),
    );
    expect(page.match(/data-line=/g)).toHaveLength(24);
    expect(page).toContain("476 more");
  });
  it("draws nothing for an empty trace and survives a place that is not there", () => {
    const draw = (trace: TraceView) =>
      renderToStaticMarkup(createElement(WhyPanel, { trace, depth: "full", onDepth: () => {} }));
    expect(draw({ of: "s", depth: "full", steps: [] })).toBe("");
    expect(draw({ of: "s", depth: "full", steps: [step({ rests: [7] })] })).toContain("75 mm");
  });
});
