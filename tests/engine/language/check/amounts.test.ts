// Counts, shares, ranges and fallbacks: books of the review of proofs, each with what the checker says of it.
import { expect, test } from "vitest";
import { type Book, readBook } from "../../../../engine/index.ts";

const ASKS = `ask plies in count, 0 to 10
ask bolts in count, 0 to 10
ask wide in number, 0 to 10
ask hardener in g, 1 to 10
ask resin in g, 1 to 10
ask grit in count, 40 to 240
formula twice(n in count) = n * 2
formula papers(g in count) = 80 if g is 40, otherwise 120
`;
const codes = (book: Book) => book.findings.map((one) => one.code);
const withFigure = (rule: string, declared = "in count") =>
  readBook(`${ASKS}figure total ${declared} = ${rule}\n`);
/** The book with its first repair applied. */
function repaired({ text, findings }: Book): Book {
  const edits = findings[0]?.repairs[0]?.edits ?? [];
  return readBook(
    edits.reduceRight((so, { at, text: put }) => so.slice(0, at.start) + put + so.slice(at.end), text),
  );
}

test.each([
  "largest(wide rounded up to whole, 2)",
  "smallest(plies, 3) * 2 + bolts",
  "plies + 1",
  "plies * 2",
  "plies - bolts",
  "(plies + 1) * (bolts - 2)",
  "abs(plies - bolts)",
  "papers(grit)",
  "twice(2)",
  "twice(plies + 1)",
  "plies if wide > 3, otherwise bolts + 1",
])("%s is a count", (rule) => {
  expect(codes(withFigure(rule))).toEqual([]);
});

test.each([
  "wide",
  "plies / 2",
  "plies * 0.5",
  "plies + wide",
  "sqrt(plies)",
  "plies ^ 2",
  "80 if wide > 3, otherwise 120.5",
  "largest(plies, 2.5)",
  "wide rounded to 0.5",
  "twice(wide)",
  "papers(wide * 2)",
  "-1",
])("%s may be broken, and rounding it up to whole mends it", (rule) => {
  const book = withFigure(rule);
  expect(codes(book)).toEqual(["count/whole"]);
  expect(codes(repaired(book)), repaired(book).text).toEqual([]);
});

test("a quotient of two masses beside a share: the finding says how to declare it", () => {
  const book = withFigure("hardener / resin <= 2 %", "of yes-no");
  expect(book.findings.map((one) => [one.code, one.says])).toEqual([
    [
      "share/number",
      "Cannot compare a plain number and a share: give hardener / resin a figure of its own, declared in %.",
    ],
  ]);
  expect(codes(repaired(book))).toEqual([]);
  const declared = "figure dose in % = hardener / resin\nfigure enough of yes-no = dose <= 2 %\n";
  expect(codes(readBook(ASKS + declared))).toEqual([]);
  const named = readBook(`${ASKS}figure dose = hardener / resin\nfigure enough of yes-no = 2 % <= dose\n`);
  expect(named.findings[0]!.says).toBe("Cannot compare a plain number and a share: declare dose in %.");
  expect(withFigure("hardener / resin <= 2 % by mass", "of yes-no").findings[0]!.says).toMatch(
    /declared in %, and leave out “by mass”: a quotient has no basis\.$/,
  );
});

test("a range of one answer is no range from the larger to the smaller", () => {
  const says = (range: string) => readBook(`ask depth in mm, ${range}\n`).findings.map((one) => one.says);
  expect(says("5 to 5")).toEqual([
    "The range of depth allows one answer only: widen it, or make depth a dial.",
  ]);
  expect(says("6 to 5")).toEqual(["The range of depth runs from the larger to the smaller."]);
});

test("a band that ends where it begins, and leaves that out, says so in a rule and in a chart", () => {
  const rule = (band: string) =>
    readBook(`ask depth in mm, 0 to 9\nfigure deep of yes-no = depth is ${band}\n`).findings.map(
      (one) => one.says,
    );
  expect(rule("5 mm to under 5 mm")).toEqual([
    "“5 mm to under 5 mm” ends where it begins: nothing can lie in it.",
  ]);
  expect(rule("5 mm to 5 mm")).toEqual([]);
  expect(rule("6 mm to 5 mm")).toEqual([
    "“6 mm to 5 mm” runs from the larger to the smaller: nothing can lie in it.",
  ]);
  const chart = readBook(
    "ask depth in mm, 0 to 9\nchart c by depth gives number\n    from practice\n" +
      "    depth | c\n    over 5 mm to 5 mm | 1\n    any | 2\n",
  );
  expect(chart.findings[0]!.says).toBe("“over 5 mm to 5 mm” ends where it begins: nothing can lie in it.");
});

test("a fallback outside the range of its ask is a finding", () => {
  const fallback = (take: string, range = "1 to 12") =>
    readBook(
      `dial usual = 20 mm, from 1 mm to 30 mm\n    from practice\nask wet of yes-no\n` +
        `ask depth in mm, ${range}\n    if unknown take ${take}\n`,
    ).findings.map((one) => one.says);
  const outside = "Where depth is not known 20 mm is taken, which is outside its range, 1 mm to 12 mm.";
  expect(fallback("20 mm")).toEqual([outside]);
  expect(fallback("2 cm")).toEqual([outside]);
  expect(fallback("usual")).toEqual([outside]);
  expect(fallback("3 mm if wet, otherwise 20 mm")).toEqual([outside]);
  expect(fallback("usual", "1 to 20")).toEqual([]);
  for (const inside of ["1 mm", "12 mm", "1.2 cm", "usual / 2"]) expect(fallback(inside), inside).toEqual([]);
});

test("a dial at the lower end of a span below zero is within it", () => {
  expect(codes(readBook("dial shift = -10, from -10 to 10\n    from practice\n"))).toEqual([]);
  expect(codes(readBook("dial shift = -11, from -10 to 10\n    from practice\n"))).toEqual(["dial/span"]);
});
