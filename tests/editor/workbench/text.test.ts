// Statement edges, folds and echoes of the text face, without an editor.
import { expect, test } from "vitest";
import type { Finding } from "../../../core/view.ts";
import { openEcho } from "../../../editor/workbench/text/own-edits.ts";
import {
  findingsAt,
  moveFindings,
  moveSpan,
  neighbour,
} from "../../../editor/workbench/text/shifted-spans.ts";
import { partFolds, wholeStatements } from "../../../editor/workbench/text/statements.ts";

const lines = [
  "book a, edition 1",
  "",
  'part "One"',
  "-- why",
  "chart c by x gives mm",
  "    x | c",
  "    1 | 2",
  "",
  'part "Two"',
  "dial d = 1",
];
const at = (line: number) => lines[line - 1]!;

test("a region grows to whole statements", () => {
  expect(wholeStatements(at, lines.length, 6, 6)).toEqual({ from: 5, to: 8 });
  expect(wholeStatements(at, lines.length, 1, 1)).toEqual({ from: 1, to: 2 });
  expect(wholeStatements(at, lines.length, -3, 99)).toEqual({ from: 1, to: 10 });
});

test("a part folds to its last written line", () => {
  expect(partFolds(at, lines.length)).toEqual([
    { start: 3, end: 7 },
    { start: 9, end: 10 },
  ]);
});

test("a heading with nothing below it does not fold", () => {
  expect(partFolds((line) => ['part "Alone"', "", 'part "Last"'][line - 1]!, 3)).toEqual([]);
});

test("what we gave comes back as an echo, also late and in part", () => {
  const echo = openEcho();
  echo.gave("a");
  echo.gave("ab");
  echo.gave("abc");
  expect(echo.isEcho("ab")).toBe(true);
  expect(echo.isEcho("abc")).toBe(true);
  expect(echo.isEcho("abc")).toBe(true);
  expect(echo.isEcho("a")).toBe(false);
});

test("after a request for undo, a text that we once gave is taken for somebody else's", () => {
  const echo = openEcho();
  echo.gave("a");
  echo.gave("ab");
  echo.forget();
  expect(echo.isEcho("a")).toBe(false);
});

const found = (start: number, end: number): Finding => ({
  code: "name/unknown",
  weight: "error",
  at: { start, end },
  says: "",
  also: [],
  repairs: [{ says: "", edits: [] }],
});

test("a span moves with the text before it and shrinks with what is taken away", () => {
  expect(moveSpan({ start: 10, end: 14 }, [{ at: { start: 0, end: 0 }, text: "abc" }])).toEqual({
    start: 13,
    end: 17,
  });
  expect(moveSpan({ start: 10, end: 14 }, [{ at: { start: 20, end: 21 }, text: "abc" }])).toEqual({
    start: 10,
    end: 14,
  });
  expect(moveSpan({ start: 10, end: 14 }, [{ at: { start: 8, end: 12 }, text: "" }])).toEqual({
    start: 8,
    end: 10,
  });
});

test("a moved finding offers no repair, which would fit the old text only", () => {
  expect(moveFindings([found(5, 6)], [{ at: { start: 0, end: 1 }, text: "" }])[0]).toMatchObject({
    at: { start: 4, end: 5 },
    repairs: [],
  });
});

test("the narrowest finding at the cursor comes first, those of the line after it", () => {
  const wide = found(0, 20),
    narrow = found(4, 6),
    beside = found(12, 13),
    elsewhere = found(40, 41);
  expect(findingsAt([wide, beside, narrow, elsewhere], 5, { start: 0, end: 30 })).toEqual([
    narrow,
    wide,
    beside,
  ]);
});

test("beside the cursor the gravest comes first, then the nearest", () => {
  const near: Finding = { ...found(2, 3), weight: "note" },
    far = found(20, 21),
    farther = found(26, 27);
  expect(findingsAt([near, farther, far], 10, { start: 0, end: 30 })).toEqual([far, farther, near]);
});

test("stepping through findings goes round at the ends", () => {
  const a = found(5, 6),
    b = found(9, 10);
  expect(neighbour([b, a], 5, 1)).toBe(b);
  expect(neighbour([b, a], 9, 1)).toBe(a);
  expect(neighbour([b, a], 5, -1)).toBe(b);
  expect(neighbour([], 5, 1)).toBeUndefined();
});
