// The rows of each table against what the log says of them: every column, rows that the log does not know,
// and rows that are gone.
import { titleIn } from "../../../core/title-in.ts";
import type { Database } from "./database.ts";
import { versionText } from "./draft-versions.ts";
import { eachRow, giveWay, orDamaged } from "./each-row.ts";
import { entryColumns, keptEntry, rowOf } from "./job-fold.ts";
import { foldJob } from "../../../core/record.ts";
import { rowHash, sha256, tokenName } from "./log-chain.ts";
import type { LogSays } from "./log-says.ts";
import { nameKeyOf } from "../people/name-key.ts";
import { pictureType } from "./picture-type.ts";
import type { TableName } from "./tables.ts";

/** Where to look, what the log says, and who hears of trouble. */
export interface Look {
  readonly database: Pick<Database, "db" | "sort">;
  readonly says: LogSays;
  tell(trouble: string): void;
}

const damagedRow =
  (look: Look, table: TableName) =>
  (key: readonly unknown[] | undefined): void =>
    look.tell(
      key === undefined
        ? `Rows of ${table.replaceAll("_", " ")} are damaged and cannot be read.`
        : `The row ${key.join(" ")} of ${table.replaceAll("_", " ")} is damaged and cannot be read.`,
    );

const rows = <T extends TableName>(look: Look, table: T) =>
  eachRow(look.database, table, damagedRow(look, table));

/** Tells of those that the log names and that are not here. */
function tellMissing(look: Look, what: string, logged: Iterable<string>, here: ReadonlySet<string>): void {
  for (const one of logged)
    if (!here.has(one)) look.tell(`${what} ${one} is in the log and no longer on the shelf.`);
}

export async function checkTexts(look: Look): Promise<void> {
  const seen = new Set<string>();
  for await (const { print, text } of rows(look, "texts")) {
    seen.add(print);
    if (sha256(text) !== print) look.tell(`The text ${print} was changed.`);
    else if (!look.says.texts.has(print)) look.tell(`The text ${print} is not in the log.`);
  }
  tellMissing(look, "Text", look.says.texts, seen);
}

export async function checkEditions(look: Look): Promise<void> {
  const { editions, rows: hashes } = look.says;
  const seen = new Set<string>();
  for await (const row of rows(look, "editions")) {
    const key = `${row.book} ${row.number}`;
    seen.add(key);
    const logged = editions.get(key);
    const hash = hashes.get(`editions ${key}`);
    const is =
      logged !== undefined &&
      logged.print === row.print &&
      logged.who === row.who &&
      logged.at === row.at &&
      (logged.reason ?? null) === row.reason &&
      (hash === undefined || hash === rowHash(row));
    if (!is) look.tell(`Edition ${row.number} of ${row.book} is not the one that was sealed.`);
  }
  tellMissing(look, "Edition", editions.keys(), seen);
}

export async function checkPhotos(look: Look): Promise<void> {
  const { photos } = look.says;
  const seen = new Set<string>();
  for await (const { print, type, bytes, who, at, content } of rows(look, "photos")) {
    seen.add(print);
    const logged = photos.get(print);
    if (logged === undefined) look.tell(`The photograph ${print} is not in the log.`);
    else if (
      sha256(content) !== print ||
      content.length !== bytes ||
      logged.bytes !== bytes ||
      logged.who !== who ||
      logged.at !== at ||
      pictureType(content) !== type
    )
      look.tell(`The photograph ${print} was changed.`);
  }
  tellMissing(look, "Photograph", photos.keys(), seen);
}

export async function checkVersions(look: Look): Promise<void> {
  const { versions } = look.says;
  const seen = new Set<string>();
  for await (const { book, version, print, who, at, whole, change } of rows(look, "draft_history")) {
    const key = `${book} ${version}`;
    seen.add(key);
    const logged = versions.get(key);
    const text = await versionText(look.database.db, book, version).catch(() => undefined);
    if (
      logged === undefined ||
      logged.print !== print ||
      logged.who !== who ||
      logged.at !== at ||
      (whole === null) === (change === null) ||
      text === undefined ||
      sha256(text) !== print
    )
      look.tell(`Version ${version} of the draft of ${book} is not the one that was saved.`);
  }
  tellMissing(look, "Draft version", versions.keys(), seen);
}

export async function checkDrafts(look: Look): Promise<void> {
  const { drafts } = look.says;
  const seen = new Set<string>();
  for await (const { book, version, text, print, who, at } of rows(look, "drafts")) {
    seen.add(book);
    const logged = drafts.get(book);
    if (
      logged === undefined ||
      logged.version !== version ||
      logged.print !== print ||
      logged.who !== who ||
      logged.at !== at ||
      sha256(text) !== print
    )
      look.tell(`The draft of ${book} is not the one that was saved last.`);
  }
  tellMissing(look, "Draft", drafts.keys(), seen);
}

export async function checkBooks(look: Look): Promise<void> {
  const { books } = look.says;
  const { db } = look.database;
  const seen = new Set<string>();
  for await (const { name, title, begun } of rows(look, "books")) {
    seen.add(name);
    const logged = books.get(name);
    const from =
      logged?.edition === undefined
        ? await db.selectFrom("drafts").select("text").where("book", "=", name).executeTakeFirst()
        : undefined;
    const sealed =
      logged?.edition === undefined
        ? undefined
        : await db
            .selectFrom("editions")
            .select("title")
            .where("book", "=", name)
            .where("number", "=", logged.edition)
            .executeTakeFirst();
    const right = sealed?.title ?? (from && titleIn(from.text));
    if (logged === undefined || logged.begun !== begun || right !== title)
      look.tell(`The book ${name} is listed otherwise than the log says.`);
  }
  tellMissing(look, "Book", books.keys(), seen);
}

export async function checkPeople(look: Look): Promise<void> {
  const { people, rows: hashes } = look.says;
  const seen = new Set<string>();
  for await (const { id, name, name_key, role, made, password } of rows(look, "people")) {
    seen.add(name);
    const logged = people.get(name);
    const attested = hashes.get(`people ${name}`);
    const kept = sha256(password);
    const is =
      logged !== undefined &&
      logged.role === role &&
      logged.made === made &&
      name_key === nameKeyOf(name) &&
      (logged.id === undefined || logged.id === id) &&
      (logged.kept === undefined
        ? attested === undefined || attested === rowHash({ id, password: kept })
        : logged.kept === kept);
    if (!is) look.tell(`${name} is not among the people as the log says.`);
  }
  tellMissing(look, "The person", people.keys(), seen);
  for (const table of ["sessions", "invitations"] as const)
    for await (const row of rows(look, table)) {
      const begun = "begun" in row ? row.begun : row.made;
      if (begun > look.says.tokensSince && !look.says.tokens.has(tokenName(row.token)))
        look.tell(`Among the ${table} is one that the log does not know.`);
    }
}

/** Rows of jobs follow from their entries, and what came of working them again stands in the log. */
export async function checkJobs(look: Look): Promise<void> {
  const { db } = look.database;
  const { worked, rows: hashes } = look.says;
  for await (const row of rows(look, "jobs")) {
    const entries = await db
      .selectFrom("job_entries")
      .select(entryColumns)
      .where("job", "=", row.id)
      .execute()
      .then((found) => found.map(keptEntry))
      .catch(orDamaged);
    // Damaged entries are told of by themselves.
    if (entries === undefined) continue;
    const { agreement, trace, ...rest } = row;
    const { agreement: _, trace: __, ...right } = rowOf(foldJob(row.id, entries));
    const logged = worked.get(row.id);
    const hash = logged?.trace ?? hashes.get(`traces ${row.id}`);
    const open = agreement === "waiting" || agreement === "not signed";
    if (entries.length === 0 || rowHash(rest) !== rowHash(right))
      look.tell(`The job ${row.id} is listed otherwise than its entries make it.`);
    else if (
      (row.state === "open") !== (agreement === "not signed") ||
      (!open && logged?.says !== agreement) ||
      (!open && trace !== null && hash !== undefined && sha256(trace) !== hash)
    )
      look.tell(`What came of working the job ${row.id} again is not what the log says.`);
    await giveWay();
  }
  const unlisted = await db
    .selectFrom("job_entries")
    .leftJoin("jobs", "jobs.id", "job_entries.job")
    .select("job_entries.job")
    .distinct()
    .where("jobs.id", "is", null)
    .limit(20)
    .execute();
  for (const { job } of unlisted) look.tell(`The job ${job} has entries and is not listed.`);
}
