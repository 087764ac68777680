// What a used book brings: values but no work, each once, and a name that is taken is a finding.
import { expect, test } from "vitest";
import { compose, faultsOf, short } from "../../../support/compose-text.ts";

const SUMS = `book sums, edition 1
kind side: left, right
figure third = 1 / 3
step go "Go"
promise third < 1
`;
const brought = (composition: ReturnType<typeof compose>) =>
  composition.items.filter((one) => one.from.layer !== "mine").map(short);

test("kinds and values come, steps and promises stay in their own book", () => {
  expect(brought(compose("book mine, edition 1\nuse sums, edition 1\n", SUMS))).toEqual([
    "kind side of sums",
    "figure third of sums",
  ]);
});

test("the same statement by two ways is brought once and is no clash", () => {
  const more = "book more, edition 1\nuse sums, edition 1\nfigure two = 2\n";
  const both = compose("book mine, edition 1\nuse sums, edition 1\nuse more, edition 1\n", SUMS, more);
  expect(brought(both)).toEqual(["kind side of sums", "figure third of sums", "figure two of more"]);
  expect(faultsOf(both)).toEqual([]);
});

test("the book's own statement counts before a brought one, and the line that brings it says so", () => {
  const clash = compose("book mine, edition 1\nuse sums, edition 1\nfigure third = 0.3\n", SUMS);
  expect(brought(clash)).toEqual(["kind side of sums"]);
  expect(faultsOf(clash)).toEqual(["use/clash at use sums of mine"]);
});

test("of two books that bring one name the first counts", () => {
  const other = "book other, edition 1\nfigure third = 0.34\n";
  const clash = compose("book mine, edition 1\nuse sums, edition 1\nuse other, edition 1\n", SUMS, other);
  expect(brought(clash)).toEqual(["kind side of sums", "figure third of sums"]);
  expect(faultsOf(clash)).toEqual(["use/clash at use other of mine"]);
});

test("twelve clashes at most are named for one line", () => {
  const many = Array.from({ length: 15 }, (_, i) => `figure f${i} = ${i}`).join("\n");
  const clash = compose(
    `book mine, edition 1\nuse many, edition 1\n${many}\n`,
    `book many, edition 1\n${many}\n`,
  );
  expect(faultsOf(clash)).toHaveLength(12);
});
