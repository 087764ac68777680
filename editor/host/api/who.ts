// Who asks. Everything that the host does for someone goes through `who`, and each route says in one table
// what a person must be.
import { isIP } from "node:net";
import { getConnInfo } from "@hono/node-server/conninfo";
import type { Context, MiddlewareHandler } from "hono";
import { getCookie } from "hono/cookie";
import type { Role } from "../../../core/schemas/host.ts";
import { personOf } from "../people/accounts.ts";
import type { Database } from "../database/database.ts";
import { trouble } from "../trouble.ts";

/** `id` for those who sign in; the shop's own desk has none. */
export interface Person {
  readonly name: string;
  readonly role: Role;
  readonly id?: string;
}
/** The person behind a request; undefined for nobody that is known. */
export type Who = (context: Context) => Person | undefined | Promise<Person | undefined>;

/** How people come in: whether they are asked at all, and whether the line is encrypted. */
export interface Gate {
  readonly asked: boolean;
  readonly secure: boolean;
  /** Host, and port if it is not the usual one, by which browsers come where a server in front forwards. */
  readonly publicHost?: string;
  /** Addresses of the servers in front, whose word on who asks is taken. */
  readonly forwarders?: ReadonlySet<string>;
}
export const openGate: Gate = { asked: false, secure: false };

export interface HostEnv {
  Variables: { person: Person };
}

/** A browser on this machine is the shop's own desk, which may do everything. Others are nobody. */
export const thisDesk: Who = (context) =>
  fromThisMachine(context) ? { name: "this desk", role: "lead" } : undefined;

/** Whoever has a session. Listening to events alone does not keep one alive. */
export const bySession =
  (database: Database, gate: Gate): Who =>
  async (context) => {
    const token = tokenOf(context, gate);
    return token === undefined ? undefined : personOf(database, token, context.req.path !== "/api/events");
  };

/**
 * A browser takes a cookie of the prefix only over an encrypted line, from this host alone and for all of it
 * (RFC 6265bis, 4.1.3.2).
 */
export const cookieName = ({ secure }: Gate): string => (secure ? "__Host-bevelbook" : "bevelbook");
export const tokenOf = (context: Context, gate: Gate): string | undefined => {
  const token = getCookie(context, cookieName(gate));
  return token !== undefined && /^[\w-]{43}$/.test(token) ? token : undefined;
};

/**
 * By the connection and by the name that was asked for: a page of elsewhere whose name was made to lead here
 * is not this machine, nor is one behind a forwarding server.
 */
export function fromThisMachine(context: Context): boolean {
  if (context.req.header("x-forwarded-for") !== undefined || context.req.header("forwarded") !== undefined)
    return false;
  const address = remoteOf(context);
  const local = address !== undefined && (address === "::1" || /^(::ffff:)?127\./.test(address));
  return local && isOwnName(context.req.header("host"));
}

/** `localhost:4173` and its like. */
export const isOwnName = (host: string | undefined): boolean =>
  /^(localhost|127\.\d+\.\d+\.\d+|\[::1\])(:\d+)?$/.test(host ?? "");

function remoteOf(context: Context): string | undefined {
  try {
    return getConnInfo(context).remote.address;
  } catch {
    return undefined;
  }
}

/**
 * The address that failed sign-ins are counted by; of a long one the half that identifies a line, since its
 * owner has all of the rest. Behind a trusted forwarding server it is the last one in its list that is not
 * such a server itself: what stands before that anybody can have written.
 */
export function addressOf(context: Context, { forwarders = new Set() }: Gate = openGate): string {
  let address = plainAddress(remoteOf(context) ?? "unknown");
  const list = (context.req.header("x-forwarded-for") ?? "").split(",").slice(-mostForwarders);
  while (forwarders.has(address)) {
    const before = list.pop()?.trim();
    if (before === undefined || isIP(plainAddress(before)) === 0) break;
    address = plainAddress(before);
  }
  return address.includes(":") ? address.split(":").slice(0, 4).join(":") : address;
}

const mostForwarders = 20;
const plainAddress = (address: string): string => address.replace(/^::ffff:/, "");

const rank: Readonly<Record<Role, number>> = { viewer: 1, technician: 2, lead: 3 };

/** Lets through who is at least `role`, and keeps the person for the route. */
export function allow(who: Who, role: Role): MiddlewareHandler<HostEnv> {
  return async (context, next) => {
    const person = await who(context);
    if (person === undefined) throw trouble("not-signed-in");
    if (rank[person.role] < rank[role])
      throw trouble("role-too-low", { name: person.name, role: person.role, needed: role });
    context.set("person", person);
    return next();
  };
}

/**
 * A page of another place may not have a browser write here: browsers say in `Origin` and `Sec-Fetch-Site`
 * which page asks.
 */
export const sameOrigin =
  ({ secure, publicHost }: Gate): MiddlewareHandler =>
  async (context, next) => {
    if (!["GET", "HEAD", "OPTIONS"].includes(context.req.method)) {
      const origin = context.req.header("origin");
      const url = origin !== undefined && URL.canParse(origin) ? new URL(origin) : undefined;
      const site = context.req.header("sec-fetch-site");
      const elsewhere =
        (origin !== undefined &&
          (url === undefined ||
            url.host !== (publicHost ?? context.req.header("host")) ||
            (secure && url.protocol !== "https:"))) ||
        (site !== undefined && site !== "same-origin");
      if (elsewhere) throw trouble("other-origin");
    }
    return next();
  };
