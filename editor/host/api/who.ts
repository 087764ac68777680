// Who asks. Everything that the host does for someone goes through `who`, and each route says in one table what a person must be.
import { getConnInfo } from "@hono/node-server/conninfo";
import type { Context, MiddlewareHandler } from "hono";
import type { Role } from "../../../core/schemas/host.ts";
import { Trouble } from "../shelf/troubles.ts";

export interface Person { readonly name: string; readonly role: Role }
/** The person behind a request; undefined for nobody that is known. */
export type Who = (context: Context) => Person | undefined | Promise<Person | undefined>;

export interface HostEnv { Variables: { person: Person } }

/** A browser on this machine is the shop's own desk, which may do all. Others are nobody. */
export const thisDesk: Who = (context) => (fromThisMachine(context) ? { name: "this desk", role: "lead" } : undefined);

/** By the connection and by the name that was asked for: a page of elsewhere whose name was made to lead here is not this machine, nor is one behind a forwarding server. */
export function fromThisMachine(context: Context): boolean {
  if (context.req.header("x-forwarded-for") !== undefined || context.req.header("forwarded") !== undefined) return false;
  let address: string | undefined;
  try {
    address = getConnInfo(context).remote.address;
  } catch {
    return false;
  }
  const local = address !== undefined && (address === "::1" || /^(::ffff:)?127\./.test(address));
  return local && /^(localhost|127\.\d+\.\d+\.\d+|\[::1\])(:\d+)?$/.test(context.req.header("host") ?? "");
}

const rank: Readonly<Record<Role, number>> = { technician: 1, yard: 2, lead: 3 };

/** Lets through who is at least `role`, and keeps the person for the route. */
export function allow(who: Who, role: Role): MiddlewareHandler<HostEnv> {
  return async (context, next) => {
    const person = await who(context);
    if (person === undefined) throw new Trouble(401, "The host does not know who you are. It serves the browsers of its own machine.");
    if (rank[person.role] < rank[role]) throw new Trouble(403, `This needs a ${role}; ${person.name} is a ${person.role}.`);
    context.set("person", person);
    return next();
  };
}

/** A page of another place may not have a browser write here: browsers say in `Origin` which page asks. */
export const sameOrigin: MiddlewareHandler = async (context, next) => {
  const origin = context.req.header("origin");
  if (origin !== undefined && !["GET", "HEAD", "OPTIONS"].includes(context.req.method)) {
    const host = URL.canParse(origin) ? new URL(origin).host : "";
    if (host !== context.req.header("host")) throw new Trouble(403, "A page of another place may not write here.");
  }
  return next();
};
