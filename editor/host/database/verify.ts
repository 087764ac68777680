// Whether the log is whole and says the same as the data: each line's hash, the chain of them, and every row
// that the lines are about. Others go on writing meanwhile: what is never changed is held against the lines
// up to a point, the rest is looked at again where it changed while it was read.
import type { LogVerdict } from "../../../core/schemas/host.ts";
import type { JobEntry } from "../../../core/record.ts";
import { firstHash, hashOf, linesAfter, sha256 } from "./log-chain.ts";
import { type LogSays, emptySays, hear } from "./log-says.ts";
import type { Database } from "./database.ts";
import { giveWay, orDamaged } from "./each-row.ts";
import type { Tables } from "./tables.ts";
import {
  type Look,
  checkBooks,
  checkDrafts,
  checkEditions,
  checkJobs,
  checkPeople,
  checkPhotos,
  checkTexts,
  checkVersions,
} from "./verify-rows.ts";

/** Troubles listed; of more only the number is said. */
const mostListed = 20;
/** So often a table is looked at again that was changed while it was read. */
const tries = 5;
const page = 500;

/** `head` is a newest hash noted earlier: it must still be in the chain. */
export async function verifyLog(
  database: Pick<Database, "db" | "sort" | "lost">,
  head?: string,
): Promise<LogVerdict> {
  const troubles = listOfTroubles();
  if (database.lost !== undefined) troubles.add(lostWords(database.lost));
  const chain = chainReader(database, head, troubles.add);
  await chain.read();
  for (const check of [
    checkTexts,
    checkEditions,
    checkPhotos,
    checkVersions,
    checkDrafts,
    checkBooks,
    checkPeople,
    checkJobs,
  ])
    await settled(database, chain, check, troubles.add);
  await chain.tellStrangers();
  if (!chain.foundHead())
    troubles.add(
      "The hash that was noted is not in the log: lines were taken away, or this is another shop's log.",
    );
  const { lines, newest } = chain;
  return {
    holds: troubles.count() === 0,
    lines: lines(),
    ...(lines() > 0 ? { head: newest() } : {}),
    troubles: troubles.shown(),
  };
}

export const lostWords = ({ from, to }: { readonly from: number; readonly to: number }): string =>
  `The last writes are gone: lines ${from} to ${to} of the log were written once. The disk may be failing.`;

function listOfTroubles() {
  const first: string[] = [];
  let count = 0;
  return {
    add: (trouble: string): void => {
      count += 1;
      if (first.length < mostListed) first.push(trouble);
    },
    count: () => count,
    shown: () => (count > mostListed ? [...first, `and ${count - mostListed} more.`] : first),
  };
}

/** Looks at a table until nothing was written meanwhile, and tells what was found then. */
async function settled(
  database: Pick<Database, "db" | "sort">,
  chain: ReturnType<typeof chainReader>,
  check: (look: Look) => Promise<void>,
  tell: (trouble: string) => void,
): Promise<void> {
  for (let n = 1; ; n += 1) {
    await chain.read();
    const before = chain.lines();
    const found: string[] = [];
    await check({ database, says: chain.says, tell: (one) => found.push(one) });
    if (found.length === 0) return;
    await chain.read();
    if (chain.lines() !== before && n < tries) continue;
    for (const one of found) tell(one);
    return;
  }
}

/** Reads the log as far as it goes, again and again, and the entries with the lines that received them. */
function chainReader(
  { db }: Pick<Database, "db" | "sort">,
  head: string | undefined,
  tell: (trouble: string) => void,
) {
  const says: LogSays = emptySays();
  let [seq, before, lines] = [0, firstHash, 0];
  let found = head === undefined;
  let entries = 0;
  const take = (line: Tables["log"]): void => {
    if (line.seq !== seq + 1) tell(`Lines ${seq + 1} to ${line.seq - 1} of the log are missing.`);
    if (line.before !== before) tell(`Line ${line.seq} of the log does not follow the line before it.`);
    if (hashOf(line) !== line.hash) tell(`Line ${line.seq} of the log was changed.`);
    if (line.hash === head) found = true;
    [seq, before] = [line.seq, line.hash];
    lines += 1;
    if (line.what === "lines lost") tell(`Line ${line.seq} of the log says that lines before it were lost.`);
    hear(says, line);
  };
  return {
    says,
    lines: () => lines,
    newest: () => before,
    foundHead: () => found,
    read: async (): Promise<void> => {
      for (;;) {
        const read = await linesAfter(db, seq, page).catch(orDamaged);
        if (read === undefined) {
          const skipped = await singly(db, seq, take);
          tell(`Line ${skipped} of the log is damaged and cannot be read.`);
          seq = skipped;
          continue;
        }
        for (const line of read) take(line);
        const last = read.at(-1);
        if (last === undefined) return;
        entries += await checkEntries(db, read, tell);
        await giveWay();
      }
    },
    /** Entries that came with no line. */
    tellStrangers: async (): Promise<void> => {
      const count = await db
        .selectFrom("job_entries")
        .select((e) => e.fn.countAll<number>().as("count"))
        .where("line", "<=", seq)
        .executeTakeFirstOrThrow();
      if (Number(count.count) === entries) return;
      const strangers = await db
        .selectFrom("job_entries")
        .select("id")
        .where("line", "<=", seq)
        .where("line", "not in", (q) => q.selectFrom("log").select("seq").where("what", "=", "entries"))
        .limit(mostListed)
        .execute();
      for (const { id } of strangers) tell(`Entry ${id} of a job is not in the log.`);
    },
  };
}

/** Reads line by line up to one that cannot be read; comes back with its number. */
async function singly(
  db: Database["db"],
  after: number,
  take: (line: Tables["log"]) => void,
): Promise<number> {
  for (let next = after + 1; ; next += 1) {
    const read = await linesAfter(db, next - 1, 1).catch(orDamaged);
    if (read?.[0] === undefined) return next;
    take(read[0]);
    next = read[0].seq;
  }
}

interface Listed {
  readonly line: Tables["log"];
  readonly hash: string;
  readonly sent: number | undefined;
}

/** The entries that these lines received, held against them. Comes back with how many rows there are. */
async function checkEntries(
  db: Database["db"],
  lines: readonly Tables["log"][],
  tell: (trouble: string) => void,
): Promise<number> {
  const listed = new Map<string, Listed>();
  for (const line of lines) if (line.what === "entries") list(line, listed);
  const deliveries = lines.filter((line) => line.what === "entries").map((line) => line.seq);
  let count = 0;
  for (let i = 0; i < deliveries.length; i += 20) {
    const rows = db
      .selectFrom("job_entries")
      .selectAll()
      .where("line", "in", deliveries.slice(i, i + 20));
    const found = await rows.execute().catch(orDamaged);
    if (found === undefined) {
      tell(
        `Entries received with lines ${deliveries[i]} to ${deliveries.slice(i, i + 20).at(-1)} are damaged.`,
      );
      for (const [id, one] of [...listed])
        if (deliveries.slice(i, i + 20).includes(one.line.seq)) listed.delete(id);
      const rowCount = await db
        .selectFrom("job_entries")
        .select((e) => e.fn.countAll<number>().as("count"))
        .where("line", "in", deliveries.slice(i, i + 20))
        .executeTakeFirst();
      count += Number(rowCount?.count ?? 0);
      continue;
    }
    count += found.length;
    for (const row of found) {
      const logged = listed.get(row.id);
      if (logged === undefined || logged.line.seq !== row.line)
        tell(`Entry ${row.id} of a job is not in the log.`);
      else if (!isAsLogged(row, logged)) tell(`Entry ${row.id} of a job was changed.`);
      listed.delete(row.id);
    }
    await giveWay();
  }
  for (const id of listed.keys()) tell(`Entry ${id} is in the log and no longer on the shelf.`);
  return count;
}

function list(line: Tables["log"], into: Map<string, Listed>): void {
  try {
    const { entries = [], sent } = JSON.parse(line.body) as { entries?: [string, string][]; sent?: number };
    for (const [id, hash] of entries) into.set(id, { line, hash, sent });
  } catch {
    /* A line that cannot be read was changed, which its hash has shown. */
  }
}

/** Each column: what was sent against its hash, the others against what was sent and against the line. */
function isAsLogged(row: Tables["job_entries"], { line, hash, sent }: Listed): boolean {
  if (row.print !== hash || sha256(row.body) !== hash) return false;
  const { job, at, device, id } = JSON.parse(row.body) as JobEntry;
  return (
    row.id === id &&
    row.job === job &&
    row.at === at &&
    row.device === device &&
    row.delivered_by === line.who &&
    row.delivered_at === line.at &&
    row.skew === (sent === undefined ? null : sent - line.at)
  );
}
