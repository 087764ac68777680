// How large things may be: one place for the engine, the host, the pages and the terminal.

/** Bytes of UTF-8 that the text of a book or a draft may have. */
export const MAX_BOOK_BYTES = 2 * 1024 * 1024;
/** The same for a book bundled with every book it depends on. */
export const MAX_BUNDLE_BYTES = 4 * MAX_BOOK_BYTES;
/** Bytes of a file that the terminal reads at all: a book or a job. */
export const MAX_INPUT_BYTES = 4 * MAX_BOOK_BYTES;
export const MAX_BOOK_LINES = 50_000;
/** Bytes that a photograph may have. */
export const MAX_PHOTO_BYTES = 20_000_000;

/** Bytes of one entry of a job as JSON; a signature with its card is the largest. */
export const MAX_ENTRY_BYTES = 1024 * 1024;
/** Entries of one job, and characters of them as JSON: with each delivery it is made anew from them all. */
export const MAX_JOB_ENTRIES = 20_000;
export const MAX_JOB_CHARACTERS = 16 * 1024 * 1024;

/** A chain of books that depend on one another may be this long. */
export const MAX_CHAIN_OF_BOOKS = 12;
/** And one book may depend on this many, directly or through others. */
export const MAX_BOOKS_UNDER = 100;

/** A UTF-16 unit takes at most three bytes of UTF-8, so most texts need not be encoded to be compared. */
const MOST_BYTES_OF_UNIT = 3;

/** The length of a text in bytes of UTF-8. */
export const bytesOf = (text: string): number => new TextEncoder().encode(text).length;

/** Whether a text has more bytes of UTF-8 than this. */
export const exceedsBytes = (text: string, most: number): boolean =>
  text.length > most || (text.length * MOST_BYTES_OF_UNIT > most && bytesOf(text) > most);

/** Bytes as a sentence says them, in MiB: "2 MiB", "2.4 MiB". */
export const mebibytes = (bytes: number): string => `${Number((bytes / 1024 / 1024).toFixed(1))} MiB`;
