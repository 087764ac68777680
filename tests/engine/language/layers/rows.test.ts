// Rows that a layer adds to a chart: where they go, which row gives way, and which text each line is from.
import { expect, test } from "vitest";
import { addRows } from "../../../../engine/language/layers/rows.ts";
import { splitBook } from "../../../../engine/language/syntax/split.ts";
import { parse } from "../../../support/compose-text.ts";

const pieceOf = (text: string, from = 0) => {
  const piece = splitBook(text)[0]!;
  return {
    piece: { ...piece, at: { start: piece.at.start + from, end: piece.at.end + from } },
    statement: parse(piece.text),
  };
};
const chart = (option: string, ...rows: string[]) =>
  pieceOf(
    `chart grade by depth gives number${option}\n    depth | grade\n` +
      rows.map((row) => `    ${row}`).join("\n"),
    1000,
  );
const add = (under: ReturnType<typeof chart>, ...rows: string[]) =>
  addRows(under, pieceOf(`chart grade add\n${rows.map((row) => `    ${row}`).join("\n")}`))!;
const rowsOf = (text: string) =>
  text
    .split("\n")
    .slice(2)
    .map((row) => row.trim());

test("new rows follow those underneath; a row of the same conditions takes that row's place", () => {
  const added = add(chart("", "under 5 mm | 1", "5 mm and over | 2"), "under  5 mm | 9", "over 90 mm | 3");
  expect(rowsOf(added.text)).toEqual(["under  5 mm | 9", "5 mm and over | 2", "over 90 mm | 3"]);
  expect(added.replaced.map((one) => one.row)).toEqual([0]);
});

test("where the first row wins, new rows come first", () => {
  const added = add(chart("\n    first row wins", "any | 2"), "under 5 mm | 1");
  expect(rowsOf(added.text)).toEqual(["depth | grade", "under 5 mm | 1", "any | 2"]);
});

test("between points, rows go in by their number", () => {
  const added = add(chart("\n    straight between rows", "1 mm | 1", "5 mm | 5"), "3 mm | 3", "9 mm | 9");
  expect(rowsOf(added.text).slice(1)).toEqual(["1 mm | 1", "3 mm | 3", "5 mm | 5", "9 mm | 9"]);
});

test("each line remembers where it is in the whole", () => {
  const under = chart("", "under 5 mm | 1", "5 mm and over | 2");
  const own = pieceOf("chart grade add\n    over 90 mm | 3");
  const { text, lines } = addRows(under, own)!;
  const whole = (at: number) => (at >= 1000 ? under.piece.text.slice(at - 1000) : own.piece.text.slice(at));
  for (const [i, line] of text.split("\n").entries())
    expect(whole(lines[i]!.at).startsWith(line), line).toBe(true);
});

test("a chart that cannot be read takes no rows", () => {
  const broken = { ...chart("", "any | 1"), statement: parse("chart grade by") };
  expect(addRows(broken, pieceOf("chart grade add\n    any | 2"))).toBeUndefined();
});
