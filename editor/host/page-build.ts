// Whether the built pages are newer than everything that they are built from, and their build.
import { execFile } from "node:child_process";
import { readdirSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { promisify, stripVTControlCharacters } from "node:util";

const sources = ["core", "engine", "editor", "rulesets", "vite.config.ts", "package-lock.json"];

/** True if the pages have to be built before they can be served. */
export function needsBuild(project: string, folder: string): boolean {
  const built = ageOf(join(folder, "index.html"));
  const job = ageOf(join(folder, "job.html"));
  if (built === undefined || job === undefined) return true;
  return sources.some((source) => newerThan(join(project, source), Math.min(built, job)));
}

/**
 * Builds the pages in a process of its own, so that the host does not keep the builder's memory. Comes back
 * with what went wrong, if anything did.
 */
export async function buildPages(project: string): Promise<string | undefined> {
  try {
    const vite = dirname(createRequire(join(project, "package.json")).resolve("vite/package.json"));
    // The workbench first: its build empties the folder.
    for (const mode of ["production", "job"])
      await promisify(execFile)(
        process.execPath,
        [join(vite, "bin", "vite.js"), "build", "--mode", mode, "--logLevel", "error"],
        { cwd: project },
      );
    return undefined;
  } catch (cause) {
    const { stderr, message } = cause as { readonly stderr?: string; readonly message: string };
    return stripVTControlCharacters(stderr?.trim() || message);
  }
}

function newerThan(path: string, time: number): boolean {
  const age = ageOf(path);
  if (age === undefined) return false;
  if (!statSync(path).isDirectory()) return age > time;
  return readdirSync(path).some((name) => newerThan(join(path, name), time));
}

function ageOf(path: string): number | undefined {
  try {
    return statSync(path).mtimeMs;
  } catch {
    return undefined;
  }
}
