// Names in a text: occurrences, renaming, hovers, completions and colours.
import { expect, test } from "vitest";
import {
  about,
  completionsAt,
  occurrencesAt,
  outcomeMap,
  readBook,
  rename,
  tokenColours,
  workJob,
} from "../../../engine/index.ts";

const TEXT = `book small, edition 1
    "Small"
kind side
    hull "outside"
    deck "on top"
ask width in mm, 0 to 100
    "Width"
ask where of side
    "Where"
ask depth in mm, 0 to 100
    "Depth"
figure twice in mm = width * 2
figure big of yes-no = width >= 25 mm and depth >= 50 mm
formula half(width in mm) = width / 2
step fill "Fill {twice}" when where is hull
`;
const BOOK = readBook(TEXT);
const at = (part: string, inside = 0) => TEXT.indexOf(part) + inside;

test("all occurrences of a name, those in texts too; a parameter of the same name is another one", () => {
  const found = occurrencesAt(BOOK, at("width * 2"))!;
  expect(found.set.start).toBe(at("width in mm, 0"));
  expect(found.all.map((one) => one.start)).toEqual([
    at("width in mm, 0"),
    at("width * 2"),
    at("width >= 25"),
  ]);
  expect(occurrencesAt(BOOK, at("{twice}", 1))!.all).toHaveLength(2);
  expect(occurrencesAt(BOOK, at("Fill"))).toBeUndefined();
});

test("a name is renamed at each occurrence, or a sentence says why not", () => {
  const renamed = rename(BOOK, at("twice in mm"), "double");
  expect("edits" in renamed && renamed.edits.map(({ at: span }) => span.start)).toEqual([
    at("twice in mm"),
    at("{twice}", 1),
  ]);
  expect(rename(BOOK, at("twice in mm"), "width")).toEqual({
    refused: "width is already a name in this book.",
  });
  expect(rename(BOOK, at("twice in mm"), "when")).toHaveProperty("refused");
  expect(rename(BOOK, at("twice in mm"), "hull")).toHaveProperty("refused");
  expect(rename(BOOK, at("twice in mm"), "3x")).toHaveProperty("refused");
});

test("a hover shows the type, the rule and the users of a name", () => {
  expect(about(BOOK, at("twice in mm"))!.lines).toEqual([
    "figure twice: a length in mm",
    "width * 2",
    "used by step fill",
  ]);
  expect(about(BOOK, at("is hull", 3))!.lines).toEqual(["hull: a word of side", "outside"]);
});

const offered = (line: string): readonly string[] => {
  const text = `${TEXT}${line}`;
  return completionsAt(readBook(text), text.length).offers.map(({ label }) => label);
};

test("completions: statement words at the left edge, units after a number, words beside a kind", () => {
  expect(offered("")).toContain("figure");
  expect(offered("")).not.toContain("width");
  expect(offered("figure a = 3 m")).toContain("mm");
  expect(offered("figure a of yes-no = where is ").slice(0, 2)).toEqual(["hull", "deck"]);
  expect(offered("figure a = wi")).toContain("width");
  expect(offered('step a "Some wi')).toEqual([]);
});

test("colours tell words of the language, names, numbers, units and texts apart", () => {
  const line = 'figure twice in mm = width * 2 -- so\n    "Twice"';
  const colours = tokenColours(line).map(({ at: span, as }) => [line.slice(span.start, span.end), as]);
  expect(colours).toContainEqual(["figure", "word"]);
  expect(colours).toContainEqual(["twice", "set"]);
  expect(colours).toContainEqual(["mm", "unit"]);
  expect(colours).toContainEqual(["width", "name"]);
  expect(colours).toContainEqual(["2", "number"]);
  expect(colours.some(([text, as]) => as === "comment" && text!.includes("-- so"))).toBe(true);
  expect(colours).toContainEqual(['"Twice"', "text"]);
});

test("fields of an outcome map end at the numbers that the book names", () => {
  const map = outcomeMap(workJob(BOOK, { width: "30 mm", depth: "10 mm" }), {
    across: "width",
    up: "depth",
    shows: "big",
  })!;
  const yes = map.fields.filter(({ word }) => map.words[word] === "yes");
  expect(yes.map(({ left, right, bottom, top }) => [left, right, bottom, top])).toEqual([
    [0.025, 0.1, 0.05, 0.1],
  ]);
  expect(map.words[map.here]).toBe("no");
  expect(map.across.at?.text).toBe("30 mm");
});
