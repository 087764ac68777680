// The worker's calls as it serves them: the versions that the page has sent, and the texts that it names by
// them.
import { bookOf, emptyCache, tryBook, workOn } from "./books.ts";
import type { Book, Job } from "../../../engine/index.ts";
import type { JobToWork, Served, TextRef, UpdateReply, UpdateRequest } from "./messages.ts";
import { noVersions, textOf, update } from "./versions.ts";

const versions = noVersions(emptyCache());

export const updateHere = (request: UpdateRequest): UpdateReply => update(versions, request);

/** The worker's book of this text. */
export const bookHere = (text: string): Book => bookOf(versions.cache, text);

/** The job by this book; what was worked before is used again. */
export const jobHere = (text: string, job: JobToWork): Job => workOn(versions.cache, bookHere(text), job);

/** A text that is only tried: read from the current book, and not kept. */
export const tryHere = (text: string): Book => tryBook(versions.cache, text);

/** The same calls for texts that are named by a version. */
export const served = <Calls extends object>(calls: Served<Calls>): Served<Calls> =>
  Object.fromEntries(
    Object.entries<(...given: readonly unknown[]) => unknown>(calls as never).map(([name, call]) => [
      name,
      (...given: readonly unknown[]) =>
        call(...given.map((one) => (isTextRef(one) ? textOf(versions, one) : one))),
    ]),
  ) as Served<Calls>;

const isTextRef = (value: unknown): value is TextRef =>
  typeof value === "object" && value !== null && "splice" in value && "version" in value;
