// How routes are made here: each by its schemas, with its right from the table, its answers as JSON and its
// refusals as a sentence.
import { type OpenAPIHono, type RouteConfig, type RouteHandler, createRoute, z } from "@hono/zod-openapi";
import type { MiddlewareHandler } from "hono";
import { bodyLimit } from "hono/body-limit";
import { refusal } from "../../../core/schemas/host.ts";
import { unplainIn } from "../../../core/schemas/plain-text.ts";
import type { EngineThreads } from "../engine-threads/engine-threads.ts";
import type { Rework } from "../engine-threads/rework-card.ts";
import type { Database } from "../database/database.ts";
import type { Presence } from "./presence.ts";
import { type Need, needs } from "./rights.ts";
import { Trouble, refusalOf, unplain } from "../trouble.ts";
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
  429: json(refusal, "Too much at once; the sentence says what to wait for"),
  503: json(refusal, "The shelf cannot be written or read now"),
  507: json(refusal, "The disk is full; nothing of it was saved"),
} as const;

export interface Bounds {
  /** Of what is sent. */
  readonly bytes?: number;
  /** Takes long: only few at a time for one person. */
  readonly heavy?: boolean;
  /** Looks at each thing of a list by itself, also at its marks. */
  readonly lists?: boolean;
}

/** Long questions of one person at a time, and of all together. */
const mostHeavy = { person: 8, all: 64 } as const;

/** Refuses before anything of it is read. */
function fewAtOnce(): MiddlewareHandler<HostEnv> {
  const running = new Map<string, number>();
  let all = 0;
  return async (context, next) => {
    const who = context.var.person.id ?? context.var.person.name;
    const own = running.get(who) ?? 0;
    if (own >= mostHeavy.person)
      throw new Trouble(
        429,
        `${own} of your questions of this kind run already. Wait until one is answered.`,
      );
    if (all >= mostHeavy.all)
      throw new Trouble(429, "The host has too much to do just now. Try again in a minute.");
    running.set(who, own + 1);
    all += 1;
    try {
      await next();
    } finally {
      all -= 1;
      const left = running.get(who)! - 1;
      if (left === 0) running.delete(who);
      else running.set(who, left);
    }
  };
}

/** Refuses marks that no keyboard makes, behind the address and in what is sent. */
const plainOnly =
  (lists: boolean): MiddlewareHandler<HostEnv> =>
  async (context, next) => {
    const asked = unplainIn(context.req.query());
    if (asked !== undefined) throw unplain("the address");
    const isJson = context.req.header("content-type")?.startsWith("application/json") === true;
    if (isJson && !lists) {
      // What is no JSON is refused behind, with a sentence of its own.
      const found = unplainIn(await context.req.json().catch(() => undefined));
      if (found !== undefined) throw unplain(found.join("."));
    }
    return next();
  };

const heavyOnes = new WeakMap<Api, MiddlewareHandler<HostEnv>>();

/** Adds a route with the right that the table gives it, and with a bound on what may be sent. */
export function add<Route extends RouteConfig & { getRoutingPath(): string }>(
  app: Api,
  who: Who,
  route: Route,
  handler: RouteHandler<Route, HostEnv>,
  { bytes = 4096, heavy = false, lists = false }: Bounds = {},
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
  if (heavy) {
    const few = heavyOnes.get(app) ?? fewAtOnce();
    heavyOnes.set(app, few);
    app.on(route.method.toUpperCase(), path, few);
  }
  app.on(route.method.toUpperCase(), path, limit);
  app.on(route.method.toUpperCase(), path, plainOnly(lists));
  app.openapi(route, handler as never);
}

export const pageQuery = {
  limit: z.coerce.number().int().min(1).max(500).default(50).openapi({ description: "At most so many" }),
};
export const hashParam = z.string().regex(/^[0-9a-f]{64}$/, "a print is 64 hexadecimal digits");

export { createRoute, z };
