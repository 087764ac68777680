// The findings as the technician's page has them: every code and weight, and no sentence.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { withoutSentences } from "../../../editor/build/without-sentences.ts";
import { FINDING_KINDS } from "../../../engine/language/check/findings/index.ts";

const folder = new URL("../../../engine/language/check/findings/", import.meta.url);
const read = (name: string): string => readFileSync(new URL(`${name}.ts`, folder), "utf8");

test("every kind of finding keeps its code and weight and loses its sentence", () => {
  const short = ["writing", "names", "amounts", "charts", "book", "layers"].map((name) =>
    withoutSentences(read(name)),
  );
  const kinds = short.flatMap((source) =>
    [...source.matchAll(/code: "([^"]+)",\s+weight: "(\w+)",\s+says: \(\) => ""/g)].map(
      ([, code, weight]) => [code, weight],
    ),
  );
  expect(kinds).toEqual(FINDING_KINDS.map((kind) => [kind.code, kind.weight]));
  expect(short.join("").length).toBeLessThan(15_000);
});

test("a source that is laid out otherwise is refused, not shortened by half", () => {
  expect(() => withoutSentences("export const A = 1;\n")).toThrow(/0 findings/);
  expect(() => withoutSentences('  {\n    code: "a/b",\n    says: "x" },\n')).toThrow(/1 findings and 0/);
});
