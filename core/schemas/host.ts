// What goes between the bench and the shop's host: one schema for both sides. Times are milliseconds since
// 1970, by the host's clock unless said otherwise; a print is SHA-256 in hexadecimal.
import { z } from "zod";
import { MAX_BOOK_BYTES, MAX_BUNDLE_BYTES, exceedsBytes, mebibytes } from "../limits.ts";
import { bookRef, cardRecord, jobEntry, print, received } from "./record.ts";

const time = z.number().int().describe("Milliseconds since 1970");
export const bookName = z
  .string()
  .regex(/^[a-z][a-z0-9-]{0,99}$/, "A book's name is of small letters, digits and hyphens")
  .describe("The name that the book gives itself");
/** A text of at most so many bytes of UTF-8; the description of the API knows a bound in characters only. */
const textOfBytes = (most: number) =>
  z
    .string()
    .max(most)
    .refine((text) => !exceedsBytes(text, most), `A text of at most ${mebibytes(most)}`);
const bookText = textOfBytes(MAX_BOOK_BYTES);

export const refusal = z.object({
  says: z.string().describe("What is wrong, in a sentence"),
  code: z.string().optional().describe("Which refusal it is, for a page that says it in another language"),
  values: z.record(z.string(), z.unknown()).optional().describe("What the sentence names"),
});

const role = z
  .enum(["lead", "technician", "viewer"])
  .describe(
    "Who may do what: a viewer reads all but the log, a technician works jobs and " +
      "delivers them, a lead changes drafts, seals, and looks after people and the log",
  );
export const hello = z.object({
  program: z.literal("bevelbook"),
  engine: z.string().describe("Version of the engine that the host works with"),
  you: z.object({ name: z.string(), role }),
  asked: z.boolean().describe("Whether people sign in here"),
  largest: z.object({ text: z.number().int(), photo: z.number().int(), entries: z.number().int() }),
});

export const health = z.object({
  well: z.literal(true),
  lost: z.boolean().describe("Lines of the log were lost: see the log"),
});

const bookLine = z.object({
  name: z.string(),
  title: z.string(),
  edition: z
    .object({
      number: z.number().int(),
      print,
      at: time,
      faults: z.number().int().describe("Faults that it was sealed with"),
    })
    .optional()
    .describe("The newest sealed edition"),
  draft: z.object({ version: z.number().int(), who: z.string(), at: time }).optional(),
});
export const bookList = z.object({ books: z.array(bookLine) });

// ───────────── drafts ─────────────

const openBy = z.object({ who: z.string(), device: z.string() });
export const draft = z.object({
  book: z.string(),
  version: z.number().int(),
  text: z.string(),
  print,
  who: z.string(),
  at: time,
  open: z.array(openBy).describe("Who has it open, by the events that they listen to"),
});
export const draftSave = z.object({
  base: z.number().int().min(0).describe("The version that was changed; 0 for a new book"),
  text: bookText,
  device: z.string().max(200).optional(),
});
export const draftSaved = z.object({ version: z.number().int(), print, at: time });
const clash = z
  .object({ base: z.string(), mine: z.string(), theirs: z.string() })
  .describe("One statement that both changed; the merged text has both, theirs first");
export const draftConflict = z.object({
  says: z.string(),
  theirs: z.object({ version: z.number().int(), text: z.string(), who: z.string(), at: time }),
  merged: z
    .string()
    .describe("Both changes together, statement by statement; save it with their version as base"),
  clashes: z.array(clash),
});
const draftVersion = z.object({
  version: z.number().int(),
  who: z.string(),
  at: time,
  print,
  added: z.number().int().describe("Characters"),
  removed: z.number().int(),
});
export const draftHistory = z.object({
  versions: z.array(draftVersion).describe("The newest first"),
  more: z.boolean(),
});

// ───────────── editions ─────────────

const fault = z.object({
  is: z
    .enum(["error", "example", "promise", "not settled"])
    .describe(
      "An error in the text; a worked example that fails; a promise broken by a job; one " +
        "that was not proved in the time given",
    ),
  says: z.string(),
  line: z.number().int().optional(),
});
const verificationSummary = z.object({
  goals: z.number().int(),
  proved: z.number().int(),
  done: z.boolean().describe("False when the time was over before all was looked at"),
  engine: z.string(),
  fingerprint: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .optional()
    .describe(
      "Of its content and of everything that it depends on, as the engine computes it; " +
        "absent for editions sealed by earlier hosts",
    ),
});
export const editionLine = z.object({
  book: z.string(),
  number: z.number().int(),
  title: z.string(),
  print,
  who: z.string(),
  at: time,
  why: z.string(),
  stands: z.array(bookRef).describe("The books that it depends on"),
  standing: verificationSummary,
  faults: z.array(fault).describe("What it was sealed in spite of"),
  reason: z.string().optional().describe("Why it was sealed in spite of that"),
});
export const edition = editionLine.extend({ text: z.string() });
export const editionList = z.object({
  editions: z.array(editionLine).describe("The newest first"),
  more: z.boolean(),
});
export const sealRequest = z.object({
  text: bookText,
  why: z.string().min(1).max(4000).describe("What is new, for those who work by it"),
  reason: z
    .string()
    .max(4000)
    .optional()
    .describe("Needed where the book has faults: why it is sealed in spite of them"),
});
/** A book by its print. */
export const bookByPrint = z.object({
  text: z.string(),
  under: z
    .array(z.string())
    .optional()
    .describe(
      "Texts of the books that it depends on: those that it was sealed upon, or that came " +
        "with it from the device that worked by it. Empty where it names none; absent where " +
        "nobody has said",
    ),
});
export const textKeep = z.object({
  text: textOfBytes(MAX_BUNDLE_BYTES).describe(
    'The text; of an unsealed book that names others, `{"texts":[own, ...underneath]}` ' +
      "as JSON without spaces",
  ),
});
/** How far the host is with a book that is being sealed; `waiting` for another proof to end. */
export const sealProgress = z.discriminatedUnion("is", [
  z.object({ is: z.literal("none") }),
  z.object({ is: z.literal("waiting") }),
  z.object({ is: z.literal("proving"), settled: z.number(), all: z.number() }),
]);
export const sealRefused = z.object({ says: z.string(), faults: z.array(fault) });

// ───────────── jobs ─────────────

const line = z.string();
const keptEntry = z.intersection(jobEntry, z.object({ received: received.optional() }));
const jobRecord = z
  .object({
    id: z.string(),
    book: bookRef.optional(),
    otherBooks: z
      .array(bookRef)
      .optional()
      .describe("Other books that it was begun by as well; the first that the host received holds"),
    title: z.string(),
    begun: time.describe("By the clock of the device"),
    changed: time.describe("By the host's clock"),
    answers: z.record(z.string(), z.string()),
    ticked: z.record(z.string(), z.string()),
    left: z
      .record(
        z.string(),
        z.object({ text: z.string(), how: z.enum(["skipped", "not-needed"]), reason: z.string() }),
      )
      .describe("Steps left out, by id, with the reason"),
    used: z.array(
      z.object({
        line,
        what: z.string(),
        amount: z.string(),
        lot: z.string(),
        note: z.string(),
        at: time,
        received: received.optional(),
      }),
    ),
    photos: z.array(
      z.object({
        photo: print,
        type: z.string(),
        bytes: z.number().int(),
        caption: z.string(),
        shows: z.enum(["before", "during", "after"]).optional(),
        at: time,
        received: received.optional(),
      }),
    ),
    notes: z.array(
      z.object({
        line,
        text: z.string(),
        at: time,
        by: z.string().optional(),
        received: received.optional(),
      }),
    ),
    timers: z.array(z.object({ timer: z.string(), says: z.string(), ends: time, at: time })),
    signed: z
      .object({
        at: time,
        name: z.string(),
        by: z.string().optional(),
        card: cardRecord,
        note: z.string().optional(),
        received: received.optional(),
      })
      .optional()
      .describe("The first signature that the host received"),
    after: z
      .array(keptEntry)
      .describe("What the host received behind the signature, whatever its clock says"),
  })
  .describe("The job as its entries make it, in the order in which the host received them");

const difference = z.object({
  of: z.enum(["state", "value", "stop", "caution", "step"]),
  name: z.string(),
  then: z.string().optional(),
  now: z.string().optional(),
});
export const agreement = z.object({
  says: z
    .enum(["not signed", "same", "differs", "book unknown", "cannot be worked"])
    .describe(
      "`book unknown`: nobody has delivered the text of the book that it was made by; " +
        "`cannot be worked`: the engine came to no end with it",
    ),
  then: z.string().optional().describe("Version of the engine that worked the card when it was signed"),
  now: z.string().describe("Version of the engine that worked it again"),
  differences: z.array(difference),
});
export const jobState = z.enum(["open", "signed"]);
const jobLine = z.object({
  id: z.string(),
  title: z.string(),
  book: z.string(),
  edition: z.number().int().optional(),
  print: z.string(),
  state: jobState,
  begun: time,
  changed: time,
  signedAt: time.optional().describe("By the clock of the device"),
  signedBy: z.string().optional(),
  closedAt: time.optional().describe("When the host received the signature"),
  closedBy: z.string().optional().describe("Who was signed in when it was delivered"),
  agreement: z.enum(["not signed", "waiting", "same", "differs", "book unknown", "cannot be worked"]),
  after: z.number().int().describe("Entries that the host received behind the signature"),
});
export const jobList = z.object({
  jobs: z.array(jobLine).describe("The last changed first"),
  next: z.string().optional().describe("Give it as `before` for the next page; absent on the last"),
});
export const answersList = z
  .object({
    jobs: z
      .array(z.object({ id: z.string(), title: z.string(), answers: z.record(z.string(), z.string()) }))
      .describe("The last changed first"),
    next: jobList.shape.next,
  })
  .describe("Answers of many jobs, for whoever works them all again");
export const jobFull = z.object({
  job: jobRecord,
  agreement: jobLine.shape.agreement,
  missingPhotos: z.array(print).describe("Photographs that no device has delivered yet"),
});
export const entryList = z.object({
  entries: z.array(keptEntry).describe("In the order in which the host received them"),
  more: z.boolean(),
});
export const jobTrace = z.object({
  engine: z.string(),
  traces: z
    .array(z.object({ of: z.string(), steps: z.array(z.record(z.string(), z.unknown())) }))
    .describe("Why each value and line of the signed card came out as it did"),
});

export const delivered = z.object({
  taken: z.array(z.string()).describe("Ids that were new"),
  known: z.array(z.string()).describe("Ids that were there already: the device can forget them as well"),
  refused: z
    .array(
      z.object({
        place: z.number().int().describe("In the delivery, from 0"),
        id: z.string().optional(),
        says: z.string(),
      }),
    )
    .describe("These are not kept"),
  at: time.describe("The host's clock"),
  by: z.string().optional().describe("Who is signed in; absent where nobody signs in"),
});
export const photoKept = z.object({ photo: print, bytes: z.number().int(), known: z.boolean() });

// ───────────── people ─────────────

/** Characters of a password: long ones are welcome, and what they are made of is nobody's business. */
export const passwordLength = { least: 10, most: 200 } as const;
const personName = z
  .string()
  .trim()
  .min(1)
  .max(80)
  .regex(/^[^\p{C}<>]*$/u, "A name holds no control signs")
  .describe("As the log and entries show it");
const newPassword = z
  .string()
  .max(1000)
  .describe(`${passwordLength.least} to ${passwordLength.most} characters`);
const token = z.string().regex(/^[\w-]{43}$/, "This is no invitation");
export const signIn = z.object({ name: z.string().max(200), password: z.string().max(1000) });
export const signedIn = z.object({
  asked: z.boolean().describe("False on the shop's own machine, where nobody signs in"),
  you: z.object({ name: z.string(), role }).optional(),
});
export const invited = z.object({ token });
export const invitation = z.object({
  role,
  name: z.string().optional().describe("Whose password is reset; absent for someone new"),
  ends: time,
});
export const invitationTaken = z.object({
  token,
  name: personName.optional().describe("Needed from someone new"),
  password: newPassword,
});
export const passwordChange = z.object({ old: z.string().max(1000), password: newPassword });
const person = z.object({
  id: z.string(),
  name: z.string(),
  role,
  made: time,
  sessions: z.array(z.object({ begun: time, seen: time, device: z.string() })),
});
export const people = z.object({
  people: z.array(person),
  invitations: z.array(
    z.object({ id: z.string(), role, name: z.string().optional(), who: z.string(), ends: time }),
  ),
});
export const invitationWish = z.object({ role });
export const invitationMade = z.object({
  path: z.string().describe("Add it to the host's address and give it to the one person; it works once"),
  ends: time,
});
export const roleChange = z.object({ role });

// ───────────── log and events ─────────────

const logLine = z.object({
  seq: z.number().int(),
  at: time,
  who: z.string(),
  what: z.string(),
  body: z.record(z.string(), z.unknown()),
  hash: print.describe("Of this line and the hash before it"),
});
export const logList = z.object({ lines: z.array(logLine).describe("The newest first"), more: z.boolean() });
export const logVerdict = z.object({
  holds: z.boolean(),
  lines: z.number().int(),
  head: print
    .optional()
    .describe("Hash of the newest line: noted elsewhere, it shows later that none was taken away"),
  troubles: z.array(z.string()),
});

export const hostEvent = z
  .discriminatedUnion("is", [
    z.object({
      is: z.literal("edition"),
      book: z.string(),
      number: z.number().int(),
      print,
      who: z.string(),
    }),
    z.object({
      is: z.literal("draft"),
      book: z.string(),
      version: z.number().int(),
      who: z.string(),
      device: z.string().optional(),
    }),
    z.object({ is: z.literal("jobs"), jobs: z.array(z.string()) }),
    z
      .object({ is: z.literal("open"), book: z.string(), people: z.array(openBy) })
      .describe("Who has the draft open now"),
    z
      .object({ is: z.literal("anew") })
      .describe("A backup was restored, or more was missed than is sent one by one: load everything again"),
  ])
  .describe(
    "The data of one event; its id is the line of the log that it comes from, so that a " +
      "page that was away gets what it missed",
  );

export type Hello = z.infer<typeof hello>;
export type Role = z.infer<typeof role>;
export type SignedIn = z.infer<typeof signedIn>;
export type People = z.infer<typeof people>;
export type Invitation = z.infer<typeof invitation>;
export type BookList = z.infer<typeof bookList>;
export type BookLine = z.infer<typeof bookLine>;
export type Draft = z.infer<typeof draft>;
export type DraftSave = z.infer<typeof draftSave>;
export type DraftSaved = z.infer<typeof draftSaved>;
export type DraftConflict = z.infer<typeof draftConflict>;
export type DraftHistory = z.infer<typeof draftHistory>;
export type Fault = z.infer<typeof fault>;
export type VerificationSummary = z.infer<typeof verificationSummary>;
export type Edition = z.infer<typeof edition>;
export type EditionLine = z.infer<typeof editionLine>;
export type EditionList = z.infer<typeof editionList>;
export type SealRequest = z.infer<typeof sealRequest>;
export type SealProgress = z.infer<typeof sealProgress>;
export type SealRefused = z.infer<typeof sealRefused>;
export type BookByPrint = z.infer<typeof bookByPrint>;
export type Agreement = z.infer<typeof agreement>;
export type JobLine = z.infer<typeof jobLine>;
export type JobList = z.infer<typeof jobList>;
export type AnswersList = z.infer<typeof answersList>;
export type EntryList = z.infer<typeof entryList>;
export type JobFull = z.infer<typeof jobFull>;
export type JobTrace = z.infer<typeof jobTrace>;
export type Delivered = z.infer<typeof delivered>;
export type PhotoKept = z.infer<typeof photoKept>;
export type LogList = z.infer<typeof logList>;
export type LogVerdict = z.infer<typeof logVerdict>;
export type OpenBy = z.infer<typeof openBy>;
export type HostEvent = z.infer<typeof hostEvent>;
