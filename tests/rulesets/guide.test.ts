// Runs the guide: every small book in it is read, every job under a book is worked, and what the guide prints
// must be what comes out. A book is a complete one without errors, whose own worked examples pass; one marked
// `finding=CODES` has exactly those findings.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { type Book, readBook, showJob, tidy, workJob } from "../../engine/index.ts";

const GUIDE = readFileSync(new URL("../../rulesets/GUIDE.md", import.meta.url), "utf8");

interface Block {
  readonly line: number;
  readonly sort: "bevel" | "job";
  /** Codes that the book must give, where the guide shows a mistake. */
  readonly codes: readonly string[] | undefined;
  readonly text: string;
}

/**
 * The fenced blocks that are run, in the order of the guide. Throws on a fence that is neither run nor known.
 */
function blocksOf(guide: string): readonly Block[] {
  return [...guide.matchAll(/^```(\S*)(?: +(\S.*))?\n([\s\S]*?)^```$/gm)].map((found) => {
    const [, sort, more, text] = found;
    const line = guide.slice(0, found.index).split("\n").length;
    if (sort !== "bevel" && sort !== "job")
      throw new Error(`Line ${line} of the guide opens a block that no test runs.`);
    const codes = more === undefined ? undefined : /^finding=(\S+)$/.exec(more)?.[1]?.split(",");
    if (more !== undefined && codes === undefined)
      throw new Error(`Line ${line} of the guide: ${more} means nothing.`);
    return { line, sort, codes, text: text! };
  });
}

const BLOCKS = blocksOf(GUIDE);
const bookAbove = (job: Block): Block => {
  const above = BLOCKS.filter((one) => one.sort === "bevel" && one.line < job.line).at(-1);
  if (above === undefined) throw new Error(`Line ${job.line} of the guide: a job without a book above it.`);
  return above;
};
/** A book of the guide, with those that stand above it at hand. */
const readIn = (block: Block): Book =>
  readBook(
    block.text,
    undefined,
    BLOCKS.filter((one) => one.sort === "bevel" && one.line < block.line).map((one) => one.text),
  );
const told = (book: Book) => book.findings.map((one) => `${one.code}: ${one.says}`);

test("the guide has the books and jobs that it is known for", () => {
  expect(BLOCKS.filter((one) => one.sort === "bevel").length).toBeGreaterThanOrEqual(30);
  expect(BLOCKS.filter((one) => one.sort === "job").length).toBeGreaterThanOrEqual(30);
});

describe("books of the guide", () => {
  for (const block of BLOCKS.filter((one) => one.sort === "bevel")) {
    test(`line ${block.line}: ${/^book ([^,]*)/m.exec(block.text)?.[1] ?? "no book"}`, () => {
      const book = readIn(block);
      if (block.codes !== undefined)
        expect([...new Set(book.findings.map((one) => one.code))].sort(), told(book).join("\n")).toEqual(
          [...block.codes].sort(),
        );
      else {
        expect(book.findings.filter((one) => one.weight === "error").map((one) => one.says)).toEqual([]);
        expect(book.worked.filter((one) => !one.passes).map((one) => one.name)).toEqual([]);
        expect(tidy(block.text)).toBe(block.text);
      }
    });
  }
});

describe("jobs of the guide", () => {
  for (const block of BLOCKS.filter((one) => one.sort === "job")) {
    test(`line ${block.line}: ${block.text.split("\n")[0]}`, () => {
      const [answers, printed] = block.text.split("\n→\n") as [string, string | undefined];
      const lines = (printed ?? "").split("\n").filter((line) => line !== "");
      expect(lines.length, "a job prints something").toBeGreaterThan(0);
      const view = showJob(workJob(readIn(bookAbove(block)), JSON.parse(answers) as Record<string, string>));
      expect(view.findings).toEqual([]);
      const got = lines.map((line) => {
        const name = line.slice(0, line.indexOf(": "));
        return (
          `${name}: ` +
          (name === "state"
            ? view.state
            : (view.values.find((one) => one.name === name)?.text ?? "the book has no such value"))
        );
      });
      expect(got).toEqual(lines);
    });
  }
});

/** The card that the guide shows for its last job: what it reads aloud must be what the card says. */
test("the card at the end of the guide is the card of that job", () => {
  const job = BLOCKS.filter((one) => one.sort === "job").at(-1)!;
  const view = showJob(
    workJob(readBook(bookAbove(job).text), JSON.parse(job.text.split("\n→\n")[0]!) as Record<string, string>),
  );
  const time = (step: (typeof view.steps)[number]) =>
    step.takes === undefined
      ? ""
      : ` (${step.takes}${step.waits === undefined ? "" : `, then wait ${step.waits}`})`;
  const card = [
    `> ${view.cautions.map((one) => one.text).join(" · ")}`,
    ">",
    ...view.steps.map((step, i) => `> ${i + 1}. ${step.text}${time(step)}`),
  ].join("\n");
  expect(GUIDE.slice(GUIDE.indexOf("The card of that job:"))).toContain(card);
});
