// What goes wrong with the database, as a sentence for the person in front of it.
import { Trouble, trouble } from "../trouble.ts";

/** The sentence for an error of either database or of the disk; undefined if it is none of theirs. */
export function troubleOf(cause: unknown): Trouble | undefined {
  if (cause instanceof Trouble) return cause;
  if (!(cause instanceof Error)) return undefined;
  const code = "code" in cause && typeof cause.code === "string" ? cause.code : "";
  if (code.startsWith("SQLITE_FULL") || code === "ENOSPC" || code === "EDQUOT" || code === "53100")
    return trouble("disk-full");
  if (
    code.startsWith("SQLITE_READONLY") ||
    code === "EROFS" ||
    code === "EACCES" ||
    code === "EPERM" ||
    code === "25006"
  )
    return trouble("data-read-only");
  if (
    code.startsWith("SQLITE_BUSY") ||
    code.startsWith("SQLITE_LOCKED") ||
    code === "55P03" ||
    code === "40P01" ||
    code === "40001"
  )
    return trouble("data-busy");
  if (code.startsWith("SQLITE_CORRUPT") || code.startsWith("SQLITE_NOTADB")) return trouble("data-damaged");
  if (
    code.startsWith("SQLITE_IOERR") ||
    code.startsWith("SQLITE_CANTOPEN") ||
    code === "EIO" ||
    code === "EFBIG"
  )
    return trouble("disk-error");
  if (
    /^(ECONNREFUSED|ECONNRESET|ENOTFOUND|EPIPE|ETIMEDOUT|EAI_AGAIN|57P0\d|08\w{3}|28\w{3}|3D000)$/.test(
      code,
    ) ||
    /Connection terminated|not queryable|timeout exceeded when trying to connect/i.test(cause.message)
  )
    return trouble("database-unreachable", { detail: code || cause.message });
  return undefined;
}
