// The embedded database: one file, written through a log beside it (WAL) and brought to the disk before a
// save is acknowledged.
import { isUtf8 } from "node:buffer";
import Database from "libsql";
import { SqliteAdapter, type SqliteDatabase, SqliteDialect } from "kysely";

/** Milliseconds that a write waits for another program that writes the same file. */
const patience = 5000;

export interface FileDatabase {
  readonly dialect: SqliteDialect;
  /** Rises when another program has changed the file. */
  foreignChanges(): number;
}

/** Opens or makes the file. Throws what the database or the disk says. */
export function openFileDatabase(path: string): FileDatabase {
  const db = new Database(path, { timeout: patience });
  try {
    for (const setting of [
      `busy_timeout = ${patience}`,
      "journal_mode = WAL",
      "synchronous = FULL",
      "foreign_keys = ON",
      "trusted_schema = OFF",
    ])
      db.exec(`PRAGMA ${setting}`);
    // A file that is no database, or that cannot be read, is reported now and not at the first query.
    db.prepare("SELECT count(*) FROM sqlite_master").all([]);
  } catch (cause) {
    db.close();
    throw cause;
  }
  return {
    dialect: new FileDialect({ database: asKyselyWants(db) }),
    foreignChanges: () =>
      (db.prepare("PRAGMA data_version").all([])[0] as { data_version: number }).data_version,
  };
}

/**
 * A change of the tables is part of a transaction here as well, so that a migration is done whole or not at
 * all.
 */
class FileDialect extends SqliteDialect {
  override createAdapter(): SqliteAdapter {
    return new (class extends SqliteAdapter {
      override get supportsTransactionalDdl(): boolean {
        return true;
      }
    })();
  }
}

type Statement = ReturnType<SqliteDatabase["prepare"]>;

const nothing: Statement = {
  reader: false,
  all: () => [],
  iterate: () => [][Symbol.iterator]() as IterableIterator<unknown>,
  run: () => ({ changes: 0, lastInsertRowid: 0 }),
};

function asKyselyWants(db: Database.Database): SqliteDatabase {
  return {
    close: () => {
      // Leaves one file that can be copied as it is.
      try {
        db.prepare("PRAGMA wal_checkpoint(TRUNCATE)").all([]);
      } catch {
        /* The log beside the file is read at the next start. */
      }
      db.close();
    },
    prepare: (sql) => {
      // Taking the write lock at the start keeps two programs from meeting half-way through their
      // transactions.
      if (sql === "begin") return plain(db.prepare("begin immediate"));
      // A full disk ends the transaction by itself; that is what must be reported, not that there is nothing
      // to take back.
      if (sql === "rollback" && !db.inTransaction) return nothing;
      return /^\s*(select|with)\b/i.test(sql) ? reading(db, sql) : plain(db.prepare(sql));
    },
  };
}

function plain(statement: Database.Statement): Statement {
  return {
    reader: statement.reader,
    all: (parameters) => statement.all(parameters as unknown[]),
    iterate: (parameters) => statement.iterate(parameters as unknown[]) as IterableIterator<unknown>,
    run: (parameters) => statement.run(parameters as unknown[]),
  };
}

/**
 * A question whose texts come as bytes and are decoded here: the library ends the whole process on a text
 * that is not UTF-8, which is what a failing disk leaves behind.
 */
function reading(db: Database.Database, sql: string): Statement {
  const { whole, binary } = inBytes(db, sql);
  const statement = db.prepare(whole);
  return {
    reader: true,
    all: (parameters) => {
      const rows = statement.all(parameters as unknown[]);
      for (const row of rows) decode(row as Record<string, unknown>, binary);
      return rows;
    },
    iterate: function* (parameters) {
      for (const row of statement.iterate(parameters as unknown[])) {
        decode(row as Record<string, unknown>, binary);
        yield row;
      }
    },
    run: (parameters) => statement.run(parameters as unknown[]),
  };
}

interface InBytes {
  readonly whole: string;
  /** Names of the columns that hold bytes. */
  readonly binary: ReadonlySet<string>;
}

const wrapped = new WeakMap<Database.Database, Map<string, InBytes>>();
/** Questions are few; those with lists of many lengths must not fill the memory. */
const mostWrapped = 1000;

/** The question with each text as its bytes. */
function inBytes(db: Database.Database, sql: string): InBytes {
  const known = wrapped.get(db) ?? new Map<string, InBytes>();
  wrapped.set(db, known);
  const found = known.get(sql);
  if (found !== undefined) return found;
  const columns = db.prepare(sql).columns();
  const parts = columns.map(({ name }) => {
    const column = `"${name.replaceAll('"', '""')}"`;
    return `case typeof(${column}) when 'text' then cast(${column} as blob) else ${column} end as ${column}`;
  });
  const made: InBytes = {
    whole: `select ${parts.join(", ")} from (${sql})`,
    binary: new Set(columns.filter(({ type }) => type?.toLowerCase() === "blob").map(({ name }) => name)),
  };
  if (known.size >= mostWrapped) known.clear();
  known.set(sql, made);
  return made;
}

/** Throws where a text is none. */
function decode(row: Record<string, unknown>, binary: ReadonlySet<string>): void {
  for (const name in row) {
    const value = row[name];
    if (!(value instanceof ArrayBuffer)) continue;
    const bytes = Buffer.from(value);
    if (binary.has(name)) row[name] = new Uint8Array(value);
    else if (isUtf8(bytes)) row[name] = bytes.toString("utf8");
    else throw new DamagedText(name);
  }
}

/** A text in the file is not UTF-8, so some of its bytes are not those that were written. */
class DamagedText extends Error {
  readonly code = "SQLITE_CORRUPT_TEXT";
  constructor(column: string) {
    super(`A text in the column ${column} is damaged.`);
    this.name = "DamagedText";
  }
}
