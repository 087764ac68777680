// How the programs (terminal, host, engine thread) are bundled into dist/programs, and which of the bundles
// there is the current one.
import { readdirSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import type { Plugin } from "vite";

/** What `current.json` says; `start-program.mjs` reads it. */
interface CurrentBundle {
  /** Below dist/programs. */
  readonly folder: string;
  /** Time at which the build began, in milliseconds: a source changed later is not in the bundle. */
  readonly began: number;
  /** Files of the project that the bundle was made from, relative to it. */
  readonly sources: readonly string[];
}

/** Milliseconds for which an old bundle is kept: a running host may still load from it. */
const keepFor = 24 * 3600 * 1000;

/** Files that decide how the bundle is built, besides the modules in it. */
const settings = [
  "vite.config.ts",
  "package-lock.json",
  "editor/build/programs.ts",
  "editor/build/small-parser.ts",
];

/**
 * Each build has a folder of its own and becomes current by one rename, so that programs that start meanwhile
 * find a whole bundle.
 */
export function bundleList(project: string, bundles: string, folder: string, began: number): Plugin {
  return {
    name: "bundle-list",
    apply: "build",
    writeBundle(_options, bundle) {
      const modules = Object.values(bundle).flatMap((file) => (file.type === "chunk" ? file.moduleIds : []));
      const own = modules
        .map((module) => relative(project, module.replace(/\?.*$/, "")))
        .filter((path) => /^(core|engine|editor)\//.test(path));
      const current: CurrentBundle = { folder, began, sources: [...new Set([...own, ...settings])].sort() };
      const written = join(bundles, folder, "current.json");
      writeFileSync(written, JSON.stringify(current));
      renameSync(written, join(bundles, "current.json"));
      removeOld(bundles, folder, began - keepFor);
    },
  };
}

function removeOld(bundles: string, current: string, before: number): void {
  for (const entry of readdirSync(bundles, { withFileTypes: true })) {
    const path = join(bundles, entry.name);
    if (!entry.isDirectory() || entry.name === current) continue;
    const made = statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
    if (made < before) rmSync(path, { recursive: true, force: true });
  }
}
