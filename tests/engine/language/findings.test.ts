// Every kind of finding: its smallest book causes it and nothing else, every code that the engine raises is
// described, and FINDINGS.md says what the table of kinds says.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { readBook } from "../../../engine/index.ts";
import { FINDING_KINDS } from "../../../engine/language/check/findings/index.ts";
import { DESCRIBED_FINDINGS, FINDING_PAGES } from "../../../engine/language/check/findings/pages/index.ts";
import { findingsPage } from "../../support/write-findings.ts";

const ENGINE = fileURLToPath(new URL("../../../engine/", import.meta.url));

test.each(DESCRIBED_FINDINGS.map((kind) => [kind.code, kind] as const))(
  "the smallest book for %s causes exactly that",
  (code, kind) => {
    const text = typeof kind.smallest === "string" ? kind.smallest : kind.smallest();
    const { findings } = readBook(text, undefined, kind.books);
    expect(findings.map((finding) => finding.code)).toEqual([code]);
    const [{ at, says, weight, repairs }] = findings as [(typeof findings)[0]];
    expect(weight).toBe(kind.weight);
    expect(at.end, "it points at something").toBeGreaterThan(at.start);
    expect(at.end).toBeLessThanOrEqual(text.length);
    expect(says, "one plain sentence without holes").toMatch(/^\S.*[.?]$/);
    expect(says).not.toMatch(/undefined|NaN|\[object|null/);
    for (const repair of repairs) expect(repair.says).toMatch(/^[A-Z]/);
  },
);

test("a repair that is offered for a smallest book mends it", () => {
  const left: string[] = [];
  for (const { code, smallest, books } of DESCRIBED_FINDINGS) {
    if (typeof smallest !== "string") continue;
    const repair = readBook(smallest, undefined, books).findings[0]?.repairs[0];
    if (repair === undefined || OPEN_REPAIRS.has(code)) continue;
    const mended = repair.edits.reduceRight(
      (text, { at, text: put }) => text.slice(0, at.start) + put + text.slice(at.end),
      smallest,
    );
    if (readBook(mended, undefined, books).findings.some((finding) => finding.code === code))
      left.push(`${code}: ${mended}`);
  }
  expect(left).toEqual([]);
});

/** Repairs that leave the last word to the author: they open a place to write in. */
const OPEN_REPAIRS = new Set(["choose/open", "chart/hole"]);

test("every code raised in the engine is described, and every code described is raised", () => {
  const raised = new Set<string>();
  for (const file of readdirSync(ENGINE, { recursive: true, encoding: "utf8" })) {
    if (
      !file.endsWith(".ts") ||
      /findings[\\/](pages[\\/])?(amounts|book|charts|layers|names|writing)\.ts$/.test(file)
    )
      continue;
    for (const [, code] of readFileSync(join(ENGINE, file), "utf8").matchAll(/"([a-z]+\/[a-z-]+)"/g))
      raised.add(code!);
  }
  // Answers of a job have codes too; they are findings of the job, not of the book.
  const ofBooks = [...raised].filter((code) => !code.startsWith("answer/")).sort();
  expect(ofBooks).toEqual(FINDING_KINDS.map((kind) => kind.code).sort());
});

test("every kind of finding has a page of the reference, and no page is without a kind", () => {
  expect(Object.keys(FINDING_PAGES).sort()).toEqual(FINDING_KINDS.map((kind) => kind.code).sort());
});

test("no code is there twice", () => {
  const codes = FINDING_KINDS.map((kind) => kind.code);
  expect(codes.filter((code, i) => codes.indexOf(code) !== i)).toEqual([]);
});

test("engine/FINDINGS.md is up to date (npx tsx tests/support/write-findings.ts writes it)", () => {
  expect(readFileSync(join(ENGINE, "FINDINGS.md"), "utf8")).toBe(findingsPage());
});
