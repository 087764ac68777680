// A host that serves a network, asked without a socket: people, sessions and pages as over the wire, and a
// certificate made for the test.
import { execFileSync } from "node:child_process";
import { createHash, randomBytes } from "node:crypto";
import { join } from "node:path";
import { hostApi } from "../../../../editor/host/api/app.ts";
import { openPresence } from "../../../../editor/host/api/presence.ts";
import { bySession } from "../../../../editor/host/api/who.ts";
import { reworkSigned } from "../../../../editor/host/engine-threads/rework-card.ts";
import type { EngineThreads } from "../../../../editor/host/engine-threads/engine-threads.ts";
import { pagesApp } from "../../../../editor/host/pages.ts";
import { personOf } from "../../../../editor/host/people/accounts.ts";
import {
  type Database,
  type DatabasePlace,
  openDatabase,
} from "../../../../editor/host/database/database.ts";
import { tokenName } from "../../../../editor/host/database/log-chain.ts";
import type { Role } from "../../../../core/schemas/host.ts";
import { freshFolder } from "./places.ts";

export const own = "https://shop.example";
export const nameless = "__Host-bevelbook";
/** For tests only. */
export const phrase = "seven dry cloths on a rail";

interface Said {
  readonly status: number;
  // biome-ignore lint/suspicious/noExplicitAny: a test says what it expects of a body, field by field.
  readonly body: any;
  readonly headers: Headers;
  readonly token: string | undefined;
}
export interface NetworkHost {
  readonly database: Database;
  readonly api: ReturnType<typeof hostApi>;
  ask(
    method: string,
    path: string,
    body?: unknown,
    token?: string,
    headers?: Record<string, string>,
  ): Promise<Said>;
  raw(path: string, init?: RequestInit): Promise<Response>;
  /** A session in the database for the person of this role, who is made if need be. */
  session(role: Role): Promise<string>;
  close(): Promise<void>;
}

export async function networkHost(
  place: DatabasePlace,
  threads: EngineThreads,
  folder = freshFolder(),
  beat?: number,
): Promise<NetworkHost> {
  const database = await openDatabase(place);
  const gate = { asked: true, secure: true };
  const rework = reworkSigned(database, threads);
  const presence = openPresence(database);
  const api = hostApi({
    database,
    threads,
    rework,
    presence,
    proofSeconds: 0,
    who: bySession(database, gate),
    gate,
    ...(beat === undefined ? {} : { beat }),
  });
  const app = pagesApp(folder, api, {
    gate,
    isKnown: async (token) => (await personOf(database, token, false)) !== undefined,
  });
  const raw = async (path: string, init?: RequestInit) => app.request(`${own}${path}`, init);
  return {
    database,
    api,
    raw,
    ask: async (method, path, body, token, headers = {}) => {
      const answer = await raw(path, {
        method,
        headers: {
          host: "shop.example",
          ...(token === undefined ? {} : { Cookie: `${nameless}=${token}` }),
          ...(body === undefined ? {} : { "Content-Type": "application/json" }),
          ...headers,
        },
        ...(body === undefined ? {} : { body: typeof body === "string" ? body : JSON.stringify(body) }),
      });
      return read(answer);
    },
    session: (role) => sessionOf(database, role),
    close: async () => {
      presence.close();
      await rework.idle();
      await database.close();
    },
  };
}

/** What the host answered; a stream of events is closed at once. */
async function read(answer: Response): Promise<Said> {
  const stream = answer.headers.get("content-type")?.startsWith("text/event-stream") === true;
  if (stream) await answer.body?.cancel();
  const text = stream ? "{}" : await answer.text();
  return {
    status: answer.status,
    body: text.startsWith("{") ? JSON.parse(text) : text,
    headers: answer.headers,
    token: new RegExp(`${nameless}=([\\w-]{43})`).exec(answer.headers.get("set-cookie") ?? "")?.[1],
  };
}

const personIds: Readonly<Record<Role, string>> = {
  lead: "00000000-0000-4000-8000-000000000001",
  technician: "00000000-0000-4000-8000-000000000002",
  viewer: "00000000-0000-4000-8000-000000000003",
};

/** The token of a new session for the person of this role, who is made if need be. */
async function sessionOf(database: Database, role: Role): Promise<string> {
  const id = personIds[role];
  const token = randomBytes(32).toString("base64url");
  await database.write(`the ${role}`, async (tx, log, at) => {
    const known = await tx.selectFrom("people").select("id").where("id", "=", id).executeTakeFirst();
    if (known === undefined) await log("joined", { role, id });
    await tx
      .insertInto("people")
      .values({ id, name: `the ${role}`, name_key: `the ${role}`, role, password: "none", made: at })
      .onConflict((on) => on.column("id").doNothing())
      .execute();
    const hash = createHash("sha256").update(token).digest("hex");
    await tx
      .insertInto("sessions")
      .values({ token: hash, person: id, begun: at, seen: at, device: "" })
      .execute();
    await log("signed in", { token: tokenName(hash) });
  });
  return token;
}

/** A certificate that signs itself, and its key. */
export function selfMade(more: readonly string[] = ["-days", "2"]): {
  readonly cert: string;
  readonly key: string;
} {
  const folder = freshFolder();
  const [cert, key] = [join(folder, "cert.pem"), join(folder, "key.pem")];
  execFileSync(
    "openssl",
    [
      "req",
      "-x509",
      "-newkey",
      "ec",
      "-pkeyopt",
      "ec_paramgen_curve:prime256v1",
      "-nodes",
      "-keyout",
      key,
      "-out",
      cert,
      "-subj",
      "/CN=localhost",
      "-addext",
      "subjectAltName=DNS:localhost",
      ...more,
    ],
    { stdio: "ignore" },
  );
  return { cert, key };
}
