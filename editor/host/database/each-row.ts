// Reads the rows of a table one page after another, giving way to others in between, and goes on behind a row
// that the disk has damaged.
import { sql } from "kysely";
import type { Database } from "./database.ts";
import { type TableName, type Tables, tableKeys } from "./tables.ts";
import { troubleOf } from "./database-errors.ts";

/** Lets whoever waits go first. */
export const giveWay = (): Promise<void> =>
  new Promise((resolve) => {
    setImmediate(resolve);
  });

type Row = Record<string, unknown>;

/**
 * Each row of a table by its key. `damaged` hears which rows cannot be read: the row's key, or undefined
 * where the rest of the table cannot.
 */
export async function* eachRow<T extends TableName>(
  { db }: Pick<Database, "db">,
  table: T,
  damaged: (key: readonly unknown[] | undefined) => void,
): AsyncGenerator<Tables[T]> {
  const { key, page } = keyOf(table);
  const columns = sql.join(key.map((name) => sql.ref(name)));
  const read = async (what: "*" | "key", last: Row | undefined, limit: number): Promise<Row[]> => {
    const after =
      last === undefined ? sql`` : sql`where (${columns}) > (${sql.join(key.map((name) => last[name]))})`;
    const wanted = what === "*" ? sql.raw("*") : columns;
    const asked = sql<Row>`select ${wanted} from ${sql.table(table)} ${after}
      order by ${columns} limit ${sql.lit(limit)}`;
    return (await asked.execute(db)).rows;
  };
  for (let last: Row | undefined; ; ) {
    const rows: Row[] | undefined = await read("*", last, page).catch(orDamaged);
    if (rows !== undefined) yield* rows as Tables[T][];
    const keys: Row[] | undefined = rows ?? (await read("key", last, page).catch(orDamaged));
    if (keys === undefined) {
      damaged(undefined);
      return;
    }
    if (rows === undefined)
      for (const one of keys) {
        const values = key.map((name) => one[name]);
        const found = await sql<Row>`select * from ${sql.table(table)}
          where (${columns}) = (${sql.join(values)})`
          .execute(db)
          .catch(orDamaged);
        if (found?.rows[0] === undefined) damaged(values);
        else yield found.rows[0] as Tables[T];
      }
    if (keys.length < page) return;
    last = keys.at(-1);
    await giveWay();
  }
}

const keyOf = (table: TableName): { readonly key: readonly string[]; readonly page: number } =>
  tableKeys.find((one) => one.table === table) ?? { key: ["token"], page: 500 };

/** Undefined for damage on the disk; anything else is thrown on. */
export function orDamaged(cause: unknown): undefined {
  if (troubleOf(cause)?.refusal.code === "data-damaged") return undefined;
  throw cause;
}
