// Whether the log is whole and says the same as the shelf: each line's hash, the chain of them, and the
// prints of what the lines speak of.
import type { LogVerdict } from "../../../core/schemas/host.ts";
import { firstHash, hashOf, linesAfter, sha256 } from "./log.ts";
import type { Database } from "./database.ts";

const most = 20;

/** `head` is a newest hash noted earlier: it must still be in the chain. */
export async function verifyLog(database: Database, head?: string): Promise<LogVerdict> {
  const troubles: string[] = [];
  let before = firstHash;
  let seq = 0;
  let lines = 0;
  let found = head === undefined;
  const entries = new Map<string, string>();
  const texts = new Set<string>();
  const photos = new Set<string>();
  const editions = new Map<string, string>();
  const versions = new Map<string, string>();
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
      try {
        const body = JSON.parse(line.body) as {
          entries?: [string, string][];
          print?: string;
          photo?: string;
          book?: string;
          number?: number;
          version?: number;
        };
        switch (line.what) {
          case "entries":
            for (const [id, print] of body.entries ?? []) entries.set(id, print);
            break;
          case "text":
            texts.add(body.print!);
            break;
          case "edition":
            texts.add(body.print!);
            editions.set(`${body.book} ${body.number}`, body.print!);
            break;
          case "photo":
            photos.add(body.photo!);
            break;
          case "draft":
            versions.set(`${body.book} ${body.version}`, body.print!);
            break;
        }
      } catch {
        /* A line that cannot be read was changed, which its hash has told. */
      }
    }
  }
  if (!found)
    troubles.push(
      "The hash that was noted is not in the log: lines were taken away, or this is another shop's log.",
    );

  const differs = (what: string, logged: Iterable<string>, here: ReadonlySet<string>): void => {
    for (const one of logged) {
      if (!here.has(one)) troubles.push(`${what} ${one} is in the log and no longer on the shelf.`);
    }
  };
  const seenEntries = new Set<string>();
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
      seenEntries.add(id);
      if (entries.get(id) === undefined) troubles.push(`Entry ${id} of a job is not in the log.`);
      else if (entries.get(id) !== print || sha256(body) !== print)
        troubles.push(`Entry ${id} of a job was changed.`);
    }
    last = page.at(-1)!.id;
  }
  differs("Entry", entries.keys(), seenEntries);

  const seenTexts = new Set<string>();
  for (const { print } of await database.db.selectFrom("texts").select("print").execute()) {
    const row = await database.db
      .selectFrom("texts")
      .select("text")
      .where("print", "=", print)
      .executeTakeFirst();
    seenTexts.add(print);
    if (row === undefined || sha256(row.text) !== print) troubles.push(`The text ${print} was changed.`);
  }
  differs("Text", texts, seenTexts);

  const seenEditions = new Set<string>();
  for (const { book, number, print } of await database.db
    .selectFrom("editions")
    .select(["book", "number", "print"])
    .execute()) {
    seenEditions.add(`${book} ${number}`);
    if (editions.get(`${book} ${number}`) !== print)
      troubles.push(`Edition ${number} of ${book} is not the one that was sealed.`);
  }
  differs("Edition", editions.keys(), seenEditions);

  const seenPhotos = new Set<string>();
  for (const { print } of await database.db.selectFrom("photos").select("print").execute()) {
    const row = await database.db
      .selectFrom("photos")
      .select("content")
      .where("print", "=", print)
      .executeTakeFirst();
    seenPhotos.add(print);
    if (row === undefined || sha256(row.content) !== print)
      troubles.push(`The photograph ${print} was changed.`);
  }
  differs("Photograph", photos, seenPhotos);

  const seenVersions = new Set<string>();
  for (const { book, version, print } of await database.db
    .selectFrom("draft_history")
    .select(["book", "version", "print"])
    .execute()) {
    seenVersions.add(`${book} ${version}`);
    if (versions.get(`${book} ${version}`) !== print)
      troubles.push(`Version ${version} of the draft of ${book} is not the one that was saved.`);
  }
  differs("Draft version", versions.keys(), seenVersions);

  const shown =
    troubles.length > most ? [...troubles.slice(0, most), `and ${troubles.length - most} more.`] : troubles;
  return { holds: troubles.length === 0, lines, ...(lines > 0 ? { head: before } : {}), troubles: shown };
}
