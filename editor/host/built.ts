// Whether the built pages are there and newer than all that they are built from.
import { readdirSync, statSync } from "node:fs";
import { join } from "node:path";

const sources = ["core", "engine", "editor", "rulesets", "vite.config.ts", "package-lock.json"];

/** True if the pages have to be built before they can be served. */
export function needsBuild(project: string, folder: string): boolean {
  const built = ageOf(join(folder, "index.html"));
  const job = ageOf(join(folder, "job.html"));
  if (built === undefined || job === undefined) return true;
  return sources.some((source) => newerThan(join(project, source), Math.min(built, job)));
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
