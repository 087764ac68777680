// What goes wrong with the database, as a sentence for the person in front of it.

/** A refusal that a person reads; `status` is the one of the answer over HTTP. */
export class Trouble extends Error {
  readonly status: 400 | 401 | 403 | 404 | 409 | 413 | 422 | 429 | 503 | 507;
  constructor(status: Trouble["status"], says: string) {
    super(says);
    this.name = "Trouble";
    this.status = status;
  }
}

/** The sentence for an error of either database or of the disk; undefined if it is none of theirs. */
export function troubleOf(cause: unknown): Trouble | undefined {
  if (cause instanceof Trouble) return cause;
  if (!(cause instanceof Error)) return undefined;
  const code = "code" in cause && typeof cause.code === "string" ? cause.code : "";
  if (code.startsWith("SQLITE_FULL") || code === "ENOSPC" || code === "EDQUOT" || code === "53100")
    return new Trouble(
      507,
      "The disk is full, so nothing of this was saved. What was saved before is safe. " +
        "Free some space and do it again.",
    );
  if (
    code.startsWith("SQLITE_READONLY") ||
    code === "EROFS" ||
    code === "EACCES" ||
    code === "EPERM" ||
    code === "25006"
  )
    return new Trouble(
      503,
      "The data folder cannot be written, so nothing of this was saved. What was saved before is safe.",
    );
  if (
    code.startsWith("SQLITE_BUSY") ||
    code.startsWith("SQLITE_LOCKED") ||
    code === "55P03" ||
    code === "40P01" ||
    code === "40001"
  )
    return new Trouble(
      503,
      "Another program is writing to the shop's data just now, so nothing of this was saved. " +
        "Do it again in a moment.",
    );
  if (code.startsWith("SQLITE_CORRUPT") || code.startsWith("SQLITE_NOTADB"))
    return new Trouble(
      503,
      "The data file is damaged. Put the last backup back with bevelbook restore FILE.",
    );
  if (
    code.startsWith("SQLITE_IOERR") ||
    code.startsWith("SQLITE_CANTOPEN") ||
    code === "EIO" ||
    code === "EFBIG"
  )
    return new Trouble(
      507,
      "The disk did not take what was to be written, so nothing of this was saved. " +
        "What was saved before is safe. Look whether the disk is full or failing.",
    );
  if (
    /^(ECONNREFUSED|ECONNRESET|ENOTFOUND|EPIPE|ETIMEDOUT|EAI_AGAIN|57P0\d|08\w{3}|28\w{3}|3D000)$/.test(
      code,
    ) ||
    /Connection terminated|not queryable|timeout exceeded when trying to connect/i.test(cause.message)
  )
    return new Trouble(
      503,
      `The database server does not answer as it should (${code || cause.message}), ` +
        "so nothing of this was saved.",
    );
  return undefined;
}
