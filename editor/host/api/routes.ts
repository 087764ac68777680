// How routes are made here: each by its schemas, with its right from the table, its answers as JSON and its
// refusals as a sentence.
import { type OpenAPIHono, type RouteConfig, type RouteHandler, createRoute, z } from "@hono/zod-openapi";
import { bodyLimit } from "hono/body-limit";
import { refusal } from "../../../core/schemas/host.ts";
import type { EngineThreads } from "../engine-threads/engine-threads.ts";
import type { Rework } from "../engine-threads/rework-card.ts";
import type { Database } from "../database/database.ts";
import type { Presence } from "./presence.ts";
import { type Need, needs } from "./rights.ts";
import { refusalOf } from "../trouble.ts";
import { type Gate, type HostEnv, type Who, allow } from "./who.ts";

export interface HostParts {
  readonly database: Database;
  readonly threads: EngineThreads;
  readonly rework: Rework;
  readonly presence: Presence;
  readonly who: Who;
  /** Seconds that a proof may take before a book is sealed. */
  readonly proofSeconds: number;
  /** How people come in; absent where nobody is asked. */
  readonly gate?: Gate;
  /** Milliseconds between two signs of life of a page that listens; 20 s unless a test has its own. */
  readonly beat?: number;
}

export type Api = OpenAPIHono<HostEnv>;

/** Bytes of a delivery of entries. */
export const largestDelivery = 16 * 1024 * 1024;

export const json = <Schema extends z.ZodType>(schema: Schema, description: string) => ({
  content: { "application/json": { schema } },
  description,
});
export const given = <Schema extends z.ZodType>(schema: Schema) => ({
  required: true,
  content: { "application/json": { schema } },
});

/** Every route can refuse; the sentence says why. */
export const refusals = {
  400: json(refusal, "What was sent cannot be understood"),
  401: json(refusal, "Nobody that the host knows"),
  403: json(refusal, "Not for this person"),
  404: json(refusal, "There is none"),
  413: json(refusal, "Too large"),
  503: json(refusal, "The shelf cannot be written or read now"),
  507: json(refusal, "The disk is full; nothing of it was saved"),
} as const;

/** Adds a route with the right that the table gives it, and with a bound on what may be sent. */
export function add<Route extends RouteConfig & { getRoutingPath(): string }>(
  app: Api,
  who: Who,
  route: Route,
  handler: RouteHandler<Route, HostEnv>,
  bytes = 4096,
): void {
  const key = `${route.method} ${route.path}` as Need;
  const need = needs[key];
  if (need === undefined) throw new Error(`The table of rights says nothing of ${key}.`);
  const limit = bodyLimit({
    maxSize: bytes,
    onError: (context) => context.json(refusalOf("too-large", { bytes }), 413),
  });
  const path = route.path.replace(/\{(\w+)\}/g, ":$1");
  if (need !== "anyone") app.on(route.method.toUpperCase(), path, allow(who, need));
  app.on(route.method.toUpperCase(), path, limit);
  app.openapi(route, handler as never);
}

export const pageQuery = {
  limit: z.coerce.number().int().min(1).max(500).default(50).openapi({ description: "At most so many" }),
};
export const hashParam = z.string().regex(/^[0-9a-f]{64}$/, "a print is 64 hexadecimal digits");

export { createRoute, z };
