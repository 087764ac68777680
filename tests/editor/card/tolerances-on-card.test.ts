// The card with tolerances, and the order of questions by what is proved to matter.
import "../../../editor/ui/words/all-words.ts";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import type { AskView, ToleranceView, JobView } from "../../../core/view.ts";
import { JobCard } from "../../../editor/card/job-card.tsx";
import { groupAsks } from "../../../editor/card/job-order.ts";
import { stateLine } from "../../../editor/card/state-line.ts";
import { doubtLines } from "../../../editor/card/doubt-lines.tsx";
import { meaningsOf } from "../../../editor/card/meanings.ts";
import { readBook, showJob, workJob } from "../../../engine/index.ts";
import { english, wordsIn } from "../../../editor/ui/words/words.ts";

const asks = ["skin", "air", "size", "seam"].map(
  (name): AskView => ({ name, question: `What is ${name}?`, part: "", answer: { is: "yes-no" } }),
);
const job: JobView = {
  state: "waiting",
  values: [],
  steps: [],
  cautions: [],
  stops: [],
  waiting: ["size", "air"],
  findings: [],
  broken: [],
};
const names = (list: readonly AskView[]) => list.map((ask) => ask.name);

test("what settles soonest is asked first; what is waited for stays to be asked", () => {
  const groups = groupAsks(asks, {}, job, { ask: ["air"], needless: ["size", "seam", "skin"] });
  expect(names(groups.toAsk)).toEqual(["air", "size"]);
  expect(names(groups.needless)).toEqual(["skin", "seam"]);
  expect(groups.notNeeded).toEqual([]);
});

test("a ready job says which questions can still bring a caution", () => {
  const groups = groupAsks(
    asks,
    { skin: "yes" },
    { ...job, state: "ready", waiting: [] },
    { ask: ["seam"], needless: ["air"] },
  );
  expect([
    names(groups.cautions),
    names(groups.needless),
    names(groups.notNeeded),
    names(groups.toAsk),
  ]).toEqual([["seam"], ["air"], ["size"], []]);
});

test("a decision open within a tolerance is above the steps, with what to measure again", () => {
  const steps = [
    {
      id: "step mix",
      text: "Mix 40 g",
      pieces: ["Mix ", { text: "40 g", name: "amount", state: "known" as const }],
    },
  ];
  const card = (doubts?: ToleranceView) =>
    renderToStaticMarkup(
      createElement(JobCard, {
        title: "Panels",
        edition: 1,
        asks,
        answers: {},
        job: { ...job, state: "ready", waiting: [], steps, ...(doubts ? { doubts } : {}) },
      }),
    );
  const page = card({
    spans: { amount: "36 g to 44 g" },
    open: [
      {
        id: "step lay",
        says: "whether step lay applies turns within the tolerance: measure again",
        doubt: { code: "whether-applies", line: { what: "step", name: "lay" } },
      },
    ],
    measureAgain: "size",
  });
  expect(page.indexOf("1 step depends on it.")).toBeGreaterThan(0);
  expect(page.indexOf("1 step depends")).toBeLessThan(page.indexOf("Mix "));
  expect(page).toContain("Measure again: ");
  expect(page).toContain("36 g to 44 g");
  expect(card({ spans: {}, open: [] })).toContain("nothing turns");
  expect(card()).not.toContain("tolerance");
});

test("a card held back by a tolerance says where it turns, and asks for that measurement alone", () => {
  const doubts: ToleranceView = {
    spans: {},
    open: [
      {
        id: "step lay",
        says: "whether step lay applies turns within the tolerance: measure again",
        doubt: { code: "whether-applies", line: { what: "step", name: "lay" } },
      },
    ],
    measureAgain: "size",
    turnsAt: { value: "150 mm", away: "2 mm" },
  };
  const held: JobView = { ...job, state: "waiting", waiting: ["size"], steps: [], doubts };
  const page = renderToStaticMarkup(
    createElement(JobCard, {
      title: "Panels",
      edition: 1,
      asks,
      answers: { size: "148 mm ± 3 mm" },
      job: held,
    }),
  );
  expect(page).toContain("Measure again before the work");
  expect(page).toContain("It turns at 150 mm, 2 mm from the answer.");
  expect(page).not.toContain("card-waits");
  expect(stateLine(held, 1, english)).toBe("measure again");
});

test("what a tolerance leaves open reads without the names of the book, in both languages", () => {
  const text = readFileSync(
    fileURLToPath(new URL("../../../rulesets/road-panels.bevel", import.meta.url)),
    "utf8",
  );
  const sums = readFileSync(
    fileURLToPath(new URL("../../../rulesets/common-sums.bevel", import.meta.url)),
    "utf8",
  );
  const book = readBook(text, undefined, [sums]);
  const { answers } = book.worked.find((one) => one.name === "rough-back")!;
  const loose = { ...answers, "longest-side": "395 mm ± 10 mm" };
  const open = showJob(workJob(book, loose)).doubts?.open ?? [];
  const kinds = open.map((one) => one.doubt.code);
  expect(new Set(kinds)).toEqual(new Set(["whether-holds", "whether-applies", "may-be"]));
  for (const language of ["en", "es"] as const) {
    const lines = doubtLines(open, meaningsOf(book.rows, book.kinds), wordsIn(language));
    const named = open.flatMap(({ id, doubt }) => [
      id,
      ...(doubt.code === "may-be" ? [doubt.name, ...doubt.words.filter((word) => word?.includes("-"))] : []),
    ]);
    for (const name of named) expect(lines.join("\n")).not.toContain(name);
    expect(lines.length).toBeLessThan(open.length);
    expect(lines.at(-1)).toMatch(language === "en" ? /^\d+ steps depend on it\.$/ : /^\d+ pasos dependen/);
  }
});
