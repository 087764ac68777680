// A folder for what the tests of one run write; it is gone when the run ends.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { TestProject } from "vitest/node";

declare module "vitest" {
  export interface ProvidedContext {
    /** Path of a folder that exists until the end of the run. */
    readonly scratch: string;
  }
}

/** Makes the folder, tells the project's tests where it is, and gives what removes it. */
export function scratchFolder(project: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), "bevelbook-tests-"));
  project.provide("scratch", folder);
  return () => rmSync(folder, { recursive: true, force: true });
}
