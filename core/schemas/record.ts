// The entries of a job's record as they cross a border: what a tablet may deliver, and no more of it than a
// person can have meant.
import { z } from "zod";
import { JOB_STATES } from "../job-state.ts";
import { MAX_PHOTO_BYTES } from "../limits.ts";
import type { JobEntry } from "../record.ts";

const id = z.uuid();
const word = z.string().min(1).max(200);
const line = z.string().max(4000);
export const print = z
  .string()
  .regex(/^[0-9a-f]{64}$/)
  .describe("SHA-256 in hexadecimal");

export const bookRef = z.object({
  name: word,
  edition: z.number().int().min(0).max(1_000_000).optional(),
  print,
  sealed: z.boolean(),
});

export const cardRecord = z
  .object({
    state: z.enum(JOB_STATES),
    engine: word,
    values: z.array(z.object({ name: word, text: line })).max(20_000),
    stops: z.array(line).max(2000),
    cautions: z.array(line).max(2000),
    mayApply: z.array(line).max(2000).optional().describe("Cautions whose condition was still open"),
    steps: z.array(line).max(2000),
  })
  .describe("The card as it was when it was signed");

const base = {
  id,
  job: id,
  at: z.number().int().min(0).max(8.64e15).describe("Milliseconds since 1970, by the device's clock"),
  device: word,
  by: word.optional(),
};

export const jobEntry = z.discriminatedUnion("does", [
  z.object({ ...base, does: z.literal("begin"), book: bookRef, title: line }),
  z.object({ ...base, does: z.literal("answer"), ask: word, text: z.string().max(200).optional() }),
  z.object({ ...base, does: z.literal("tick"), step: word, text: line.optional() }),
  z.object({
    ...base,
    does: z.literal("leave"),
    step: word,
    text: line.optional(),
    how: z.enum(["skipped", "not-needed"]).optional(),
    reason: line.optional(),
  }),
  z.object({
    ...base,
    does: z.literal("used"),
    line: word,
    what: line.optional(),
    amount: z.string().max(200).optional(),
    lot: z.string().max(200).optional(),
    note: line.optional(),
  }),
  z.object({
    ...base,
    does: z.literal("photo"),
    photo: print,
    type: z.enum(["image/jpeg", "image/png", "image/webp"]).optional(),
    bytes: z.number().int().min(1).max(MAX_PHOTO_BYTES).optional(),
    caption: line.optional(),
    shows: z.enum(["before", "during", "after"]).optional(),
  }),
  z.object({ ...base, does: z.literal("note"), line: word, text: line.optional() }),
  z.object({
    ...base,
    does: z.literal("timer"),
    timer: word,
    says: line.optional(),
    ends: z.number().int().min(0).max(8.64e15).optional(),
  }),
  z.object({ ...base, does: z.literal("sign"), name: word, card: cardRecord, note: line.optional() }),
]) satisfies z.ZodType<JobEntry, unknown>;

export const jobEntries = z
  .array(jobEntry)
  .max(500)
  .describe("Delivered together; each is taken once, whatever the order");

export const received = z
  .object({
    line: z.number().int().describe("Line of the host's log: entries of one delivery have the same"),
    at: z.number().int().describe("By the host's clock"),
    by: z.string().describe("Who was signed in when it was delivered"),
    skew: z
      .number()
      .int()
      .optional()
      .describe("Milliseconds by which the device's clock was ahead; absent where the device did not say"),
  })
  .describe("How the host came by it. The host's own order counts, and no clock of a device");
