// The sheet's decisions without a page: which rows are drawn, what opening a cell does, what a paste sets,
// and how high a row is.
import { describe, expect, test } from "vitest";
import type { Row } from "../../../core/view.ts";
import type { JobTag } from "../../../editor/client/storage/stored-work.ts";
import { readBook } from "../../../engine/index.ts";
import { copiedText, answersIn, pastedAnswers } from "../../../editor/workbench/sheet/cell-answers.ts";
import { openingOf } from "../../../editor/workbench/sheet/cell-opening.ts";
import { columnsFor, gridTemplate, leadWidth } from "../../../editor/workbench/sheet/columns.ts";
import { edgeFrom } from "../../../editor/workbench/sheet/key-listener.ts";
import { draftHeight, editedHeight, rowHeight } from "../../../editor/workbench/sheet/row-height.ts";
import { sheetIndex } from "../../../editor/workbench/sheet/sheet-index.ts";
import { scrolledTo, topsOf, visibleRows } from "../../../editor/workbench/sheet/visible-rows.ts";

const text = `book small, edition 1
    "Small"
kind face
    smooth "Smooth"
    rough  "Rough"
ask thickness in mm, 1 to 30
    "How thick?"
ask back of face
    "The back?"
dial house-taper = 1:10, from 1:8 to 1:20
    from practice
chart plies by thickness gives number
    from practice
    thickness   | value
    up to 10 mm | 2
    over 10 mm  | 3
figure run = thickness run out at house-taper
promise run >= 1 mm
`;
const book = readBook(text);
const row = (id: string): Row => book.rows.find((one) => one.id === id)!;
const jobs: readonly JobTag[] = [
  { id: "j1", name: "One", answers: { thickness: "6 mm" } },
  { id: "j2", name: "Two", answers: {} },
];

describe("rows that are drawn", () => {
  const tops = topsOf(Array.from({ length: 100 }, () => 50));
  test("those seen, four above and below, and the focused one wherever it is", () => {
    expect(visibleRows(tops, 1000, 1500, -1)).toEqual(Array.from({ length: 19 }, (_, n) => n + 16));
    expect(visibleRows(tops, 1000, 1500, 2)[0]).toBe(2);
    expect(visibleRows(tops, 1000, 1500, 90).at(-1)).toBe(90);
    expect(visibleRows(tops, 1000, 1500, 20)).toHaveLength(19);
  });
  test("the ends of the sheet, and a sheet without rows", () => {
    expect(visibleRows(tops, 0, 100, -1)).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect(visibleRows(tops, 4900, 5400, -1).at(-1)).toBe(99);
    expect(visibleRows(topsOf([]), 0, 600, -1)).toEqual([]);
  });
  test.each([
    ["above", 100, 150, 300, 100],
    ["below", 900, 950, 300, 550],
    ["in view", 400, 450, 300, 300],
  ])("a place %s is scrolled to by the least way", (_where, from, to, start, wanted) => {
    expect(scrolledTo(from, to, start, 400)).toBe(wanted);
  });
});

describe("columns", () => {
  test("beside each other where there is room, else the name above the rule", () => {
    const wide = columnsFor(1400, 3);
    expect(wide).toEqual({ stacked: false, name: 228, rule: 560, basis: 116, job: 128 });
    expect(gridTemplate(wide, 2)).toBe("228px 560px 116px repeat(2, 128px)");
    expect(leadWidth(wide)).toBe(904);
    const narrow = columnsFor(390, 3);
    expect(narrow).toEqual({ stacked: true, name: 179, rule: 0, basis: 0, job: 104 });
    expect(gridTemplate(narrow, 3)).toBe("179px repeat(3, 104px)");
    expect(leadWidth(narrow)).toBe(179);
    expect(gridTemplate(columnsFor(860, 1), 1)).toBe("186px 500px repeat(1, 118px)");
  });
});

describe("opening a cell", () => {
  const context = { text, jobs, readOnly: false };
  const answer = { job: "j1" };
  test("an answer begins with what was answered, or with the letter typed over it", () => {
    const ask = row("ask thickness");
    expect(openingOf(ask, answer, context)).toEqual({ does: "edit", column: answer, first: "6 mm" });
    expect(openingOf(ask, answer, { ...context, typed: "7" })).toMatchObject({ first: "7" });
    expect(openingOf(ask, { job: "j2" }, context)).toMatchObject({ first: "" });
  });
  test("a value opens its why, also where the book can only be read", () => {
    const opening = openingOf(row("figure run"), answer, { ...context, readOnly: true });
    expect(opening).toEqual({ does: "open-why" });
  });
  test("nothing is edited while another tab has the book", () => {
    const locked = { ...context, readOnly: true };
    const refused = { does: "refuse", says: "Another tab is editing this book." };
    expect(openingOf(row("ask thickness"), answer, locked)).toEqual(refused);
    expect(openingOf(row("figure run"), "rule", locked)).toEqual(refused);
  });
  test("a name, a basis, a rule and a chart", () => {
    const dial = row("dial house-taper");
    expect(openingOf(dial, "name", context)).toMatchObject({ column: "name", first: "house-taper" });
    expect(openingOf(dial, "basis", context)).toMatchObject({ column: "basis", first: "practice" });
    expect(openingOf(dial, "rule", context)).toMatchObject({
      column: "rule",
      first: "1:10, from 1:8 to 1:20",
    });
    expect(openingOf(row("chart plies"), "rule", context)).toEqual({ does: "open-chart", name: "plies" });
  });
  test("a statement without a name is edited by its rule", () => {
    const promise = book.rows.find((one) => one.keyword === "promise")!;
    expect(openingOf(promise, "name", context)).toMatchObject({ does: "edit", column: "rule" });
  });
  test("a row underneath is amended, not edited", () => {
    const under = (id: string): Row => ({ ...row(id), own: false, layer: "house" });
    expect(openingOf(under("dial house-taper"), "rule", context)).toEqual({
      does: "edit",
      column: "rule",
      first: "1:10",
    });
    expect(openingOf(under("ask thickness"), "rule", context)).toEqual({ does: "amend-whole" });
    expect(openingOf(under("chart plies"), "rule", context)).toEqual({ does: "open-chart", name: "plies" });
    expect(openingOf(under("figure run"), "name", context)).toEqual({
      does: "refuse",
      says: "Its name is given in house. Its rule can be amended here.",
    });
  });
});

describe("blocks of cells", () => {
  const index = sheetIndex(book.rows, jobs, true);
  const both = [{ job: "j1" }, { job: "j2" }];
  test("the answers in a block; other rows and columns hold none", () => {
    const block = { rows: ["ask thickness", "figure run"], columns: ["rule" as const, { job: "j1" }] };
    expect(answersIn(block, index.byId)).toEqual([{ job: "j1", ask: "thickness" }]);
  });
  test("a paste goes to the questions from the chosen row on, and to the jobs from the chosen one", () => {
    const at = { row: "kind face", column: { job: "j1" } };
    expect(pastedAnswers([["4 mm", "5 mm"], ["rough"], ["lost"]], at, index)).toEqual([
      { job: "j1", ask: "thickness", text: "4 mm" },
      { job: "j2", ask: "thickness", text: "5 mm" },
      { job: "j1", ask: "back", text: "rough" },
    ]);
    expect(pastedAnswers([["4 mm"]], { row: "ask thickness", column: "rule" }, index)).toEqual([]);
  });
  test("names are copied as statements, other cells as tab-separated text", () => {
    const snapshot = { text, under: [], jobs: {} } as unknown as Parameters<typeof copiedText>[3];
    const name = { rows: ["dial house-taper"], columns: ["name" as const] };
    expect(copiedText(name, index.byId, jobs, snapshot)).toEqual({
      text: "dial house-taper = 1:10, from 1:8 to 1:20\n    from practice\n",
      says: "Copied the statement as text.",
    });
    const cells = { rows: ["dial house-taper"], columns: ["name" as const, "basis" as const] };
    expect(copiedText(cells, index.byId, jobs, snapshot)).toEqual({
      text: "house-taper\tpractice",
      says: "Copied 1 × 2 cells.",
    });
  });
  test("the edges of the sheet", () => {
    const at = { row: "ask back", column: { job: "j1" } };
    expect(edgeFrom(at, "first-row", index)).toEqual({ row: "book small", column: { job: "j1" } });
    expect(edgeFrom(at, "last-column", index)).toEqual({ row: "ask back", column: both[1] });
    expect(edgeFrom(at, "first-column", index)).toEqual({ row: "ask back", column: "name" });
  });
});

describe("heights of rows", () => {
  const columns = columnsFor(1400, 3);
  const height = (id: string, part: Partial<Row> = {}): number =>
    rowHeight({ row: { ...row(id), ...part }, columns, findings: [], width: 1400 });
  test("a kind is one quiet line, other rows have room for name and type", () => {
    expect(height("kind face", { rule: "smooth, rough" })).toBe(34);
    expect(height("dial house-taper")).toBe(56);
    expect(height("figure run", { keyword: "part" })).toBe(46);
  });
  test("each further line of the rule adds its height, up to four lines", () => {
    const rule = (lines: number): string => Array.from({ length: lines }, () => "x".repeat(60)).join(" ");
    expect([1, 2, 3, 4, 9].map((lines) => height("dial house-taper", { rule: rule(lines) }))).toEqual([
      56, 56, 73, 92, 92,
    ]);
  });
  test("a row makes room for its editor, and for a statement written below it", () => {
    expect(editedHeight(56, 0, false)).toBe(56);
    expect(editedHeight(56, 90, false)).toBe(104);
    expect(editedHeight(56, 90, true)).toBe(134);
    expect(draftHeight(0)).toBe(120);
    expect(draftHeight(150)).toBe(170);
  });
});
