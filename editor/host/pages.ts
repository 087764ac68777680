// The pages of the bench as built, from one folder, with the host's API beside them under /api.
import { serveStatic } from "@hono/node-server/serve-static";
import { Hono } from "hono";
import { getCookie } from "hono/cookie";
import { relative } from "node:path";
import { type Gate, cookieName, isOwnName, openGate } from "./api/who.ts";
import { safetyHeaders, strictTransport } from "./content-policy.ts";

/** Pages that are of use to those only whom the host knows. */
const behindTheGate = new Set(["/", "/index.html", "/job", "/job.html", "/people.html"]);

export interface PagesAt {
  readonly gate?: Gate;
  /**
   * Serves this machine only: asked for under another name, it gives nothing, so that no page of elsewhere
   * reads it by a name made to lead here.
   */
  readonly ownNameOnly?: boolean;
  /** Whether a browser that shows this token is signed in. */
  readonly isKnown?: (token: string) => Promise<boolean>;
}

/**
 * Serves the built pages in `folder`, as packed by the build where the browser takes that. Files whose name
 * holds a hash of their content may be kept by the browser for good.
 */
export function pagesApp(
  folder: string,
  api?: { fetch(request: Request, env: unknown): Response | Promise<Response> },
  { gate = openGate, ownNameOnly = false, isKnown }: PagesAt = {},
): Hono {
  const app = new Hono();
  app.use(async (context, next) => {
    await next();
    for (const [name, value] of Object.entries(safetyHeaders)) {
      if (!context.res.headers.has(name)) context.res.headers.set(name, value);
    }
    if (gate.secure) context.res.headers.set(...strictTransport);
    const lasting = context.req.path.startsWith("/assets/") && context.res.ok;
    if (!context.res.headers.has("Cache-Control"))
      context.res.headers.set("Cache-Control", lasting ? "public, max-age=31536000, immutable" : "no-cache");
  });
  if (ownNameOnly)
    app.use(async (context, next) =>
      isOwnName(context.req.header("host"))
        ? next()
        : context.json({ says: "The host serves its own machine only, as localhost." }, 421),
    );
  // The pages hold nothing of the shop; whoever is not known is led to where they sign in, and back. What a
  // page fetches by itself (its worker, without a network) is not led away.
  if (gate.asked)
    app.use(async (context, next) => {
      const wants = context.req.header("sec-fetch-dest");
      if (!behindTheGate.has(context.req.path) || (wants !== undefined && wants !== "document"))
        return next();
      const token = getCookie(context, cookieName(gate));
      if (token !== undefined && (await isKnown?.(token)) === true) return next();
      return context.redirect(
        `/sign-in.html?back=${encodeURIComponent(context.req.path + new URL(context.req.url).search)}`,
      );
    });
  if (api !== undefined) app.all("/api/*", (context) => api.fetch(context.req.raw, context.env));
  app.get("/job", (context) => context.redirect("/job.html"));
  // The library takes its folder from the place where the process runs.
  app.use(serveStatic({ root: relative(process.cwd(), folder) || ".", precompressed: true }));
  app.notFound((context) =>
    context.text(
      "There is nothing at this address. The workbench is at / and the job page at /job.html.",
      404,
    ),
  );
  return app;
}
