// An old data folder opens in a new version, from the first form of the database on; a newer one is refused
// and left as it is; a step that is cut off leaves the old form.
import Database from "libsql";
import { sql } from "kysely";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import pg from "pg";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { migrationsFor } from "../../../editor/host/database/migrations.ts";
import { taken } from "../../../editor/host/database/migrate.ts";
import { fileName, openDatabase, type DatabasePlace } from "../../../editor/host/database/database.ts";
import { draftOf, versionText } from "../../../editor/host/database/draft-versions.ts";
import { editionOf } from "../../../editor/host/database/editions.ts";
import { fullJob, listJobs } from "../../../editor/host/database/job-table.ts";
import { verifyLog } from "../../../editor/host/database/verify.ts";
import { bothPlaces } from "./support/places.ts";

/** The database as the first version made and filled it, written down once and never changed. */
const first = (sort: "file" | "server"): string =>
  readFileSync(fileURLToPath(new URL(`old/first-${sort}.sql`, import.meta.url)), "utf8");

async function asFirst(place: DatabasePlace): Promise<void> {
  if (place.database === undefined) {
    const db = new Database(join(place.data, fileName));
    db.exec(first("file"));
    db.close();
  } else {
    const client = new pg.Client({ connectionString: place.database });
    await client.connect();
    await client.query(first("server")).finally(() => client.end());
  }
}

describe.each(bothPlaces)("over $name", ({ fresh }) => {
  test("a shelf of the first version opens, and all that was on it is there", async () => {
    const place = await fresh();
    await asFirst(place);
    const database = await openDatabase(place);
    // One line more: the hashes of what was written without them.
    expect(await verifyLog(database)).toMatchObject({ holds: true, troubles: [], lines: 6 });
    expect(await draftOf(database, "small-panels")).toMatchObject({ version: 2 });
    expect(await versionText(database.db, "small-panels", 1)).toContain("edition 1");
    expect(await editionOf(database, "small-panels", 1)).toMatchObject({ who: "Ilse Marrow", why: "first" });
    const { jobs } = await listJobs(database, { limit: 10 });
    expect(jobs).toHaveLength(1);
    expect((await fullJob(database, jobs[0]!.id)).job.used[0]).toMatchObject({ lot: "LOT-1" });
    // Work goes on.
    await database.write("a test", (_tx, tell) => tell("test", {}));
    expect(await verifyLog(database)).toMatchObject({ holds: true, lines: 7 });
    await database.close();
  }, 60_000);

  test("a later step keeps the rows and the old file beside it; going back is refused", async () => {
    const place = await fresh();
    await asFirst(place);
    const sort = place.database === undefined ? "file" : "server";
    const later = {
      ...migrationsFor(sort),
      "9001-colours": {
        up: async (db: Parameters<ReturnType<typeof migrationsFor>[string]["up"]>[0]) => {
          await db.schema
            .alterTable("jobs")
            .addColumn("colour", "text", (c) => c.notNull().defaultTo("none"))
            .execute();
        },
      },
    };
    const database = await openDatabase(place, { migrations: later });
    expect(database.form).toBe("9001-colours");
    expect(
      (await sql<{ colour: string; title: string }>`select colour, title from jobs`.execute(database.db))
        .rows,
    ).toEqual([{ colour: "none", title: "front wing" }]);
    await database.close();
    if (sort === "file")
      expect(
        existsSync(
          join(
            place.data,
            "before-" +
              (Object.keys(migrationsFor(sort)).length > 1
                ? Object.keys(migrationsFor(sort)).sort()[1]
                : "9001-colours") +
              ".db",
          ),
        ),
      ).toBe(true);
    await expect(openDatabase(place)).rejects.toThrow(
      /last used with a newer version of Bevelbook \(its form is 9001-colours/,
    );
    await (await openDatabase(place, { migrations: later })).close();
  }, 60_000);

  test("a step that fails half-way leaves the form and the rows as they were", async () => {
    const place = await fresh();
    await asFirst(place);
    const sort = place.database === undefined ? "file" : "server";
    const half = {
      ...migrationsFor(sort),
      "9001-half": {
        up: async (db: Parameters<ReturnType<typeof migrationsFor>[string]["up"]>[0]) => {
          await db.schema.alterTable("jobs").addColumn("colour", "text").execute();
          throw new Error("cut off");
        },
      },
    };
    await expect(openDatabase(place, { migrations: half })).rejects.toThrow("cut off");
    const database = await openDatabase(place);
    expect(await taken(database.db)).toEqual(Object.keys(migrationsFor(sort)).sort());
    expect(
      (await database.db.introspection.getTables())
        .find((table) => table.name === "jobs")!
        .columns.map((column) => column.name),
    ).not.toContain("colour");
    expect(await verifyLog(database)).toMatchObject({ holds: true, lines: 6 });
    await database.close();
  }, 60_000);
});
