// The job card and the order of questions, from small made-up jobs.
import "../../../editor/ui/words/all-words.ts";
import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import type { AskView, CardLine, JobView } from "../../../core/view.ts";
import { cardTotals, reasons, restsOnPractice } from "../../../editor/card/card-facts.ts";
import { JobCard } from "../../../editor/card/job-card.tsx";
import { groupAsks } from "../../../editor/card/job-order.ts";
import { tickStep, ticks } from "../../../editor/card/measure-stick.tsx";
import { basisWords, minutesWords } from "../../../editor/ui/parts/state-words.ts";

const ask = (name: string): AskView => ({
  name,
  question: `What is ${name}?`,
  part: "",
  answer: { is: "yes-no" },
});
const asks = ["skin", "air", "size", "seam"].map(ask);
const line = (id: string, text: string, more: Partial<CardLine> = {}): CardLine => ({
  id,
  text,
  pieces: [text],
  ...more,
});
const empty: JobView = {
  state: "waiting",
  values: [],
  steps: [],
  cautions: [],
  stops: [],
  waiting: [],
  findings: [],
  broken: [],
};
const card = (job: JobView, answers = {}) =>
  renderToStaticMarkup(
    createElement(JobCard, { title: "Panels", edition: 4, asks, answers, job, onWhy: () => {} }),
  );

describe("the order of questions", () => {
  it("asks what cannot be used first, then in the order in which the job waits", () => {
    const job: JobView = {
      ...empty,
      waiting: ["size", "air"],
      findings: [{ code: "answer/range", ask: "seam", says: "Too large.", cause: { code: "no-value" } }],
    };
    const groups = groupAsks(asks, { skin: "yes", seam: "900 mm" }, job);
    expect(groups.toAsk.map((each) => each.name)).toEqual(["seam", "size", "air"]);
    expect(groups.answered.map((each) => each.name)).toEqual(["skin"]);
    expect(groups.notNeeded).toEqual([]);
  });
  it("puts every ask in exactly one group", () => {
    const groups = groupAsks(asks, { air: "20 °C" }, { ...empty, waiting: ["seam", "no-such-ask"] });
    expect(
      [...groups.toAsk, ...groups.answered, ...groups.notNeeded].map((each) => each.name).sort(),
    ).toEqual(["air", "seam", "size", "skin"]);
  });
});

describe("the card", () => {
  const steps = [
    line("step wash", "Wash it", { minutes: { takes: 15, waits: 0 }, basis: "practice" }),
    line("step look", "Look at it"),
  ];
  it("adds up work and waiting, and counts what has no time", () => {
    expect(
      cardTotals([...steps, line("step cure", "Let it cure", { minutes: { takes: 5, waits: 1440 } })]),
    ).toEqual({ takes: 20, waits: 1440, untimed: 1 });
    expect(restsOnPractice({ ...empty, steps })).toBe(true);
    expect(restsOnPractice({ ...empty, steps: [line("step a", "A", { basis: "label" })] })).toBe(false);
  });
  it("gives steps only to a job that is ready, whatever else is handed in", () => {
    expect(card({ ...empty, state: "ready", steps })).toContain("Wash it");
    for (const state of ["waiting", "stopped", "impossible"] as const)
      expect(card({ ...empty, state, steps })).not.toContain("Wash it");
  });
  it("shows a stop before a caution and what is waited for, and says that steps are withheld", () => {
    const page = card({
      ...empty,
      state: "stopped",
      stops: [line("stop load", "Carries load")],
      cautions: [line("caution dust", "Glass dust")],
      waiting: ["air"],
    });
    expect(page.indexOf("Carries load")).toBeGreaterThan(0);
    expect(page.indexOf("Carries load")).toBeLessThan(page.indexOf("Glass dust"));
    expect(page).toContain("The steps are withheld.");
  });
  it("says in every state what comes first, and which book and edition it rests on", () => {
    for (const state of ["ready", "waiting", "stopped", "impossible"] as const) {
      const page = card({ ...empty, state });
      expect(page).toContain("label, local codes and licensed practice come before this card");
      expect(page).toContain("Made by the book “Panels”, edition 4");
    }
  });
  it("says of a caution whose condition is open that it may apply, and which questions are open", () => {
    const cautions = [
      line("caution dust", "Glass dust"),
      line("caution heat", "Resin heats up", { mayApply: ["air", "size"] }),
    ];
    const page = card({ ...empty, state: "ready", steps, cautions });
    expect(page).toContain("Wash it");
    expect(page).toMatch(/May apply\. Still open: [^<]*air[^<]*size[^<]*<\/b>[^<]*Resin heats up/);
    expect(page).toMatch(/<p class="card-says">Glass dust/);
    const groups = groupAsks(asks, { skin: "yes" }, { ...empty, state: "ready", cautions });
    expect(groups.cautions.map(({ name }) => name)).toEqual(["air", "size"]);
    expect(groups.notNeeded.map(({ name }) => name)).toEqual(["seam"]);
  });
  it("names the question whose answer has to be mended", () => {
    const says = "air is asked from 0 °C to 40 °C; 90 °C is outside.";
    const cause = { code: "answer/range", ask: "air", answer: "90 °C", low: "0 °C", high: "40 °C" } as const;
    const page = card({
      ...empty,
      state: "impossible",
      findings: [{ code: "answer/range", ask: "air", says, cause }],
      blocked: [{ says, ids: ["ask air", "step wash"], cause }],
    });
    expect(page).toMatch(/<b>[^<]*air[^<]*<\/b> air is asked from 0 °C/);
  });
  it("never reads a book's text as markup", () => {
    const page = card({ ...empty, state: "ready", steps: [line("step x", "<img src=x onerror=alert(1)>")] });
    expect(page).not.toContain("<img");
  });
  it("gives each reason once, with the values that share it", () => {
    const none = (name: string) => ({
      name,
      state: "impossible" as const,
      text: "off the chart",
      value: null,
      unit: null,
      reason: "No row for 45 °C.",
    });
    expect(reasons({ ...empty, values: [none("a"), none("b")] })).toMatchObject([
      { says: "No row for 45 °C.", of: [{ name: "a" }, { name: "b" }] },
    ]);
  });
});

describe("words and ticks", () => {
  it.each([
    [0, "none"],
    [0.2, "under 1 min"],
    [59.6, "1 h"],
    [65, "1 h 5 min"],
    [1440, "1 day"],
    [2900, "2 days 20 min"],
  ])("%d min is %s", (minutes, words) => {
    expect(minutesWords(minutes)).toBe(words);
  });
  it.each([
    ["practice", "common practice"],
    ['standard "A, clause 3"', "A, clause 3"],
    ['house "the lead, 2024"', "the house: the lead, 2024"],
    ["label", "the material's label"],
  ])("%s reads %s", (basis, words) => {
    expect(basisWords(basis)).toBe(words);
  });
  it("numbers a stick in round steps, ends included", () => {
    for (const [low, high] of [
      [0.5, 30],
      [-10, 50],
      [5, 600],
      [0, 0.4],
      [0, 2000],
    ] as const) {
      const step = tickStep(high - low);
      const numbered = ticks(low, high, step);
      expect(numbered.length).toBeGreaterThanOrEqual(4);
      expect(numbered.length).toBeLessThanOrEqual(11);
      expect(Math.min(...numbered)).toBeGreaterThanOrEqual(low);
      expect(Math.max(...numbered)).toBeLessThanOrEqual(high);
    }
    expect(ticks(0, 10, 2)).toEqual([0, 2, 4, 6, 8, 10]);
  });
});
