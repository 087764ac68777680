// Routes of books: drafts with their history, and sealed editions.
import { MAX_BOOK_BYTES, MAX_BUNDLE_BYTES } from "../../../core/limits.ts";
import {
  bookByPrint as bookFound,
  bookList,
  bookName,
  draft,
  draftConflict,
  draftHistory,
  draftSave,
  draftSaved,
  edition,
  editionLine,
  editionList,
  sealProgress,
  sealRefused,
  sealRequest,
  refusal,
  textKeep,
} from "../../../core/schemas/host.ts";
import { sealEdition, sealProgressOf } from "../engine-threads/sealing.ts";
import { draftOf, draftVersions, saveDraft, versionText } from "../database/draft-versions.ts";
import { editionOf, listBooks, listEditions } from "../database/editions.ts";
import { bookByHash, keepText } from "../database/texts.ts";
import { Trouble } from "../trouble.ts";
import {
  type Api,
  type HostParts,
  add,
  createRoute,
  given,
  json,
  pageQuery,
  hashParam,
  refusals,
  z,
} from "./routes.ts";

/** A text as JSON may be twice as long as itself, and more where it holds much that is escaped. */
const largestTextAsJson = 3 * MAX_BOOK_BYTES;
const largestBundleAsJson = 3 * MAX_BUNDLE_BYTES;
const inBook = z.object({ book: bookName });
const inHash = z.object({ print: hashParam });
const whole = (least: number) => z.coerce.number().int().min(least).max(1_000_000_000);
const listQuery = z.object({
  ...pageQuery,
  skip: whole(0).optional(),
  search: z.string().max(200).optional(),
});

const listBooksRoute = createRoute({
  method: "get",
  path: "/api/books",
  summary: "All books with their newest edition and their draft",
  responses: { 200: json(bookList, "By name"), ...refusals },
});

const readDraft = createRoute({
  method: "get",
  path: "/api/books/{book}/draft",
  summary: "The draft as it stands",
  request: { params: inBook },
  responses: { 200: json(draft, "The newest version"), ...refusals },
});

const writeDraft = createRoute({
  method: "put",
  path: "/api/books/{book}/draft",
  summary: "Saves the draft, if it was made from the newest version",
  request: { params: inBook, body: given(draftSave) },
  responses: {
    200: json(draftSaved, "Saved, and on the disk"),
    ...refusals,
    409: json(
      z.union([draftConflict, refusal]),
      "Someone saved in between: nothing is overwritten; both changes are given merged, " +
        "to be looked at and saved",
    ),
  },
});

const readHistory = createRoute({
  method: "get",
  path: "/api/books/{book}/draft/history",
  summary: "Every version that was saved",
  request: { params: inBook, query: z.object({ ...pageQuery, before: whole(1).optional() }) },
  responses: { 200: json(draftHistory, "The newest first"), ...refusals },
});

const readVersion = createRoute({
  method: "get",
  path: "/api/books/{book}/draft/history/{version}",
  summary: "The text of a version",
  request: { params: inBook.extend({ version: whole(1) }) },
  responses: { 200: json(z.object({ text: z.string() }), "As it was saved"), ...refusals },
});

const listAllEditions = createRoute({
  method: "get",
  path: "/api/editions",
  summary: "Sealed editions of all books",
  request: { query: listQuery },
  responses: { 200: json(editionList, "The newest first"), ...refusals },
});

const listBookEditions = createRoute({
  method: "get",
  path: "/api/books/{book}/editions",
  summary: "Sealed editions of a book",
  request: { params: inBook, query: listQuery },
  responses: { 200: json(editionList, "The newest first"), ...refusals },
});

const readEdition = createRoute({
  method: "get",
  path: "/api/books/{book}/editions/{number}",
  summary: "A sealed edition with its text",
  request: { params: inBook.extend({ number: whole(0) }) },
  responses: { 200: json(edition, "It never changes"), ...refusals },
});

const sealBook = createRoute({
  method: "post",
  path: "/api/books/{book}/editions",
  summary: "Seals a text as the next edition",
  request: { params: inBook, body: given(sealRequest) },
  responses: {
    201: json(editionLine, "Sealed; everyone is told at once"),
    ...refusals,
    409: json(refusal, "Its number is not above the last"),
    422: json(
      z.union([sealRefused, refusal]),
      "It has faults and no reason was given, or it is not this book",
    ),
  },
});

const readSealing = createRoute({
  method: "get",
  path: "/api/books/{book}/sealing",
  summary: "How far the sealing of a book is",
  request: { params: inBook },
  responses: { 200: json(sealProgress, "As of now"), ...refusals },
});

const readText = createRoute({
  method: "get",
  path: "/api/texts/{print}",
  summary: "A book by its print, with what it stands on",
  request: { params: inHash },
  responses: { 200: json(bookFound, "It never changes"), ...refusals },
});

const writeText = createRoute({
  method: "put",
  path: "/api/texts/{print}",
  summary:
    "Keeps the text of a book that a job was worked by, with what it stood on, " +
    "so that it can be worked again",
  request: { params: inHash, body: given(textKeep) },
  responses: {
    200: json(z.object({ known: z.boolean() }), "Kept"),
    ...refusals,
    422: json(refusal, "The text is not the one that the print names"),
  },
});
export function bookRoutes(app: Api, parts: HostParts): void {
  const { database, who } = parts;
  add(app, who, listBooksRoute, async (context) => context.json(await listBooks(database), 200));

  draftRoutes(app, parts);
  editionRoutes(app, parts);
  textRoutes(app, parts);
}

function draftRoutes(app: Api, { database, presence, who }: HostParts): void {
  add(app, who, readDraft, async (context) => {
    const { book } = context.req.valid("param");
    const found = await draftOf(database, book);
    if (found === undefined) throw new Trouble(404, `There is no draft of ${book}.`);
    return context.json({ ...found, open: presence.people(book) }, 200);
  });

  add(
    app,
    who,
    writeDraft,
    async (context) => {
      const saved = await saveDraft(
        database,
        context.var.person.name,
        context.req.valid("param").book,
        context.req.valid("json"),
      );
      return saved.is === "saved" ? context.json(saved.saved, 200) : context.json(saved.conflict, 409);
    },
    { bytes: largestTextAsJson },
  );

  add(app, who, readHistory, async (context) => {
    const { before, limit } = context.req.valid("query");
    return context.json(await draftVersions(database, context.req.valid("param").book, before, limit), 200);
  });

  add(app, who, readVersion, async (context) => {
    const { book, version } = context.req.valid("param");
    return context.json({ text: await versionText(database.db, book, version) }, 200);
  });
}

function editionRoutes(app: Api, { database, threads, rework, who, proofSeconds }: HostParts): void {
  add(app, who, listAllEditions, async (context) =>
    context.json(await listEditions(database, context.req.valid("query")), 200),
  );
  add(app, who, listBookEditions, async (context) =>
    context.json(
      await listEditions(database, { ...context.req.valid("query"), ...context.req.valid("param") }),
      200,
    ),
  );

  add(app, who, readEdition, async (context) => {
    const { book, number } = context.req.valid("param");
    return context.json(await editionOf(database, book, number), 200);
  });

  add(app, who, readSealing, (context) =>
    context.json(sealProgressOf(threads, context.req.valid("param").book), 200),
  );
  add(
    app,
    who,
    sealBook,
    async (context) => {
      const sealed = await sealEdition(database, threads, {
        who: context.var.person.name,
        book: context.req.valid("param").book,
        given: context.req.valid("json"),
        proofSeconds,
        signal: context.req.raw.signal,
      });
      if (sealed.is === "refused")
        return context.json({ says: sealed.says, faults: [...sealed.faults] }, 422);
      rework.poke();
      return context.json(sealed.edition, 201);
    },
    { bytes: largestTextAsJson, heavy: true },
  );
}

function textRoutes(app: Api, { database, rework, who }: HostParts): void {
  add(app, who, readText, async (context) => {
    const found = await bookByHash(database, context.req.valid("param").print);
    if (found === undefined) throw new Trouble(404, "The shelf has no book of this print.");
    return context.json(found, 200);
  });
  add(
    app,
    who,
    writeText,
    async (context) => {
      const fresh = await keepText(
        database,
        context.var.person.name,
        context.req.valid("param").print,
        context.req.valid("json").text,
      );
      if (fresh) rework.poke();
      return context.json({ known: !fresh }, 200);
    },
    { bytes: largestBundleAsJson },
  );
}
