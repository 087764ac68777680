// Edits that screens make: each gives exactly the text that a person would have written.
import { expect, test } from "vitest";
import type { TextEdit } from "../../../core/span.ts";
import {
  addChartRow,
  insertStatement,
  moveStatement,
  readBook,
  removeChartRow,
  removeStatement,
  setCell,
} from "../../../engine/index.ts";

const TEXT = `book small, edition 1
    "Small"

-- how wide it is
ask width in mm, 1 to 100
    "Width"

chart hours by width gives h
    first row wins
    width       | value
    under 10 mm | 1 h     -- thin
    any         | 2 h

figure twice in mm = width * 2
`;
const BOOK = readBook(TEXT);

const applied = (edits: readonly TextEdit[], text = TEXT): string =>
  [...edits]
    .sort((a, b) => b.at.start - a.at.start || b.at.end - a.at.end)
    .reduce((all, { at, text: to }) => all.slice(0, at.start) + to + all.slice(at.end), text);

test("the book of these tests has no errors", () => {
  expect(BOOK.findings.filter(({ weight }) => weight === "error")).toEqual([]);
});

test("a longer cell aligns its column again and keeps comments", () => {
  expect(applied(setCell(BOOK, "hours", 0, 0, "under 10.25 mm"))).toBe(
    TEXT.replace("width       | value", "width          | value")
      .replace("under 10 mm | 1 h", "under 10.25 mm | 1 h")
      .replace("any         | 2 h", "any            | 2 h"),
  );
});

test("a cell set to what it is needs no edit; bars and line ends cannot be typed into one", () => {
  expect(setCell(BOOK, "hours", 1, 1, "2 h")).toEqual([]);
  expect(applied(setCell(BOOK, "hours", 1, 1, "3 |\n h"))).toBe(TEXT.replace("| 2 h", "| 3   h"));
});

test("a row is added after another one, and above the first one", () => {
  const row = "    under 20 mm | 90 min";
  expect(applied(addChartRow(BOOK, "hours", 0, ["under 20 mm", "90 min"]))).toBe(
    TEXT.replace("-- thin\n", `-- thin\n${row}\n`),
  );
  expect(applied(addChartRow(BOOK, "hours", -1, ["under 20 mm", "90 min"]))).toBe(
    TEXT.replace("| value\n", `| value\n${row}\n`),
  );
});

test("a row is removed with its line", () => {
  expect(applied(removeChartRow(BOOK, "hours", 0))).toBe(
    TEXT.replace("    under 10 mm | 1 h     -- thin\n", ""),
  );
});

test("a statement is inserted after another one, or at the end", () => {
  expect(applied(insertStatement(BOOK, "ask width", "dial d = 3 mm"))).toBe(
    TEXT.replace('"Width"\n', '"Width"\ndial d = 3 mm\n'),
  );
  expect(applied(insertStatement(BOOK, undefined, "dial d = 3 mm"))).toBe(
    TEXT.replace("width * 2\n", "width * 2\n\ndial d = 3 mm\n"),
  );
});

test("a statement is removed and moved together with the comment above it", () => {
  const ask = '-- how wide it is\nask width in mm, 1 to 100\n    "Width"\n';
  const removed = applied(removeStatement(BOOK, "ask width"));
  expect(removed).not.toContain("how wide");
  expect(removed).toMatch(/"Small"\n\s*\nchart hours/);
  const moved = applied(moveStatement(BOOK, "ask width", "figure twice"));
  expect(moved.endsWith(`width * 2\n\n${ask}`)).toBe(true);
  expect(moved.indexOf("ask width")).toBe(moved.lastIndexOf("ask width"));
  expect(readBook(moved).findings.map(({ code }) => code)).toEqual(BOOK.findings.map(({ code }) => code));
});

test("a statement moved to where it is stays there", () => {
  expect(moveStatement(BOOK, "ask width", "ask width")).toEqual([]);
  expect(moveStatement(BOOK, "chart hours", "ask width")).toEqual([]);
});
