// Spoilt and random books, each worked with spoilt answers: nothing throws, nothing takes a second, every
// finding points at something in the text, and what an editor asks of the text is answered. All chance is
// seeded; a failing book is printed small. tests/agreement/fuzz does the same for many more, with layers and
// edits, for all but the editor's questions.
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { jobFile } from "../../../core/schemas/report.ts";
import type { Answers } from "../../../core/view.ts";
import { tokenColours, readBook, showJob, tidy, why, workJob } from "../../../engine/index.ts";
import { RESERVED } from "../../../engine/language/syntax/tokens.ts";
import { STATEMENT_WORDS } from "../../../engine/language/syntax/statement-words.ts";
import { DESCRIBED_FINDINGS } from "../../../engine/language/check/findings/pages/index.ts";
import { allCases } from "../../support/cases.ts";
import { type Chance, chance } from "../../support/chance.ts";
import { spent } from "../../support/cpu.ts";
import { mutate, randomText } from "../../support/mutate.ts";
import { randomBook } from "../../support/random-book.ts";

const RULESETS = fileURLToPath(new URL("../../../rulesets/", import.meta.url));
const SHIPPED = readdirSync(RULESETS)
  .filter((name) => name.endsWith(".bevel"))
  .map((name) => readFileSync(RULESETS + name, "utf8"));
const SMALL = [
  ...DESCRIBED_FINDINGS.flatMap(({ smallest }) => (typeof smallest === "string" ? [smallest] : [])),
  ...allCases().map((one) => one.text.split(/\n(?===)/)[0]!),
  ...Array.from({ length: 40 }, (_, i) => randomBook(chance(i), 6).text),
  // Stretches of the shipped books: whole statements, as many as fit a small text.
  ...SHIPPED.flatMap((book) =>
    Array.from({ length: 60 }, (_, i) => {
      const cut = book.split(/\n(?=\S)/);
      const from = Math.floor((cut.length / 60) * i);
      return cut.slice(from, from + 12).join("\n");
    }),
  ),
];
const WORDS = [
  ...RESERVED,
  ...STATEMENT_WORDS,
  "depth",
  "mm",
  "3",
  "1:12",
  "gives",
  "rounded",
  "up",
  "to",
  "sum",
  "practice",
  "|",
  "n",
  "edition",
  '"text {depth}"',
  "constructor",
  "__proto__",
];

const SLOWEST = 1000;
/** A machine with other things to do may take its time. */
const PATIENCE = 180_000;

test(
  "spoilt small books",
  () => {
    const by = chance(101);
    expect(firstFault(by, 2250, () => mutate(by, by.pick(SMALL)))).toBeUndefined();
  },
  PATIENCE,
);

test(
  "random texts of the language's own words",
  () => {
    const by = chance(7);
    expect(firstFault(by, 450, () => randomText(by, WORDS))).toBeUndefined();
  },
  PATIENCE,
);

test(
  "spoilt shipped books",
  () => {
    const by = chance(9);
    expect(firstFault(by, 50, () => mutate(by, by.pick(SHIPPED)))).toBeUndefined();
  },
  PATIENCE,
);

test(
  "spoilt job files",
  () => {
    const by = chance(11);
    const book = SHIPPED.map((text) => readBook(text)).find((one) => one.asks.length > 0)!;
    const plain = JSON.stringify(
      Object.fromEntries(
        book.asks.map((ask) => [
          ask.name,
          ask.answer.is === "kind"
            ? ask.answer.words[0]!.word
            : ask.answer.is === "yes-no"
              ? "yes"
              : ask.answer.low,
        ]),
      ),
    );
    for (let i = 0; i < 2000; i++) {
      let data: unknown;
      try {
        data = JSON.parse(mutate(by, plain));
      } catch {
        continue;
      }
      const read = jobFile.safeParse(data);
      if (!read.success) continue;
      const view = showJob(
        workJob(
          book,
          Object.fromEntries(Object.entries(read.data).map(([ask, answer]) => [ask, String(answer)])),
        ),
      );
      for (const finding of view.findings) expect(finding.says).toMatch(/^\S[\s\S]*[.?]$/);
    }
  },
  PATIENCE,
);

/** The first book of `count` that breaks a promise of the engine, with what happened. */
function firstFault(by: Chance, count: number, make: () => string): string | undefined {
  for (let i = 0; i < count; i++) {
    const text = make();
    const { out, milliseconds: took } = spent(() => faultOf(text, by));
    if (out !== undefined)
      return (
        `${out}\n--- in ---\n` +
        `${JSON.stringify(shrunk(text, (small) => faultOf(small, chance(1)) !== undefined))}`
      );
    // The first book of a run pays for warming up.
    if (took > SLOWEST && spent(() => faultOf(text, by)).milliseconds > SLOWEST)
      return `took ${Math.round(took)} ms\n--- in ---\n${text}`;
  }
  return undefined;
}

function faultOf(text: string, by: Chance): string | undefined {
  try {
    const book = readBook(text);
    for (const { at, code, says, also, repairs } of book.findings) {
      if (!(at.start >= 0 && at.start < at.end && at.end <= text.length))
        return `${code} points at ${at.start} to ${at.end} of ${text.length}`;
      if (
        /undefined|NaN|\[object/.test(says.replaceAll(text.slice(at.start, at.end), "")) &&
        !/undefined|NaN|\[object/.test(text)
      )
        return `${code} says: ${says}`;
      for (const one of also)
        if (!(one.at.start >= 0 && one.at.end <= text.length))
          return `${code} also points at ${one.at.start} to ${one.at.end}`;
      for (const repair of repairs)
        for (const edit of repair.edits)
          if (!(edit.at.start >= 0 && edit.at.start <= edit.at.end && edit.at.end <= text.length))
            return `${code} repairs ${edit.at.start} to ${edit.at.end}`;
    }
    for (const row of book.rows)
      if (!(row.at.start < row.at.end && row.at.end <= text.length))
        return `row ${row.id} is at ${row.at.start} to ${row.at.end}`;
    const answers: Answers = Object.fromEntries(
      book.asks.map((ask) => [
        ask.name,
        by.pick([
          "6 mm",
          "6",
          "yes",
          "unknown",
          "",
          ask.answer.is === "kind"
            ? (ask.answer.words[0]?.word ?? "")
            : ask.answer.is === "quantity"
              ? ask.answer.low
              : "no",
          "1e308",
          "NaN",
          "6 mm ± 1 mm",
        ]),
      ]),
    );
    const job = workJob(book, answers);
    const view = showJob(job, by.pick(["book", "metric", "us"] as const));
    for (const value of view.values)
      if (value.state === "known" && typeof value.value === "number" && !Number.isFinite(value.value))
        return `${value.name} is ${value.value}`;
    const row = book.rows[by.whole(book.rows.length)];
    if (row !== undefined) why(job, row.id, "full");
    const tidied = tidy(text);
    if (tidy(tidied) !== tidied) return "tidy twice is not tidy once";
    tokenColours(text);
    return undefined;
  } catch (error) {
    return `throws ${(error as Error).stack?.split("\n").slice(0, 6).join("\n")}`;
  }
}

/** Lines, then characters, are taken out for as long as the fault stays. */
function shrunk(text: string, wrong: (text: string) => boolean): string {
  let small = text;
  for (const cut of ["\n", ""]) {
    let parts = small.split(cut);
    if (parts.length > 3000) continue;
    for (let i = 0; i < parts.length; ) {
      const fewer = [...parts.slice(0, i), ...parts.slice(i + 1)];
      if (wrong(fewer.join(cut))) parts = fewer;
      else i++;
    }
    small = parts.join(cut);
  }
  return small;
}
