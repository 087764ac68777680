// Starts a program of this project from its bundle in dist/programs. The bundle is built first where it is
// missing or older than a source; where it cannot be built, tsx runs the sources. This is plain JavaScript,
// because it runs before anything is translated.
import { readFileSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const project = fileURLToPath(new URL("../..", import.meta.url));
const bundles = join(project, "dist", "programs");

/** Each program's source, by the name of its file in the bundle; vite.config.ts builds from this list. */
export const programs = {
  bevelbook: "editor/terminal/main.ts",
  start: "editor/host/start.ts",
  "engine-worker": "editor/host/engine-threads/engine-worker.ts",
};

/** The exports of a program, by its name in `programs`. */
export async function startProgram(name) {
  const bundle = currentBundle(bundles) ?? ((await buildPrograms()) ? currentBundle(bundles) : undefined);
  if (bundle !== undefined) return import(pathToFileURL(join(bundle, `${name}.mjs`)).href);
  const { register } = await import("tsx/esm/api");
  register();
  return import(pathToFileURL(join(project, programs[name])).href);
}

/**
 * The folder of the newest bundle in `folder`, or undefined where a source in `root` has changed since it was
 * built. A copy that comes without sources is not checked.
 */
export function currentBundle(folder, root = project) {
  let built;
  try {
    built = JSON.parse(readFileSync(join(folder, "current.json"), "utf8"));
  } catch {
    return undefined;
  }
  const bundle = join(folder, built.folder);
  if (modified(join(bundle, "bevelbook.mjs")) === undefined) return undefined;
  if (modified(join(root, "engine")) === undefined) return bundle;
  const stale = built.sources.some((source) => !(modified(join(root, source)) <= built.began));
  return stale ? undefined : bundle;
}

/** In a process of its own, so that its memory is free again. True if it went well. */
export async function buildPrograms(stdio = "ignore") {
  const { VITEST: _runner, NODE_ENV: _mode, ...env } = process.env;
  try {
    // Loaded here: they take as long to load as the check of a whole bundle.
    const { spawnSync } = await import("node:child_process");
    const { createRequire } = await import("node:module");
    const vite = join(dirname(createRequire(import.meta.url).resolve("vite/package.json")), "bin", "vite.js");
    const args = [vite, "build", "--mode", "programs", "--logLevel", "error"];
    return spawnSync(process.execPath, args, { cwd: project, env, stdio }).status === 0;
  } catch {
    return false;
  }
}

/** Milliseconds, or undefined where there is no such file. */
function modified(path) {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs;
}
