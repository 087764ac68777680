// A job that tells a rule from its small change, put into the book as a worked example under a name that is
// free.
import type { Row } from "../../../core/view.ts";
import type { StatementEdit } from "../../client/engine/messages.ts";

/** The edit that adds it after the last worked example; its name is counted on where it is taken. */
export function exampleEdit(worked: string, rows: readonly Row[]): StatementEdit {
  const taken = new Set(rows.filter((row) => row.keyword === "worked").map((row) => row.name));
  const last = rows.filter((row) => row.keyword === "worked").at(-1) ?? rows.at(-1);
  return { does: "insert", after: last?.id, statement: withFreeName(worked, taken) };
}

export function withFreeName(worked: string, taken: ReadonlySet<string | undefined>): string {
  const found = /^worked\s+(\S+)/.exec(worked);
  const wish = found?.[1];
  if (wish === undefined || !taken.has(wish)) return worked;
  const stem = wish.replace(/-\d+$/, "");
  let n = 2;
  while (taken.has(`${stem}-${n}`)) n += 1;
  return worked.replace(/^worked\s+\S+/, `worked ${stem}-${n}`);
}
