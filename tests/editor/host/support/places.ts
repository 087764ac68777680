// Fresh shelves for the tests, in a file and on a server: the same tests go over both.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";
import type { DatabasePlace } from "../../../../editor/host/database/database.ts";
import { type Server, startServer } from "./postgres.ts";

export interface Places {
  readonly name: "a file" | "a server";
  fresh(): Promise<DatabasePlace>;
}

const folders: string[] = [];
let server: Promise<Server> | undefined;

/** A folder that is gone after the file's tests. */
export function freshFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "bevelbook-shelf-"));
  folders.push(folder);
  return folder;
}

export const theServer = (): Promise<Server> => (server ??= startServer());

export const bothPlaces: readonly Places[] = [
  { name: "a file", fresh: async () => ({ data: freshFolder() }) },
  {
    name: "a server",
    fresh: async () => ({ data: freshFolder(), database: await (await theServer()).database() }),
  },
];

afterAll(async () => {
  await (await server)?.stop();
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});
