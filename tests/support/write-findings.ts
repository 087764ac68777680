// Writes engine/FINDINGS.md from the table of finding kinds: `npx tsx tests/support/write-findings.ts`.
import { capitalise } from "../../core/capitalise.ts";
import { writeFileSync } from "node:fs";
import { argv } from "node:process";
import { fileURLToPath } from "node:url";
import { readBook } from "../../engine/index.ts";
import { DESCRIBED_FINDINGS } from "../../engine/language/check/findings/pages/index.ts";
import { annotate } from "./annotate.ts";

const GROUPS: readonly (readonly [title: string, codes: RegExp])[] = [
  ["How a statement is written", /^(syntax|book|basis|band)\//],
  ["Names and kinds", /^(name|text|call|kind)\//],
  [
    "Units, amounts and types",
    /^(number|unit|money|temperature|share|taper|mix|type|count|round|power|choose|list)\//,
  ],
  ["Charts", /^chart\//],
  ["Asks, dials, drawings, examples and promises", /^(ask|dial|picture|worked|promise)\//],
  ["Books that stand on others", /^(use|layer)\//],
  ["Limits", /^budget\//],
];

const WEIGHTS = {
  error: "the rule cannot be used",
  warning: "it can be used, and is probably not meant",
  note: "worth knowing",
} as const;

/**
 * The whole page. Each finding stands with the smallest book that causes it and the mark as the terminal
 * draws it.
 */
export function findingsPage(): string {
  const out = [
    "# Findings",
    "",
    "Every finding that the checker can have of a book, with the smallest book that causes it. " +
      "This page is written by",
    "`npx tsx tests/support/write-findings.ts`; a test runs each book and holds the page against the engine.",
    "",
    `An **error** means that ${WEIGHTS.error}; a **warning**, that ${WEIGHTS.warning}; a ` +
      `**note** is ${WEIGHTS.note}.`,
    "",
  ];
  for (const [title, codes] of GROUPS) {
    out.push(`## ${title}`, "");
    for (const kind of DESCRIBED_FINDINGS.filter((one) => codes.test(one.code))) {
      out.push(`### ${kind.code}`, "");
      if (typeof kind.smallest === "string") {
        const [finding] = readBook(kind.smallest, undefined, kind.books).findings;
        out.push(
          `${capitalise(kind.weight)}. ${finding?.says ?? ""}`,
          "",
          ...(kind.books ?? [])
            .slice(0, 3)
            .flatMap((text) => [
              ...block(text.trimEnd()),
              "    --",
              "    -- and over it, or beside it:",
              "    --",
            ]),
          ...block(annotate(kind.smallest, kind.books)),
          "",
        );
      } else {
        const text = kind.smallest();
        out.push(
          `${capitalise(kind.weight)}. ${readBook(text).findings[0]?.says ?? ""}`,
          "",
          ...block(shortened(text)),
          "",
        );
      }
      out.push(`*What to do:* ${kind.mend}`, "");
    }
  }
  return out.join("\n");
}

const block = (text: string): string[] => text.split("\n").map((line) => `    ${line}`.trimEnd());

/** The beginning of a book that is too long to read. */
function shortened(text: string): string {
  const lines = text.split("\n");
  const head = lines.slice(0, 4).map((line) => (line.length > 60 ? `${line.slice(0, 60)}…` : line));
  return lines.length > 4 ? [...head, `-- … ${lines.length} lines`].join("\n") : head.join("\n");
}

if (argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(fileURLToPath(new URL("../../engine/FINDINGS.md", import.meta.url)), findingsPage());
