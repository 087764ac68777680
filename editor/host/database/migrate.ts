// Brings a database to the form that this version works with; one that a newer version has written is refused
// and left as it is.
import { type Kysely, Migrator, sql } from "kysely";
import type { Sort } from "./write-once-triggers.ts";
import { migrationsFor } from "./migrations.ts";
import { Trouble } from "../trouble.ts";
import type { Tables } from "./tables.ts";

export interface MigrateOptions {
  readonly migrations?: ReturnType<typeof migrationsFor>;
  /** Called before the first step on a database that holds something already, with the step's name. */
  readonly beforeChange?: (step: string) => Promise<void>;
}

/**
 * Takes all steps that were not taken yet, each whole or not at all. Comes back with the names of all steps
 * in order.
 */
export async function migrate(
  db: Kysely<Tables>,
  sort: Sort,
  { migrations = migrationsFor(sort), beforeChange }: MigrateOptions = {},
): Promise<readonly string[]> {
  const names = Object.keys(migrations).sort();
  const done = await taken(db);
  const unknown = done.filter((name) => !names.includes(name));
  if (unknown.length > 0)
    throw new Trouble(
      503,
      "The data was last used with a newer version of Bevelbook " +
        `(its form is ${unknown.at(-1)}, this version knows ${names.at(-1)}). ` +
        "Start that version; nothing was changed.",
    );
  const next = names.find((name) => !done.includes(name));
  if (next === undefined) return names;
  if (done.length > 0) await beforeChange?.(next);
  const { error } = await new Migrator({
    db,
    provider: { getMigrations: async () => ({ ...migrations }) },
  }).migrateToLatest();
  if (error !== undefined) throw error;
  return names;
}

/** The steps that a database has taken. */
export async function taken(db: Kysely<Tables>): Promise<readonly string[]> {
  const tables = await db.introspection.getTables({ withInternalKyselyTables: true });
  if (!tables.some((table) => table.name === "kysely_migration")) return [];
  return (await sql<{ name: string }>`select name from kysely_migration order by name`.execute(db)).rows.map(
    (row) => row.name,
  );
}
