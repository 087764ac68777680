// The title of a statement as a reader sees it; its name where it has none, or where values are inserted in
// it.
import type { Entry } from "../language/check/book.ts";

export function titleOf({ statement }: Entry): string {
  const pieces = statement.clauses.title?.pieces ?? [];
  return pieces.length > 0 && pieces.every((piece) => typeof piece === "string")
    ? pieces.join("")
    : (statement.name?.text ?? "");
}
