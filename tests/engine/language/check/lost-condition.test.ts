// A layer keeps the condition of a step that it replaces, or says what becomes of it. The first book is the
// one of the review of proofs: at size 800 mm the card said "Seal, with tape" although the house never seals
// there.
import { expect, test } from "vitest";
import { readBook } from "../../../../engine/index.ts";
import type { Book } from "../../../../engine/index.ts";

const house = (condition: string) => `book house, edition 1
    "House"
kind method
    moist
    dry
    long
ask size in mm, 0 to 900
    "Size"
ask roof in mm, 0 to 900
    "Roof"
ask way of method
    "Way"
ask wet of yes-no
    "Wet"
figure small of yes-no = size <= 300 mm
step seal "Seal"${condition === "" ? "" : ` when ${condition}`}
step end "End {size} {roof} {way} {wet} {small}"
`;
const yard = (...lines: string[]) =>
  `book yard, edition 1, amends house, edition 1\n    "Yard"\n${lines.join("\n")}\n`;
const codes = (book: Book) => book.findings.map((one) => one.code);
/** What the checker says of a layer's `when` over a condition of the house. */
const over = (condition: string, when: string) =>
  readBook(yard(`instead step seal "Seal, with tape" when ${when}`), undefined, [house(condition)]);

test("the house by itself has no finding", () => {
  expect(codes(readBook(house("size <= 300 mm")))).toEqual([]);
});

test("a step whose condition is another one is a finding that names both lines", () => {
  const book = over("size <= 300 mm", "roof < 300 mm");
  expect(codes(book)).toEqual(["layer/condition"]);
  const [finding] = book.findings as [Book["findings"][number]];
  expect(book.text.slice(finding.at.start, finding.at.end)).toBe("roof < 300 mm");
  expect(finding.says).toContain("In house the step seal is done only when size <= 300 mm");
  const [also] = finding.also;
  const whole = [book.text, ...book.under.map((one) => one.text)].join("\n");
  expect(whole.slice(also!.at.start, also!.at.end)).toBe("size <= 300 mm");
});

test.each([
  ["size <= 300 mm", "size <= 300 mm"],
  ["size <= 300 mm", "size <= 300 mm and roof < 200 mm"],
  ["size <= 300 mm", "roof < 200 mm and (wet and size <= 300 mm)"],
  ["size <= 300 mm", "size < 300 mm"],
  ["size <= 300 mm", "size <= 30 cm"],
  ["size <= 300 mm", "size is 20 mm"],
  ["size <= 300 mm", "size is 10 mm to 200 mm"],
  ["size <= 300 mm", "small"],
  ["size <= 300 mm", "small and wet"],
  ["size <= 300 mm", "(size < 20 mm or size is 30 mm to 40 mm) and wet"],
  ["size is 100 mm to 300 mm", "size > 150 mm and size < 200 mm"],
  ["size <= 300 mm and wet", "wet and size < 100 mm"],
  ["size <= 300 mm or wet", "wet"],
  ["size <= 300 mm or size > 100 mm", "size < 500 mm"],
  ["small", "size <= 300 mm"],
  ["way is moist", "way is moist"],
  ["way is one of moist, dry", "way is dry"],
  ["way is not long", "way is moist and roof < 200 mm"],
  ["wet", "wet"],
  ["not wet", "not wet and roof < 200 mm"],
  ["size < roof", "size < roof and wet"],
  ["size <= roof", "size < roof"],
  ["", "roof < 200 mm"],
  // Naming it is saying what becomes of it.
  ["size <= 300 mm", "roof < 300 mm and as-before"],
  ["size <= 300 mm", "roof < 300 mm or as-before"],
  ["size <= 300 mm", "roof < 300 mm and not as-before"],
])("when %s underneath: when %s above is fine", (condition, when) => {
  expect(codes(over(condition, when))).toEqual([]);
});

test.each([
  ["size <= 300 mm", "size <= 301 mm"],
  ["size < 300 mm", "size <= 300 mm"],
  ["size <= 300 mm", "size <= 300 mm or roof < 200 mm"],
  ["size <= 300 mm", "(wet or roof < 200 mm)"],
  ["size <= 300 mm", "(wet) or (roof < 200 mm)"],
  ["size <= 300 mm", "not small"],
  ["size <= 300 mm", "size >= 20 mm"],
  ["size <= 300 mm and wet", "size <= 300 mm"],
  ["way is one of moist, dry", "way is one of moist, long"],
  ["way is not long", "way is one of moist, long"],
  ["wet", "not wet"],
  ["wet", "roof < 200 mm"],
  ["size < roof", "size <= roof"],
  ["size < roof", "roof < size"],
])("when %s underneath: when %s above loses it, and the repair keeps it", (condition, when) => {
  const book = over(condition, when);
  expect(codes(book)).toEqual(["layer/condition"]);
  const mended = book.findings[0]!.repairs[0]!.edits.reduceRight(
    (text, { at, text: put }) => text.slice(0, at.start) + put + text.slice(at.end),
    book.text,
  );
  expect(codes(readBook(mended, undefined, [house(condition)])), mended).toEqual([]);
});

test("to drop the condition for good, the step is dropped and written as the book's own", () => {
  const own = yard("drop step seal", 'step seal "Seal, with tape" when roof < 300 mm');
  expect(codes(readBook(own, undefined, [house("size <= 300 mm")]))).toEqual([]);
});

test("a stop and a caution lose nothing: the one underneath holds where the one above does not", () => {
  for (const word of ["stop", "caution"]) {
    const base = house("size <= 300 mm").replace("step seal", `${word} seal`);
    const layer = yard(`instead ${word} seal "Wait" when roof < 300 mm\n    because "The yard has no roof"`);
    expect(codes(readBook(layer, undefined, [base])), word).toEqual(["layer/weaker"]);
  }
});

test("a layer in between hands the condition on, and a chain of conditions counts as any of them", () => {
  const top = (when: string) =>
    `book top, edition 1, amends yard, edition 1\n    "Top"\ninstead step seal "Seal twice" when ${when}\n`;
  const words = yard('instead step seal "Seal, with tape"');
  const both = [words, house("size <= 300 mm")];
  expect(codes(readBook(top("size < 200 mm"), undefined, both))).toEqual([]);
  const book = readBook(top("roof < 200 mm"), undefined, both);
  expect(codes(book)).toEqual(["layer/condition"]);
  expect(book.findings[0]!.says).toContain("In house the step seal is done only when size <= 300 mm");
  const narrow = yard('instead step seal "Seal, with tape" when size <= 300 mm and wet');
  const chain = [narrow, house("size <= 300 mm")];
  expect(codes(readBook(top("size <= 300 mm"), undefined, chain))).toEqual([]);
  expect(codes(readBook(top("wet"), undefined, chain))).toEqual(["layer/condition"]);
});

test("conditions of many parts are compared part by part, and a long chain counts as not implied", () => {
  const all = (part: (i: number) => string, word: string) =>
    Array.from({ length: 30 }, (_, i) => part(i)).join(word);
  const asks = all((i) => `ask a${i} in mm, 0 to 900\nask y${i} of yes-no\n`, "");
  const chain = Array.from(
    { length: 400 },
    (_, i) => `figure f${i} of yes-no = ${i === 399 ? "a0 < 3 mm" : `f${i + 1}`}\n`,
  ).join("");
  const lost = (condition: string, when: string) => {
    const base = `book house, edition 1\n${asks}${chain}step seal "Seal" when ${condition}\n`;
    const layer = `book yard, edition 1, amends house, edition 1\ninstead step seal "Tape" when ${when}\n`;
    return readBook(layer, undefined, [base]).findings.some((one) => one.code === "layer/condition");
  };
  const either = (limit: number) => all((i) => `(a${i} < ${limit} mm or y${i})`, " and ");
  const both = (limit: number) => all((i) => `(a${i} < ${limit} mm and y${i})`, " or ");
  expect([lost(either(3), either(2)), lost(either(3), either(4))]).toEqual([false, true]);
  expect([lost(both(3), both(2)), lost(both(3), both(4))]).toEqual([false, true]);
  expect([lost("a0 < 3 mm", "f350"), lost("a0 < 3 mm", "f0")]).toEqual([false, true]);
});
