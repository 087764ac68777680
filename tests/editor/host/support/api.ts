// The host's API asked without a socket: a shelf in a place, the engine, and whoever asks.
import { hostApi } from "../../../../editor/host/api/app.ts";
import { type Presence, openPresence } from "../../../../editor/host/api/presence.ts";
import type { Person } from "../../../../editor/host/api/who.ts";
import { type Rework, reworkSigned } from "../../../../editor/host/engine-threads/rework-card.ts";
import type { EngineThreads } from "../../../../editor/host/engine-threads/engine-threads.ts";
import {
  type Database,
  type DatabasePlace,
  openDatabase,
} from "../../../../editor/host/database/database.ts";

interface Asked {
  readonly status: number;
  // biome-ignore lint/suspicious/noExplicitAny: a test says what it expects of a body, field by field.
  readonly body: any;
  readonly headers: Headers;
}

export interface TestHost {
  readonly database: Database;
  readonly rework: Rework;
  readonly presence: Presence;
  /** Asks as `by`; a body is sent as JSON. */
  ask(method: "GET" | "PUT" | "POST", path: string, body?: unknown, by?: Person): Promise<Asked>;
  raw(path: string, init?: RequestInit): Promise<Response>;
  close(): Promise<void>;
}

export const lead: Person = { name: "Ilse Marrow", role: "lead" };

/** `desk` may be shared among hosts; it is closed by whoever opened it. */
export async function testHost(
  place: DatabasePlace,
  threads: EngineThreads,
  proofSeconds = 20,
): Promise<TestHost> {
  const database = await openDatabase(place);
  const rework = reworkSigned(database, threads);
  const presence = openPresence(database);
  const person: Person | undefined = lead;
  const api = hostApi({
    database,
    threads,
    rework,
    presence,
    proofSeconds,
    who: (context) => {
      const named = context.req.header("x-test-person");
      return named === undefined ? person : named === "nobody" ? undefined : (JSON.parse(named) as Person);
    },
  });
  return {
    database,
    rework,
    presence,
    ask: async (method, path, body, by = lead) => {
      const answer = await api.request(path, {
        method,
        headers: {
          "X-Test-Person": JSON.stringify(by),
          ...(body === undefined ? {} : { "Content-Type": "application/json" }),
        },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      });
      return { status: answer.status, body: await answer.json(), headers: answer.headers };
    },
    raw: async (path, init) => api.request(path, init),
    close: async () => {
      presence.close();
      await rework.idle();
      await database.close();
    },
  };
}
