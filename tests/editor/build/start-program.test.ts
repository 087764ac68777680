// Which bundle of the programs is current: the one that was built after every source last changed.
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, expect, test } from "vitest";
import { bundleList } from "../../../editor/build/programs.ts";
import { buildPrograms, currentBundle, programs } from "../../../editor/build/start-program.mjs";

const project = fileURLToPath(new URL("../../..", import.meta.url));
let root = "";
let bundles = "";
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), "bevelbook-programs-"));
  bundles = join(root, "dist", "programs");
  mkdirSync(join(bundles, "one"), { recursive: true });
  mkdirSync(join(root, "engine"));
  writeFileSync(join(bundles, "one", "bevelbook.mjs"), "");
  write("engine/index.ts", 1000);
  writeFileSync(
    join(bundles, "current.json"),
    JSON.stringify({ folder: "one", began: 2_000_000, sources: ["engine/index.ts"] }),
  );
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

/** `seconds` is the time of its last change. */
const write = (file: string, seconds: number): void => {
  writeFileSync(join(root, file), "");
  utimesSync(join(root, file), seconds, seconds);
};

test("a bundle is current as long as no source is newer or gone", () => {
  expect(currentBundle(bundles, root)).toBe(join(bundles, "one"));
  write("engine/index.ts", 2001);
  expect(currentBundle(bundles, root)).toBeUndefined();
  write("engine/index.ts", 2000);
  expect(currentBundle(bundles, root)).toBe(join(bundles, "one"));
  rmSync(join(root, "engine/index.ts"));
  expect(currentBundle(bundles, root)).toBeUndefined();
});

test("a copy without sources runs what it has", () => {
  rmSync(join(root, "engine"), { recursive: true });
  expect(currentBundle(bundles, root)).toBe(join(bundles, "one"));
});

test("without a list, or without the files that it names, there is no bundle", () => {
  rmSync(join(bundles, "one", "bevelbook.mjs"));
  expect(currentBundle(bundles, root)).toBeUndefined();
  rmSync(join(bundles, "current.json"));
  expect(currentBundle(bundles, root)).toBeUndefined();
  writeFileSync(join(bundles, "current.json"), "{");
  expect(currentBundle(bundles, root)).toBeUndefined();
});

test("a build lists the project's own files and removes bundles that are a day old", () => {
  mkdirSync(join(bundles, "two"));
  mkdirSync(join(bundles, "young"));
  writeFileSync(join(bundles, "two", "bevelbook.mjs"), "");
  utimesSync(join(bundles, "one"), 1000, 1000);
  const { writeBundle } = bundleList(root, bundles, "two", Date.now());
  const moduleIds = ["engine/index.ts", "node_modules/zod/index.js"].map((file) => join(root, file));
  (writeBundle as (options: unknown, bundle: unknown) => void)(undefined, {
    "bevelbook.mjs": { type: "chunk", moduleIds },
  });
  for (const file of ["package-lock.json", "vite.config.ts"]) write(file, 1000);
  mkdirSync(join(root, "editor", "build"), { recursive: true });
  for (const file of ["programs.ts", "small-parser.ts"]) write(`editor/build/${file}`, 1000);
  expect(currentBundle(bundles, root)).toBe(join(bundles, "two"));
  expect(readdirSync(bundles).sort()).toEqual(["current.json", "two", "young"]);
});

test("the project's programs build, and the bundle is current then", async () => {
  expect(await buildPrograms()).toBe(true);
  const bundle = currentBundle(join(project, "dist", "programs"));
  expect(bundle).toBeDefined();
  for (const name of Object.keys(programs)) expect(existsSync(join(bundle!, `${name}.mjs`)), name).toBe(true);
}, 60_000);
