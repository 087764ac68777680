// Builds the pages once for all screen tests, into a folder of their own, and serves them on a free port of
// this machine. A folder of its own keeps a build that runs beside the tests from pulling the pages out from
// under them.
import { execFile } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import type { TestProject } from "vitest/node";
import { listen } from "../../../editor/host/listen.ts";
import { pagesApp } from "../../../editor/host/pages.ts";
import { scratchFolder } from "../../support/scratch.ts";
import { fetchBrowser } from "./browser.ts";

declare module "vitest" {
  export interface ProvidedContext {
    /** Address of the pages, ending with a slash. */
    readonly address: string;
    /** The folder that they are served from. */
    readonly folder: string;
  }
}

const project = fileURLToPath(new URL("../../..", import.meta.url));

export default async function setup(project: TestProject): Promise<() => void> {
  fetchBrowser();
  const drop = scratchFolder(project);
  const pages = await servePages();
  project.provide("address", pages.address);
  project.provide("folder", pages.folder);
  return () => {
    pages.close();
    drop();
  };
}

/** The pages as they are now, built and served until `close`. */
export async function servePages(): Promise<{
  readonly address: string;
  readonly folder: string;
  close(): void;
}> {
  const folder = mkdtempSync(join(tmpdir(), "bevelbook-pages-"));
  const drop = (): void => rmSync(folder, { recursive: true, force: true });
  try {
    for (const mode of ["production", "job"]) await buildPages(mode, folder);
    const listening = await listen(pagesApp(folder), { host: "127.0.0.1", port: 0 });
    if ("failed" in listening) throw new Error(listening.failed);
    return {
      address: listening.address,
      folder,
      close: () => {
        listening.close();
        drop();
      },
    };
  } catch (cause) {
    drop();
    throw cause;
  }
}

/** In a process of its own: the test runner reads the same settings file otherwise. */
async function buildPages(mode: string, folder: string): Promise<void> {
  const { VITEST: _runner, NODE_ENV: _mode, ...env } = process.env;
  const vite = join(project, "node_modules", "vite", "bin", "vite.js");
  await promisify(execFile)(
    process.execPath,
    [vite, "build", "--mode", mode, "--outDir", folder, "--logLevel", "error"],
    { cwd: project, env },
  );
}
