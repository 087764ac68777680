// What the tests of the host share: one PostgreSQL server for the whole run, and a folder that goes with it.
import type { TestProject } from "vitest/node";
import { scratchFolder } from "../../../support/scratch.ts";
import { startServer } from "./postgres.ts";

declare module "vitest" {
  export interface ProvidedContext {
    /** Address of a PostgreSQL server for its administrator. */
    readonly server: string;
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const drop = scratchFolder(project);
  const server = await startServer();
  project.provide("server", server.address);
  return async () => {
    await server.stop();
    drop();
  };
}
