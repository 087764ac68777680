// The pages of the bench as built, from one folder, with the host's API beside them under /api.
import { serveStatic } from "@hono/node-server/serve-static";
import { Hono } from "hono";
import { relative } from "node:path";
import { safetyHeaders } from "./policy.ts";

/** Serves the built pages in `folder`, as packed by the build where the browser takes that. Files whose name holds a print of their content may be kept by the browser for good. */
export function pagesApp(folder: string, api?: { fetch(request: Request, env: unknown): Response | Promise<Response> }): Hono {
  const app = new Hono();
  app.use(async (context, next) => {
    await next();
    for (const [name, value] of Object.entries(safetyHeaders)) context.res.headers.set(name, value);
    const lasting = context.req.path.startsWith("/assets/") && context.res.ok;
    if (!context.res.headers.has("Cache-Control")) context.res.headers.set("Cache-Control", lasting ? "public, max-age=31536000, immutable" : "no-cache");
  });
  if (api !== undefined) app.all("/api/*", (context) => api.fetch(context.req.raw, context.env));
  app.get("/job", (context) => context.redirect("/job.html"));
  // The library takes its folder from the place where the process runs.
  app.use(serveStatic({ root: relative(process.cwd(), folder) || ".", precompressed: true }));
  app.notFound((context) => context.text("There is nothing at this address. The workbench is at / and the job page at /job.html.", 404));
  return app;
}
