// A layer on a book with an error says so, and names the book and the error.
import { expect, test } from "vitest";
import { readBook, wholeTextOf } from "../../../../engine/index.ts";
import type { Book } from "../../../../engine/index.ts";

const HOUSE = `book house, edition 3
    "House"
ask depth in mm, 0 to 10
    "Depth"
figure wide in mm = dept * 2
step wash "Wash {depth} {wide}"
`;
const yard = (...lines: string[]) =>
  `book yard, edition 1, amends house, edition 3\n    "Yard"\n${lines.map((line) => `${line}\n`).join("")}`;
const shown = (book: Book) =>
  book.findings.map(({ code, weight, at, says }) => [code, weight, book.text.slice(at.start, at.end), says]);
const UNDERNEATH = [
  "use/faulty",
  "error",
  "house",
  "house, edition 3 underneath has an error: Nothing here is called dept. Did you mean depth?",
];
const places = (book: Book) =>
  book.findings.flatMap(({ also }) => also.map(({ at }) => wholeTextOf(book).slice(at.start, at.end)));

test("the finding is at the line that amends the book, and points to the error", () => {
  const book = readBook(yard('step rinse "Rinse"'), undefined, [HOUSE]);
  expect(shown(book)).toEqual([UNDERNEATH]);
  expect(places(book)).toEqual(["dept"]);
  expect(book.rows[0]).toMatchObject({ keyword: "book", errors: 1 });
});

test("a layer that replaces or drops the statement with the error has none", () => {
  expect(shown(readBook(yard("instead figure wide = depth * 2"), undefined, [HOUSE]))).toEqual([]);
  const base = HOUSE.replace("wash", "old").replace("{depth} {wide}", "{dept}").replace("dept * 2", "depth");
  expect(shown(readBook(yard('step new "New {wide}"'), undefined, [base]))[0]![0]).toBe("use/faulty");
  expect(shown(readBook(yard("drop step old", 'step new "New {wide}"'), undefined, [base]))).toEqual([]);
});

test("an error that is kept as what as-before means still counts", () => {
  const book = readBook(yard("instead figure wide = as-before + 1 mm"), undefined, [HOUSE]);
  expect(shown(book)).toEqual([UNDERNEATH]);
});

test("an error two books down is named in each book above, once", () => {
  const top = 'book top, edition 1, amends yard, edition 1\n    "Top"\nstep dry "Dry"\n';
  const book = readBook(top, undefined, [yard('step rinse "Rinse"'), HOUSE]);
  expect(shown(book).map(([code, , at, says]) => [code, at, says])).toEqual([
    ["use/faulty", "yard", UNDERNEATH[3]],
  ]);
  expect(places(book)).toEqual(["dept"]);
});

test("an error of what a layer in between says about its base is named too", () => {
  const between = yard("drop step scrub");
  const top = 'book top, edition 1, amends yard, edition 1\n    "Top"\nstep dry "Dry"\n';
  const sound = HOUSE.replace("dept *", "depth *");
  const book = readBook(top, undefined, [between, sound]);
  expect(shown(book)).toEqual([
    [
      "use/faulty",
      "error",
      "yard",
      "yard, edition 1 underneath has an error: There is no step scrub underneath to drop.",
    ],
  ]);
});

test("several errors are counted, and the first four are pointed at", () => {
  const many = Array.from({ length: 6 }, (_, i) => `figure f${i} = missing${i}\nstep s${i} "S {f${i}}"\n`);
  const book = readBook(yard('step rinse "Rinse"'), undefined, [
    HOUSE.replace("dept *", "depth *") + many.join(""),
  ]);
  expect(book.findings[0]!.says).toBe(
    "house, edition 3 underneath has 6 errors: Nothing here is called missing0.",
  );
  expect(places(book)).toEqual(["missing0", "missing1", "missing2", "missing3"]);
});

test("of a used book only the errors of what it brings count", () => {
  const user = (name: string) =>
    `book mine, edition 1\n    "Mine"\nuse house, edition 3\nstep go "Go {${name}}"\n`;
  expect(shown(readBook(user("wide"), undefined, [HOUSE]))[0]).toEqual(UNDERNEATH);
  const step = HOUSE.replace("dept *", "depth *").replace("{wide}", "{wode}");
  expect(shown(readBook(user("wide"), undefined, [step]))).toEqual([]);
});

test("warnings underneath stay where they are", () => {
  const unused = `${HOUSE.replace("dept *", "depth *")}figure never = 1\n`;
  expect(readBook(unused).findings.map((one) => one.code)).toEqual(["name/unused"]);
  expect(shown(readBook(yard('step rinse "Rinse"'), undefined, [unused]))).toEqual([]);
});
