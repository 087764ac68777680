// The engine as the pages are built with it, its parser made small, reads every book as the whole one does:
// mistakes too.
import fc from "fast-check";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "vite";
import { afterAll, beforeAll, expect, test } from "vitest";
import { smallParser } from "../../../editor/build/small-parser.ts";
import * as whole from "../../../engine/index.ts";
import { withoutMarks } from "../../support/annotate.ts";
import { allCases } from "../../support/cases.ts";

const root = fileURLToPath(new URL("../../../", import.meta.url));
let folder: string;
let small: typeof whole;

beforeAll(async () => {
  folder = mkdtempSync(join(root, "node_modules", ".small-"));
  await build({
    configFile: false,
    root,
    logLevel: "error",
    plugins: [smallParser()],
    ssr: { noExternal: true },
    build: {
      ssr: true,
      outDir: folder,
      emptyOutDir: true,
      copyPublicDir: false,
      target: "node20",
      rollupOptions: { input: { engine: join(root, "engine", "index.ts") } },
    },
  });
  small = (await import(/* @vite-ignore */ pathToFileURL(join(folder, "engine.js")).href)) as typeof whole;
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** All that a book says, and a job in which nothing is answered. */
function said(engine: typeof whole, text: string): unknown {
  const book = engine.readBook(text);
  return {
    ...book,
    colours: engine.tokenColours(text),
    tidy: engine.tidy(text),
    job: engine.showJob(engine.workJob(book, {})),
  };
}

test("the build carries no library of helpers, no checks of a grammar, no recovery", () => {
  const text = readFileSync(join(folder, "engine.js"), "utf8");
  const carries = (name: string): boolean => text.includes(name);
  // Of the parser itself; of the library; of the checks of a grammar, and of a list of tokens; of recovery,
  // of what may come next, and of walks over a tree.
  const own = ["performSelfAnalysis"];
  const left = ["baseIteratee", "validateTooManyAlts", "findUnreachablePatterns"];
  const unused = ["findReSyncTokenType", "NextTerminalAfter", "nextPossibleTokensAfter", "validateVisitor"];
  // Of how the insides of a regular expression are read.
  const insides = ["disjunction()", "class RegExpParser", "firstCharOptimizedIndices"];
  expect([...own, ...left, ...unused, ...insides].filter(carries)).toEqual(own);
});

test("every case of the language reads the same", () => {
  for (const { file, says, text } of allCases()) {
    const book = withoutMarks(text.split(/\n(?===)/)[0]!);
    expect(said(small, book), `${file}: ${says}`).toEqual(said(whole, book));
  }
});

test("pieces of a shipped book with a stretch cut out or put elsewhere read the same", () => {
  const book = readFileSync(join(root, "rulesets", "road-panels.bevel"), "utf8").slice(0, 12_000);
  const place = fc.integer({ min: 0, max: book.length });
  fc.assert(
    fc.property(place, fc.integer({ min: 1, max: 12 }), place, (from, length, to) => {
      const rest = book.slice(0, from) + book.slice(from + length);
      const changed =
        to % 2 === 0 ? rest : rest.slice(0, to) + book.slice(from, from + length) + rest.slice(to);
      expect(small.readBook(changed).findings).toEqual(whole.readBook(changed).findings);
    }),
    { numRuns: 60 },
  );
});
