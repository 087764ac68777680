// Routes of jobs: what tablets deliver, lists and searching, a card worked again, photographs.
import { promisify } from "node:util";
import { inflateRaw } from "node:zlib";
import { MAX_PHOTO_BYTES } from "../../../core/limits.ts";
import {
  agreement,
  answersList,
  delivered,
  entryList,
  jobFull,
  jobList,
  jobState,
  jobTrace,
  photoKept,
  refusal,
} from "../../../core/schemas/host.ts";
import { reworkCard } from "../engine-threads/rework-card.ts";
import {
  answersOf,
  deliver,
  entriesOf,
  fullJob,
  jobRecordOf,
  listJobs,
  traceOf,
} from "../database/job-table.ts";
import { keepPhoto, photoOf } from "../database/photos.ts";
import { Trouble } from "../trouble.ts";
import {
  type Api,
  type HostParts,
  add,
  createRoute,
  given,
  json,
  largestDelivery,
  pageQuery,
  hashParam,
  refusals,
  z,
} from "./routes.ts";

const inJob = z.object({ id: z.uuid() });
const inPhoto = z.object({ photo: hashParam });

// `deliver` checks them one by one: an entry that cannot be understood must not keep the others on the
// tablet.
const entries = z
  .array(z.unknown())
  .max(500)
  .openapi({
    type: "array",
    items: { $ref: "#/components/schemas/JobEntry" },
    maxItems: 500,
    description: "In any order. Each is looked at by itself: one that cannot be taken keeps no other back.",
  });

const picture = { schema: z.any().openapi({ type: "string", format: "binary" }) };
const pictures = { "image/jpeg": picture, "image/png": picture, "image/webp": picture };

const deliverEntries = createRoute({
  method: "post",
  path: "/api/jobs/entries",
  summary: "Delivers entries of jobs; each is taken once, however often it comes",
  request: {
    body: given(
      z.object({
        entries,
        sent: z.number().int().min(0).max(8.64e15).optional().openapi({
          description:
            "The device's clock as it delivers: compared with the host's and shown; it decides nothing",
        }),
      }),
    ),
  },
  responses: { 200: json(delivered, "What was taken is on the disk"), ...refusals },
});

const listJobsRoute = createRoute({
  method: "get",
  path: "/api/jobs",
  summary: "Jobs, searched by title, book, what was used, lots, notes and names",
  request: {
    query: z.object({
      ...pageQuery,
      search: z.string().max(200).optional(),
      book: z.string().max(200).optional(),
      state: jobState.optional(),
      before: z.string().max(100).optional().openapi({ description: "`next` of the page before" }),
    }),
  },
  responses: { 200: json(jobList, "The last changed first"), ...refusals },
});

const listAnswers = createRoute({
  method: "get",
  path: "/api/answers",
  summary: "The answers of many jobs, to weigh two books by them",
  request: {
    query: z.object({
      ...pageQuery,
      book: z.string().max(200).optional(),
      before: z.string().max(100).optional().openapi({ description: "`next` of the page before" }),
    }),
  },
  responses: { 200: json(answersList, "The last changed first"), ...refusals },
});

const readJob = createRoute({
  method: "get",
  path: "/api/jobs/{id}",
  summary: "A job with all that was recorded of it",
  request: { params: inJob },
  responses: { 200: json(jobFull, "As its entries make it"), ...refusals },
});

const readEntries = createRoute({
  method: "get",
  path: "/api/jobs/{id}/entries",
  summary: "Every entry of a job, with who delivered it and when",
  request: {
    params: inJob,
    query: z.object({
      ...pageQuery,
      skip: z.coerce.number().int().min(0).max(1_000_000_000).default(0),
    }),
  },
  responses: { 200: json(entryList, "In the order in which the host received them"), ...refusals },
});

const workAgain = createRoute({
  method: "get",
  path: "/api/jobs/{id}/again",
  summary: "Works the signed card again, now, by the book that it was made by",
  request: { params: inJob },
  responses: {
    200: json(agreement, "The same, or what differs"),
    ...refusals,
    422: json(refusal, "The engine came to no end"),
  },
});

const readTrace = createRoute({
  method: "get",
  path: "/api/jobs/{id}/trace",
  summary:
    "Why each value of the signed card came out as it did, as the host worked it when it was delivered",
  request: { params: inJob },
  responses: { 200: json(jobTrace, "Traces"), ...refusals },
});

const writePhoto = createRoute({
  method: "put",
  path: "/api/photos/{photo}",
  summary: "Keeps a photograph under the print of its bytes",
  request: { params: inPhoto, body: { required: true, content: pictures } },
  responses: {
    200: json(photoKept, "Kept, and on the disk"),
    ...refusals,
    422: json(refusal, "No photograph, or damaged on its way"),
  },
});

const readPhoto = createRoute({
  method: "get",
  path: "/api/photos/{photo}",
  summary: "A photograph",
  request: { params: inPhoto },
  responses: { 200: { content: pictures, description: "Its bytes" }, ...refusals },
});
export function jobRoutes(app: Api, parts: HostParts): void {
  const { database, who } = parts;
  add(
    app,
    who,
    deliverEntries,
    async (context) => {
      const { entries: delivery, sent } = context.req.valid("json");
      const outcome = await deliver(database, context.var.person, delivery, sent);
      parts.rework.poke();
      return context.json(outcome, 200);
    },
    { bytes: largestDelivery, lists: true },
  );

  add(app, who, listJobsRoute, async (context) =>
    context.json(await listJobs(database, context.req.valid("query")), 200),
  );

  add(app, who, listAnswers, async (context) =>
    context.json(await answersOf(database, context.req.valid("query")), 200),
  );

  add(app, who, readJob, async (context) =>
    context.json(await fullJob(database, context.req.valid("param").id), 200),
  );

  add(app, who, readEntries, async (context) => {
    const { skip, limit } = context.req.valid("query");
    return context.json(await entriesOf(database, context.req.valid("param").id, skip, limit), 200);
  });

  agreementRoutes(app, parts);
  photoRoutes(app, parts);
}

/** How a signed card comes out now, and why it came out as it did. */
function agreementRoutes(app: Api, { database, threads, who }: HostParts): void {
  add(
    app,
    who,
    workAgain,
    async (context) => {
      const job = await jobRecordOf(database, context.req.valid("param").id);
      const by = { who: context.var.person.name, signal: context.req.raw.signal };
      return context.json((await reworkCard(database, threads, job, by)).agreement, 200);
    },
    { heavy: true },
  );

  add(app, who, readTrace, async (context) => {
    const packed = await traceOf(database, context.req.valid("param").id);
    if (packed === undefined)
      throw new Trouble(
        404,
        "There is no trace of this job: it is not signed, or its book is not on the shelf.",
      );
    return context.json(
      jobTrace.parse(JSON.parse((await promisify(inflateRaw)(packed)).toString("utf8"))),
      200,
    );
  });
}

function photoRoutes(app: Api, { database, who }: HostParts): void {
  add(
    app,
    who,
    writePhoto,
    async (context) =>
      context.json(
        await keepPhoto(
          database,
          context.var.person.name,
          context.req.valid("param").photo,
          new Uint8Array(await context.req.arrayBuffer()),
        ),
        200,
      ),
    { bytes: MAX_PHOTO_BYTES },
  );
  add(app, who, readPhoto, async (context) => {
    const found = await photoOf(database, context.req.valid("param").photo);
    if (found === undefined) throw new Trouble(404, "Nobody has delivered this photograph yet.");
    const name = `${context.req.valid("param").photo.slice(0, 16)}.${found.type.slice(6)}`;
    return context.body(new Uint8Array(found.content), 200, {
      "Content-Type": found.type,
      "Cache-Control": "private, max-age=31536000, immutable",
      "Content-Disposition": `inline; filename="${name}"`,
      "Content-Security-Policy": "default-src 'none'; sandbox",
      "X-Content-Type-Options": "nosniff",
    });
  });
}
