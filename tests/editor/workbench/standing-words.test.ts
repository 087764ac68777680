// What the record says of a book, and its lists: made-up standings, each with one thing in the way.
import { describe, expect, test } from "vitest";
import type { LineName, Turn } from "../../../core/reason.ts";
import { turnText } from "../../../core/reason-words.ts";
import type {
  Finding,
  SensitivityView,
  GoalView,
  Row,
  VerificationView,
  WorkedView,
} from "../../../core/view.ts";
import { closeCallsInOrder, distanceOf } from "../../../editor/card/close-calls-order.ts";
import { withFreeName } from "../../../editor/workbench/standing/as-example.ts";
import { turnsOf } from "../../../editor/card/close-calls.tsx";
import {
  mayBeSaid,
  noticedPercent,
  owedProved,
  shareInWords,
} from "../../../editor/workbench/standing/standing-words.ts";
import { neverRows, provedFindings } from "../../../editor/workbench/standing/proved-findings.ts";

const goal = (verdict: GoalView["verdict"], more: Partial<GoalView> = {}): GoalView => ({
  id: "promise #1",
  sort: "promise",
  says: "a <= b",
  verdict,
  ...more,
});
const view = (goals: readonly GoalView[], never: VerificationView["never"] = []): VerificationView => ({
  goals,
  never,
  settled: goals.length,
  all: goals.length,
  done: true,
});
const finding = (code: string): Finding => ({
  code,
  weight: "error",
  at: { start: 0, end: 1 },
  says: "x",
  also: [],
  repairs: [],
});
const worked = (passes: boolean): WorkedView => ({ name: "w", title: "", answers: {}, passes, expects: [] });

describe("what may be said", () => {
  test("all proved, and only then", () => {
    expect(mayBeSaid(view([goal("proved")]), [], [worked(true)]).overall).toBe("proved");
    expect(mayBeSaid(view([goal("proved")]), [], [worked(false)]).overall).toBe("open");
    expect(mayBeSaid(view([goal("proved"), goal("looking")]), [], []).overall).toBe("waiting");
    expect(mayBeSaid(view([goal("proved"), goal("not settled")]), [], []).overall).toBe("open");
    expect(mayBeSaid(view([goal("broken"), goal("looking")]), [], []).overall).toBe("broken");
    expect(mayBeSaid(undefined, [], []).overall).toBe("waiting");
  });
  test("a fault or a hole forbids it, whatever is proved", () => {
    expect(mayBeSaid(view([goal("proved")]), [finding("unit/mismatch")], []).first).toBe(
      "It may not be said.",
    );
    expect(mayBeSaid(view([goal("proved")]), [finding("chart/hole")], []).then).toContain(
      "1 hole or overlap",
    );
  });
  test("a book without a promise is not called safe", () => {
    const said = mayBeSaid(view([goal("proved", { sort: "card" })]), [], []);
    expect(said.overall).toBe("open");
    expect(said.then).toContain("nothing is proved of safety");
  });
  test("what the proof is about is said with it, and what comes first", () => {
    expect(mayBeSaid(view([goal("proved")]), [], []).then).toMatch(
      /every answer in range, left blank.*no more.*label, local codes and licensed practice come first/,
    );
  });
});

test("shares and percents never round up to all or down to nothing", () => {
  expect([1, 0.9999, 0.123, 0.0123, 0.000001].map(shareInWords)).toEqual([
    "all jobs",
    "99 % of all jobs",
    "12 % of all jobs",
    "1.2 % of all jobs",
    "less than 0.01 % of all jobs",
  ]);
  expect(noticedPercent({ tried: 1000, noticed: 999 })).toBe(99);
  expect(noticedPercent({ tried: 7, noticed: 7 })).toBe(100);
  expect(owedProved("condition", 96)).toBe("All 96 conditions have a value for every job.");
});

describe("close calls", () => {
  const flip = (now: string, to: string, turn: Turn): SensitivityView => ({
    changes: [{ ask: "a", now, to }],
    turns: [turnText(turn)],
    turned: [turn],
    first: turn,
    says: `${turnText(turn)} at ${to}`,
  });
  const line = (
    code: "holds" | "no-longer-holds" | "applies",
    what: LineName["what"],
    name: string,
  ): Turn => ({
    code,
    line: { what, name },
  });
  const becomes = (name: string): Turn => ({ code: "becomes", name, word: "fill" });
  test("a stop that begins to hold first, then the nearest; another word after every measure", () => {
    const flips = [
      flip("body", "crash", line("holds", "stop", "crash-part")),
      flip("100 mm", "101 mm", line("applies", "step", "fill")),
      flip("20 °C", "10 °C", line("holds", "stop", "too-cold")),
      flip("20 °C", "30 °C", line("holds", "stop", "too-hot")),
      flip("5 mm", "6 mm", line("no-longer-holds", "stop", "small")),
    ];
    expect(closeCallsInOrder(flips).map((one) => one.turns[0])).toEqual([
      "stop too-hot holds",
      "stop too-cold holds",
      "stop crash-part holds",
      "stop small no longer holds",
      "step fill applies",
    ]);
  });
  test("distances read fractions of an inch and signs", () => {
    expect(distanceOf(flip("1 1/2 inch", "3 inch", becomes("method")))).toBeCloseTo(0.5);
    expect(distanceOf(flip("3/8 inch", "3/4 inch", becomes("method")))).toBeCloseTo(0.5);
    expect(distanceOf(flip("-5 °C", "5 °C", becomes("method")))).toBeCloseTo(2);
    expect(distanceOf(flip("0 mm", "0 mm", becomes("method")))).toBe(0);
  });
  test("turns of a name, of a named line and of a row", () => {
    expect(turnsOf(flip("1", "2", becomes("method")), "method")).toBe(true);
    expect(turnsOf(flip("1", "2", line("applies", "step", "lay-up")), "lay-up")).toBe(true);
    expect(turnsOf(flip("1", "2", line("applies", "caution", "#2")), "caution #2")).toBe(true);
    expect(turnsOf(flip("1", "2", becomes("methods")), "method")).toBe(false);
  });
});

test("an example takes a free name, and keeps its own where that is free", () => {
  const text = 'worked guard-3 "Guards it"\n    with a 1 mm\n    gives b 2 mm';
  expect(withFreeName(text, new Set(["guard-2"]))).toBe(text);
  expect(withFreeName(text, new Set(["guard-3", "guard-2"]))).toMatch(/^worked guard-4 "Guards it"\n/);
});

describe("as findings", () => {
  const row = (id: string, start: number): Row => ({
    id,
    keyword: "promise",
    part: "",
    at: { start, end: start + 20 },
    lead: { start, end: start },
    ruleAt: { start: start + 8, end: start + 20 },
    rule: "",
    title: "",
    type: "",
    unit: "",
    uses: [],
    usedBy: [],
    errors: 0,
    warnings: 0,
    layer: "",
    own: true,
  });
  test("broken is a fault at its rule with its job, open and never are doubts, proved is nothing", () => {
    const found = provedFindings(
      view(
        [
          goal("broken", { job: { a: "3 mm" }, gives: "b is 2 mm" }),
          goal("not settled", { id: "promise #2", share: 0.01 }),
          goal("proved", { id: "promise #2" }),
        ],
        [{ id: "chart c", at: { start: 60, end: 64 }, says: "No job reaches row 1." }],
      ),
      [row("promise #1", 10), row("promise #2", 40)],
    );
    expect(found.map(({ code, weight, at, witness }) => ({ code, weight, at, witness }))).toEqual([
      { code: "promise/broken", weight: "error", at: { start: 18, end: 30 }, witness: "a 3 mm" },
      { code: "promise/open", weight: "warning", at: { start: 48, end: 60 }, witness: undefined },
      { code: "rule/never", weight: "warning", at: { start: 60, end: 64 }, witness: undefined },
    ]);
    expect(found[0]!.says).toContain("There b is 2 mm.");
  });
  test("a chart's rows never reached, by place, and of that chart only", () => {
    const standing = view(
      [],
      [
        { id: "chart c", at: { start: 62, end: 66 }, says: "" },
        { id: "chart d", at: { start: 70, end: 72 }, says: "" },
      ],
    );
    expect(
      neverRows(standing, "c", [
        { at: { start: 50, end: 60 } },
        { at: { start: 61, end: 69 } },
        { at: { start: 70, end: 79 } },
      ]),
    ).toEqual([1]);
  });
});
