// Whether the log is whole and says the same as the data: each line's hash, the chain of them, and the
// content hashes of what the lines are about.
import type { LogVerdict } from "../../../core/schemas/host.ts";
import { firstHash, hashOf, linesAfter, sha256 } from "./log-chain.ts";
import type { Database } from "./database.ts";

/** Troubles listed; of more only the number is said. */
const mostListed = 20;

/** Content hashes by the key of what they belong to, as the log has them. */
interface Logged {
  readonly entries: Map<string, string>;
  readonly editions: Map<string, string>;
  readonly versions: Map<string, string>;
  readonly texts: Set<string>;
  readonly photos: Set<string>;
}

/** `head` is a newest hash noted earlier: it must still be in the chain. */
export async function verifyLog(database: Database, head?: string): Promise<LogVerdict> {
  const troubles: string[] = [];
  const { logged, lines, newest } = await checkChain(database, head, troubles);
  await checkEntries(database, logged, troubles);
  await checkTexts(database, logged, troubles);
  await checkEditions(database, logged, troubles);
  await checkPhotos(database, logged, troubles);
  await checkVersions(database, logged, troubles);
  const more = troubles.length - mostListed;
  const shown = more > 0 ? [...troubles.slice(0, mostListed), `and ${more} more.`] : troubles;
  return { holds: troubles.length === 0, lines, ...(lines > 0 ? { head: newest } : {}), troubles: shown };
}

async function checkChain(database: Database, head: string | undefined, troubles: string[]) {
  const logged: Logged = {
    entries: new Map(),
    editions: new Map(),
    versions: new Map(),
    texts: new Set(),
    photos: new Set(),
  };
  let before = firstHash;
  let seq = 0;
  let lines = 0;
  let found = head === undefined;
  for (;;) {
    const page = await linesAfter(database.db, seq, 1000);
    if (page.length === 0) break;
    for (const line of page) {
      if (line.seq !== seq + 1) troubles.push(`Lines ${seq + 1} to ${line.seq - 1} of the log are missing.`);
      if (line.before !== before)
        troubles.push(`Line ${line.seq} of the log does not follow the line before it.`);
      if (hashOf(line) !== line.hash) troubles.push(`Line ${line.seq} of the log was changed.`);
      if (line.hash === head) found = true;
      [seq, before] = [line.seq, line.hash];
      lines += 1;
      note(logged, line.what, line.body);
    }
  }
  if (!found)
    troubles.push(
      "The hash that was noted is not in the log: lines were taken away, or this is another shop's log.",
    );
  return { logged, lines, newest: before };
}

/** Adds what a line says to `logged`. */
function note(logged: Logged, what: string, text: string): void {
  try {
    const body = JSON.parse(text) as {
      entries?: [string, string][];
      print?: string;
      photo?: string;
      book?: string;
      number?: number;
      version?: number;
    };
    switch (what) {
      case "entries":
        for (const [id, hash] of body.entries ?? []) logged.entries.set(id, hash);
        break;
      case "text":
        logged.texts.add(body.print!);
        break;
      case "edition":
        logged.texts.add(body.print!);
        logged.editions.set(`${body.book} ${body.number}`, body.print!);
        break;
      case "photo":
        logged.photos.add(body.photo!);
        break;
      case "draft":
        logged.versions.set(`${body.book} ${body.version}`, body.print!);
        break;
    }
  } catch {
    /* A line that cannot be read was changed, which its hash has shown. */
  }
}

function checkPresent(what: string, logged: Iterable<string>, here: ReadonlySet<string>): readonly string[] {
  return [...logged]
    .filter((one) => !here.has(one))
    .map((one) => `${what} ${one} is in the log and no longer on the shelf.`);
}

async function checkEntries(database: Database, { entries }: Logged, troubles: string[]): Promise<void> {
  const seen = new Set<string>();
  for (let last = ""; ; ) {
    const page = await database.db
      .selectFrom("job_entries")
      .select(["id", "print", "body"])
      .where("id", ">", last)
      .orderBy("id")
      .limit(2000)
      .execute();
    if (page.length === 0) break;
    for (const { id, print, body } of page) {
      seen.add(id);
      if (entries.get(id) === undefined) troubles.push(`Entry ${id} of a job is not in the log.`);
      else if (entries.get(id) !== print || sha256(body) !== print)
        troubles.push(`Entry ${id} of a job was changed.`);
    }
    last = page.at(-1)!.id;
  }
  troubles.push(...checkPresent("Entry", entries.keys(), seen));
}

async function checkTexts(database: Database, { texts }: Logged, troubles: string[]): Promise<void> {
  const seen = new Set<string>();
  // One text at a time: together they may not fit into memory.
  for (const { print } of await database.db.selectFrom("texts").select("print").execute()) {
    const one = database.db.selectFrom("texts").select("text").where("print", "=", print);
    const row = await one.executeTakeFirst();
    seen.add(print);
    if (row === undefined || sha256(row.text) !== print) troubles.push(`The text ${print} was changed.`);
  }
  troubles.push(...checkPresent("Text", texts, seen));
}

async function checkEditions(database: Database, { editions }: Logged, troubles: string[]): Promise<void> {
  const seen = new Set<string>();
  const rows = await database.db.selectFrom("editions").select(["book", "number", "print"]).execute();
  for (const { book, number, print } of rows) {
    seen.add(`${book} ${number}`);
    if (editions.get(`${book} ${number}`) !== print)
      troubles.push(`Edition ${number} of ${book} is not the one that was sealed.`);
  }
  troubles.push(...checkPresent("Edition", editions.keys(), seen));
}

async function checkPhotos(database: Database, { photos }: Logged, troubles: string[]): Promise<void> {
  const seen = new Set<string>();
  for (const { print } of await database.db.selectFrom("photos").select("print").execute()) {
    const one = database.db.selectFrom("photos").select("content").where("print", "=", print);
    const row = await one.executeTakeFirst();
    seen.add(print);
    if (row === undefined || sha256(row.content) !== print)
      troubles.push(`The photograph ${print} was changed.`);
  }
  troubles.push(...checkPresent("Photograph", photos, seen));
}

async function checkVersions(database: Database, { versions }: Logged, troubles: string[]): Promise<void> {
  const seen = new Set<string>();
  const rows = await database.db.selectFrom("draft_history").select(["book", "version", "print"]).execute();
  for (const { book, version, print } of rows) {
    seen.add(`${book} ${version}`);
    if (versions.get(`${book} ${version}`) !== print)
      troubles.push(`Version ${version} of the draft of ${book} is not the one that was saved.`);
  }
  troubles.push(...checkPresent("Draft version", versions.keys(), seen));
}
