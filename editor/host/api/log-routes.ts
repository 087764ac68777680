// Routes of the log: who did what, and whether it is whole.
import { logList, logVerdict } from "../../../core/schemas/host.ts";
import { verifyLog } from "../database/verify.ts";
import {
  type Api,
  type HostParts,
  add,
  createRoute,
  json,
  pageQuery,
  hashParam,
  refusals,
  z,
} from "./routes.ts";

export function logRoutes(app: Api, { database, who }: HostParts): void {
  add(
    app,
    who,
    createRoute({
      method: "get",
      path: "/api/log",
      summary: "Who did what",
      request: { query: z.object({ ...pageQuery, before: z.coerce.number().int().min(1).optional() }) },
      responses: { 200: json(logList, "The newest first"), ...refusals },
    }),
    async (context) => {
      const { before, limit } = context.req.valid("query");
      const found = await database.db
        .selectFrom("log")
        .selectAll()
        .$if(before !== undefined, (q) => q.where("seq", "<", before!))
        .orderBy("seq", "desc")
        .limit(limit + 1)
        .execute();
      return context.json(
        {
          lines: found.slice(0, limit).map(({ seq, at, who: name, what, body, hash }) => ({
            seq,
            at,
            who: name,
            what,
            body: JSON.parse(body) as Record<string, unknown>,
            hash,
          })),
          more: found.length > limit,
        },
        200,
      );
    },
  );
  add(
    app,
    who,
    createRoute({
      method: "get",
      path: "/api/log/verify",
      summary: "Whether the log is whole and says the same as the shelf",
      request: {
        query: z.object({
          head: hashParam.optional().openapi({ description: "A newest hash that was noted earlier" }),
        }),
      },
      responses: { 200: json(logVerdict, "What was found"), ...refusals },
    }),
    async (context) => context.json(await verifyLog(database, context.req.valid("query").head), 200),
    { heavy: true },
  );
}
