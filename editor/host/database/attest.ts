// A line of the log that holds the hashes of what earlier versions wrote without them: from it on a change of
// any of their columns shows.
import type { Kysely } from "kysely";
import { type LogBody, rowHash, sha256 } from "./log-chain.ts";
import type { Tables } from "./tables.ts";

/** Undefined where there is no log yet, and so nothing of before. */
export async function attestation(db: Kysely<Tables>): Promise<LogBody | undefined> {
  const line = await db.selectFrom("log").select("seq").limit(1).executeTakeFirst();
  if (line === undefined) return undefined;
  const rows: [string, string][] = [];
  for (const row of await db.selectFrom("editions").selectAll().execute())
    rows.push([`editions ${row.book} ${row.number}`, rowHash(row)]);
  const people = await db.selectFrom("people").select(["id", "name", "password"]).execute();
  for (const { id, name, password } of people)
    rows.push([`people ${name}`, rowHash({ id, password: sha256(password) })]);
  const jobs = await db.selectFrom("jobs").select("id").where("trace", "is not", null).execute();
  for (const { id } of jobs) {
    const one = await db.selectFrom("jobs").select("trace").where("id", "=", id).executeTakeFirst();
    if (one?.trace) rows.push([`traces ${id}`, sha256(one.trace)]);
  }
  return { rows };
}
