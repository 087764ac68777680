// A book kept with the books it depends on: taken apart as it was put together, everything else left alone.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { MAX_BOOKS_UNDER } from "../../../../core/limits.ts";
import { bundled, unbundled } from "../../../../engine/index.ts";

const base = 'book small-base, edition 1\n    "A house standard"\n';
const layer = 'book quay, edition 1, amends small-base, edition 1\n    "A yard\'s own"\n';

describe("a bundle", () => {
  it("gives back the text and those it depends on, whatever is in them", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: "binary" }),
        fc.array(fc.string({ unit: "binary" }), { maxLength: 5 }),
        (more, under) => {
          expect(unbundled(bundled(layer + more, under))).toEqual({ text: layer + more, under });
        },
      ),
    );
  });
  it("is the own text alone where no other book is named, or the others are not known", () => {
    expect([bundled(base, [layer]), bundled(layer, undefined), unbundled(base), unbundled(layer)]).toEqual([
      base,
      layer,
      { text: base, under: undefined },
      { text: layer, under: undefined },
    ]);
  });
  it("is made wherever the text names the other book", () => {
    for (const text of [
      layer.replace(" amends", "\n    amends"),
      layer.replace(" amends", " -- the yard\n\n  amends"),
      "book x, edition 1\n\nuse common-sums\n",
    ])
      expect(unbundled(bundled(text, [base]))).toEqual({ text, under: [base] });
  });
  it("keeps that none of the others was at hand", () => {
    expect(unbundled(bundled(layer, []))).toEqual({ text: layer, under: [] });
  });
  it("any other text is a book of its own", () => {
    const texts = [
      "",
      "{",
      '{"texts":[',
      '{"texts":[]}',
      '{"texts":[1]}',
      `{"texts":[${JSON.stringify(layer)},1]}`,
      `{"texts":[${JSON.stringify(layer)}],"more":1}`,
      `{"texts": [${JSON.stringify(layer)}]}`,
      `{"texts":[${JSON.stringify(base)}]}`,
      bundled(
        layer,
        Array.from({ length: MAX_BOOKS_UNDER + 1 }, (_, i) => `book b${i}`),
      ),
      `{"texts":[${"[".repeat(100_000)}`,
    ];
    for (const text of texts) expect(unbundled(text)).toEqual({ text, under: undefined });
  });
});
