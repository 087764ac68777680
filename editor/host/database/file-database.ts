// The embedded database: one file, written through a log beside it (WAL) and brought to the disk before a
// save is acknowledged.
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
      return plain(db.prepare(sql));
    },
  };
}

function plain(statement: Database.Statement): Statement {
  return {
    reader: statement.reader,
    all: (parameters) => statement.all(parameters as unknown[]).map(withBytes),
    iterate: (parameters) => statement.iterate(parameters as unknown[]) as IterableIterator<unknown>,
    run: (parameters) => statement.run(parameters as unknown[]),
  };
}

function withBytes(row: unknown): unknown {
  const values = row as Record<string, unknown>;
  for (const name in values)
    if (values[name] instanceof ArrayBuffer) values[name] = new Uint8Array(values[name] as ArrayBuffer);
  return row;
}
