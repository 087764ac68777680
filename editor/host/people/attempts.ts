// Failed sign-ins, counted by name and by address before a password is looked at, so that many at once are
// counted as well. After the first few each has to wait twice as long as the last; kept in the database, so
// that a new start forgets none.
import { createHash } from "node:crypto";
import type { Database } from "../database/database.ts";
import { trouble } from "../trouble.ts";

/**
 * So many may fail without waiting: a name has few, an address may be a whole shop's. NIST SP 800-63B, 5.2.2
 * allows 100 in a row.
 */
const free = { name: 5, address: 30 } as const;
const firstWait = 2000;
const longestWait = 15 * 60_000;
/** Milliseconds after which failures are forgotten. */
const memory = 24 * 3600_000;
/** From this many in a row on, only each doubling gets a line in the log, so that nobody can fill it. */
const loggedSingly = 5;

const keyOf = (of: "name" | "address", what: string): string =>
  `${of} ${createHash("sha256").update(what).digest("hex")}`;
export const waitAfter = (failures: number, of: keyof typeof free): number =>
  failures < free[of] ? 0 : Math.min(longestWait, firstWait * 2 ** Math.min(20, failures - free[of]));

/**
 * Counts a try as failed in advance; throws with the time to wait where it came too early. `nameKey` absent:
 * only the address counts.
 */
export async function beginAttempt(database: Database, address: string, nameKey?: string): Promise<void> {
  const keys = [
    ...(nameKey === undefined ? [] : [["name", keyOf("name", nameKey)] as const]),
    ["address", keyOf("address", address)] as const,
  ];
  const wait = await database.write("nobody", async (tx, _tell, at) => {
    await tx
      .deleteFrom("attempts")
      .where((e) => e.or([e("at", "<", at - memory), e("at", ">", at + memory)]))
      .execute();
    const rows = await tx
      .selectFrom("attempts")
      .selectAll()
      .where(
        "key",
        "in",
        keys.map(([, key]) => key),
      )
      .execute();
    // A clock that was ahead for a while leaves times behind that lie far off: no wait is longer than the
    // longest, and what was counted later than now was counted just now.
    const until = Math.max(0, ...rows.map((row) => Math.min(row.until, Math.min(row.at, at) + longestWait)));
    if (until > at) return until - at;
    for (const [of, key] of keys) {
      const failures = (rows.find((row) => row.key === key)?.failures ?? 0) + 1;
      const row = { failures, at, until: at + waitAfter(failures, of) };
      await tx
        .insertInto("attempts")
        .values({ key, ...row })
        .onConflict((on) => on.column("key").doUpdateSet(row))
        .execute();
    }
    return 0;
  });
  if (wait > 0) throw trouble("sign-in-wait", { seconds: Math.ceil(wait / 1000) });
}

/** The try was right: the name starts afresh, and the address gets back the one that was counted. */
export async function endAttempt(database: Database, address: string, nameKey?: string): Promise<void> {
  await database.write("nobody", async (tx, _tell, at) => {
    if (nameKey !== undefined)
      await tx.deleteFrom("attempts").where("key", "=", keyOf("name", nameKey)).execute();
    await tx
      .updateTable("attempts")
      .set((eb) => ({ failures: eb("failures", "-", 1), until: at }))
      .where("key", "=", keyOf("address", address))
      .where("failures", ">", 0)
      .execute();
  });
}

/** Forgets the failures of a name: whoever looks after the host lets the person in again. */
export const forgetAttempts = (tx: Pick<Database["db"], "deleteFrom">, nameKey: string): Promise<unknown> =>
  tx.deleteFrom("attempts").where("key", "=", keyOf("name", nameKey)).execute();

/**
 * A line in the log for a failed try; what was typed as a name is not written down unless it is one, for it
 * may be a password.
 */
export async function logFailure(
  database: Database,
  address: string,
  nameKey: string,
  name: string | undefined,
): Promise<void> {
  await database.write("nobody", async (tx, log) => {
    const rows = await tx
      .selectFrom("attempts")
      .select("failures")
      .where("key", "in", [keyOf("name", nameKey), keyOf("address", address)])
      .execute();
    const most = Math.max(0, ...rows.map((row) => row.failures));
    if (most <= loggedSingly || Number.isInteger(Math.log2(most)))
      await log("sign-in failed", {
        ...(name === undefined ? { unknown: true } : { name }),
        address,
        failures: most,
      });
  });
}
