// Triggers that refuse to change or delete what is written once. Only putting a backup back lifts them,
// inside its own transaction.
import { type Kysely, type Transaction, sql } from "kysely";
import { type TableName, type Tables, sealedTables } from "./tables.ts";

export type Sort = "file" | "server";
type Open = Kysely<Tables> | Transaction<Tables>;

/** Puts the triggers on all sealed tables, or on those named. */
export async function putGuards(
  db: Open,
  sort: Sort,
  tables: readonly TableName[] = sealedTables,
): Promise<void> {
  if (sort === "server") await sql.raw(refuse).execute(db);
  for (const table of tables) {
    const on = sql.table(table);
    if (sort === "server") {
      await sql`create trigger ${sql.id(`${table}_stays`)} before update or delete on ${on}
        for each row execute function bevelbook_refuse()`.execute(db);
      await sql`create trigger ${sql.id(`${table}_stays_whole`)} before truncate on ${on}
        for each statement execute function bevelbook_refuse()`.execute(db);
    } else {
      for (const change of ["update", "delete"])
        await sql`create trigger ${sql.id(`${table}_no_${change}`)} before ${sql.raw(change)} on ${on}
          begin select raise(abort, 'What is in this table is never changed.'); end`.execute(db);
    }
  }
}

/** The server's function that the triggers call. */
const refuse = `create or replace function bevelbook_refuse() returns trigger language plpgsql as $$
  begin
    raise exception 'What is in this table is never changed.'
      using errcode = 'integrity_constraint_violation';
  end $$`;

export async function liftGuards(
  db: Open,
  sort: Sort,
  tables: readonly TableName[] = sealedTables,
): Promise<void> {
  for (const table of tables) {
    const names =
      sort === "server"
        ? [`${table}_stays`, `${table}_stays_whole`]
        : [`${table}_no_update`, `${table}_no_delete`];
    for (const name of names)
      await (sort === "server"
        ? sql`drop trigger if exists ${sql.id(name)} on ${sql.table(table)}`
        : sql`drop trigger if exists ${sql.id(name)}`
      ).execute(db);
  }
}
