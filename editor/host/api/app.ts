// The host's API: all routes, its own description, and one way to refuse. Schemas are shared with the bench
// (core/schemas).
import { OpenAPIHono, createRoute } from "@hono/zod-openapi";
import { HTTPException } from "hono/http-exception";
import { MAX_BOOK_BYTES, MAX_PHOTO_BYTES } from "../../../core/limits.ts";
import { health, hello, hostEvent } from "../../../core/schemas/host.ts";
import { jobEntry } from "../../../core/schemas/record.ts";
import { engineVersion } from "../../../engine/index.ts";
import { troubleOf } from "../database/database-errors.ts";
import { refusalOf } from "../trouble.ts";
import { bookRoutes } from "./book-routes.ts";
import { eventRoutes } from "./event-routes.ts";
import { jobRoutes } from "./job-routes.ts";
import { logRoutes } from "./log-routes.ts";
import { peopleRoutes } from "./people-routes.ts";
import { type Api, type HostParts, add, json, largestDelivery, refusals } from "./routes.ts";
import { type HostEnv, openGate, sameOrigin } from "./who.ts";

const sayHello = createRoute({
  method: "get",
  path: "/api/hello",
  summary: "What this host is, and who you are to it",
  responses: { 200: json(hello, "Hello"), ...refusals },
});

const sayHealth = createRoute({
  method: "get",
  path: "/api/health",
  summary: "Whether the host can read its data, for whoever watches over it; says nothing of the shop",
  responses: { 200: json(health, "It can"), ...refusals },
});

export function hostApi(parts: HostParts): Api {
  const app = emptyApi();
  // What the host answers is for the one who asked: no server in between keeps it.
  app.use(async (context, next) => {
    await next();
    if (!context.res.headers.has("Cache-Control")) context.res.headers.set("Cache-Control", "no-store");
  });
  app.use(sameOrigin(parts.gate ?? openGate));
  // Copies: a schema that was made before the library of descriptions was loaded cannot be given a name.
  app.openAPIRegistry.register("JobEntry", jobEntry.clone());
  app.openAPIRegistry.register("HostEvent", hostEvent.clone());
  add(app, parts.who, sayHello, (context) =>
    context.json(
      {
        program: "bevelbook" as const,
        engine: engineVersion,
        you: { name: context.var.person.name, role: context.var.person.role },
        asked: parts.gate?.asked === true,
        largest: { text: MAX_BOOK_BYTES, photo: MAX_PHOTO_BYTES, entries: largestDelivery },
      },
      200,
    ),
  );
  add(app, parts.who, sayHealth, async (context) => {
    await parts.database.db.selectFrom("log").select("seq").orderBy("seq", "desc").limit(1).execute();
    return context.json({ well: true as const, lost: parts.database.lost !== undefined }, 200);
  });
  bookRoutes(app, parts);
  jobRoutes(app, parts);
  logRoutes(app, parts);
  eventRoutes(app, parts);
  peopleRoutes(app, parts);
  describe(app);
  return app;
}

/** Without routes; what goes wrong becomes a sentence. */
function emptyApi(): Api {
  const app: Api = new OpenAPIHono<HostEnv>({
    defaultHook: (result, context) => {
      if (result.success) return undefined;
      const { issues } = result.error;
      const detail = issues
        .map((issue) => [issue.path.join("."), issue.message].filter((part) => part !== "").join(": "))
        .join("; ");
      const fields = issues.map((issue) => issue.path.join("."));
      return context.json(refusalOf("not-understood", { detail: `${detail.slice(0, 500)}.`, fields }), 400);
    },
  });
  app.onError((cause, context) => {
    const found = troubleOf(cause);
    if (found !== undefined) return context.json(found.refusal, found.status);
    if (cause instanceof HTTPException)
      return context.json(
        cause.status === 400
          ? refusalOf("not-understood", {
              detail: "it is not JSON of the kind that is asked for.",
              fields: [],
            })
          : { says: cause.message || "This cannot be done." },
        cause.status,
      );
    // A fault of the program: the details go to the host's own output, not to the page.
    console.error(cause);
    return context.json(refusalOf("host-fault"), 500);
  });
  app.notFound((context) =>
    context.json(
      { says: "The host has nothing at this address. What it has is written down at /api/openapi.json." },
      404,
    ),
  );
  return app;
}

/** The API's own description, for anyone: it holds nothing of the shop. */
function describe(app: Api): void {
  let document: unknown;
  app.get("/api/openapi.json", (context) => {
    document ??= app.getOpenAPI31Document({
      openapi: "3.1.0",
      info: {
        title: "Bevelbook: the shop's host",
        version: "1",
        description: "Every refusal is JSON with a sentence in `says`. Times are milliseconds since 1970.",
      },
    });
    return context.json(document as object);
  });
}
