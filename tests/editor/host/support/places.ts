// Fresh places for the shop's data, in a file and on a server: the same tests go over both. The server is one
// for the whole run (setup.ts); each place on it is a database of its own.
import { mkdtempSync } from "node:fs";
import { join } from "node:path";
import { inject } from "vitest";
import type { DatabasePlace } from "../../../../editor/host/database/database.ts";
import { newDatabase } from "./postgres.ts";

export interface Places {
  readonly name: "a file" | "a server";
  fresh(): Promise<DatabasePlace>;
}

/** A folder that is gone after the run. */
export const freshFolder = (): string => mkdtempSync(join(inject("scratch"), "shop-"));

export const bothPlaces: readonly Places[] = [
  { name: "a file", fresh: async () => ({ data: freshFolder() }) },
  {
    name: "a server",
    fresh: async () => ({ data: freshFolder(), database: await newDatabase(inject("server")) }),
  },
];
