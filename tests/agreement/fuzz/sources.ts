// The texts that are mutated: random books, the smallest book of each finding, the language's cases, and
// short stretches of the shipped books.
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { allCases } from "../../support/cases.ts";
import { chance } from "../../support/chance.ts";
import { randomBook } from "../../support/random-book.ts";
import { printed } from "../print.ts";
import { randomSmall } from "../random-book.ts";

const RULESETS = fileURLToPath(new URL("../../../rulesets/", import.meta.url));

function shippedTexts(): readonly string[] {
  const names = readdirSync(RULESETS).filter((name) => name.endsWith(".bevel"));
  return names.map((name) => readFileSync(RULESETS + name, "utf8"));
}

/** Consecutive statements, as many as fit a short text. */
function stretches(text: string, size: number): string[] {
  const statements = text.split(/\n(?=[a-z])/);
  return Array.from({ length: Math.floor(statements.length / size) }, (_, i) =>
    statements.slice(i * size, (i + 1) * size).join("\n"),
  );
}

const LONGEST = 1600;

export function sources(): readonly string[] {
  const small = [1, 2, 3].flatMap((level) =>
    Array.from({ length: 60 }, (_, i) => printed(randomSmall(i + 1, level as 1 | 2 | 3)).text),
  );
  const random = Array.from({ length: 60 }, (_, i) => randomBook(chance(i), 3, i % 2 === 0).text);
  const cases = allCases().map((one) => one.text.split(/\n(?===)/)[0]!);
  const shipped = shippedTexts().flatMap((text) => stretches(text, 5));
  return [...small, ...random, ...cases, ...shipped].filter((text) => text.length <= LONGEST);
}
