// PostgreSQL, for fleets with many hosts. Hosts hear of each other's writes through the server.
import { PostgresDialect } from "kysely";
import pg from "pg";
import { troubleOf } from "./database-errors.ts";

/**
 * The channel of messages between hosts on one server; an empty message says that there is something new in
 * the log.
 */
export const channel = "bevelbook";

export interface ServerDatabase {
  readonly dialect: PostgresDialect;
  /** Tells all hosts, this one as well; a message has at most 7000 bytes. */
  send(message: string): Promise<void>;
  close(): Promise<void>;
}

/** Connects; `hear` is called with each host's messages. Throws what the server says. */
export async function openServerDatabase(
  address: string,
  hear: (message: string) => void,
): Promise<ServerDatabase> {
  // Whole numbers of 64 bits come as text otherwise; all of ours are below 2^53.
  const types = {
    getTypeParser: (id: number, format?: "text" | "binary") =>
      id === 20 ? (value: string) => Number(value) : pg.types.getTypeParser(id, format as "text"),
  } as pg.CustomTypesConfig;
  const pool = new pg.Pool({ connectionString: address, max: 10, connectionTimeoutMillis: 5000, types });
  // A connection that the server ends while nobody uses it is opened again when it is needed.
  pool.on("error", () => undefined);
  // One that is in use tells its question as well; without a listener the server's end would be the host's.
  pool.on("connect", (client) => {
    client.on("error", () => undefined);
  });
  let ended = false;
  let ear: pg.Client | undefined;
  const listen = async (): Promise<void> => {
    const client = new pg.Client({ connectionString: address, connectionTimeoutMillis: 5000 });
    client.on("notification", (message) => hear(message.payload ?? ""));
    let lost = false;
    const again = (): void => {
      if (lost || ended) return;
      lost = true;
      client.end().catch(() => undefined);
      setTimeout(() => {
        if (!ended)
          listen().then(
            () => hear(""),
            () => undefined,
          );
      }, 1000).unref();
    };
    client.on("error", again);
    client.on("end", again);
    try {
      await client.connect();
      await client.query(`LISTEN ${channel}`);
    } catch (cause) {
      if (ear === undefined) {
        lost = true;
        await client.end().catch(() => undefined);
        throw cause;
      }
      again();
      return;
    }
    ear = client;
  };
  try {
    await listen();
  } catch (cause) {
    ended = true;
    await pool.end();
    throw troubleOf(cause) ?? cause;
  }
  return {
    dialect: new PostgresDialect({ pool }),
    send: async (message) => {
      await pool.query("SELECT pg_notify($1, $2)", [channel, message]);
    },
    close: async () => {
      ended = true;
      await ear?.end().catch(() => undefined);
    },
  };
}
