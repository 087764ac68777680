// Statement edges, folds and echoes of the text face, without an editor.
import { expect, test } from "vitest";
import { openEcho } from "../../editor/bench/text/echo.ts";
import { partFolds, wholeStatements } from "../../editor/bench/text/statements.ts";

const lines = ["book a, edition 1", "", 'part "One"', "-- why", "chart c by x gives mm", "    x | c", "    1 | 2", "", 'part "Two"', "dial d = 1"];
const at = (line: number) => lines[line - 1]!;

test("a region grows to whole statements", () => {
  expect(wholeStatements(at, lines.length, 6, 6)).toEqual({ from: 5, to: 8 });
  expect(wholeStatements(at, lines.length, 1, 1)).toEqual({ from: 1, to: 2 });
  expect(wholeStatements(at, lines.length, -3, 99)).toEqual({ from: 1, to: 10 });
});

test("a part folds to its last written line", () => {
  expect(partFolds(at, lines.length)).toEqual([{ start: 3, end: 7 }, { start: 9, end: 10 }]);
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
