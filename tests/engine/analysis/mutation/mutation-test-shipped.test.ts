// The worked examples of the shipped book notice nearly every small change of its rules.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { mutationTestOf, readBook } from "../../../../engine/index.ts";

test("examples notice at least 95 % of the small changes", () => {
  const run = mutationTestOf(
    readBook(readFileSync(new URL("../../../../rulesets/road-panels.bevel", import.meta.url), "utf8")),
  );
  while (!run.advance(50));
  const view = run.view();
  expect(view.done).toBe(true);
  expect(view.tried).toBeGreaterThan(100);
  expect(view.noticed / view.tried, view.unnoticed.map((one) => one.says).join("\n")).toBeGreaterThanOrEqual(
    0.95,
  );
}, 120_000);
