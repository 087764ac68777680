// The worker's calls as it serves them: the versions that the page has sent, and the texts that it names by
// them.
import { bookOf, emptyCache, tryBook, workOn } from "./held-books.ts";
import type { Book, Job } from "../../../engine/index.ts";
import type { JobToWork, Served, TextRef, UpdateReply, UpdateRequest } from "./messages.ts";
import { noVersions, textOf, update } from "./versions.ts";
import { answerCalls } from "./worker-calls.ts";

const versions = noVersions(emptyCache());

export const updateHere = (request: UpdateRequest): UpdateReply => update(versions, request);

/** The worker's book of this text. */
export const bookHere = (text: string): Book => bookOf(versions.cache, text);

/** The job by this book; what was worked before is used again. */
export const jobHere = (text: string, job: JobToWork): Job => workOn(versions.cache, bookHere(text), job);

/** A text that is only tried: read from the current book, and not kept. */
export const tryHere = (text: string): Book => tryBook(versions.cache, text);

/** Answers the page's calls; a text that is named by a version is looked up. */
export const serve = <Calls extends object>(calls: Served<Calls>): void =>
  answerCalls(calls, (given) => (isTextRef(given) ? textOf(versions, given) : given));

const isTextRef = (value: unknown): value is TextRef =>
  typeof value === "object" && value !== null && "splice" in value && "version" in value;
