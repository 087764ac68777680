// `log --verify` sees a change of any column of any table, and rows that the log does not know: over a file
// and over a real PostgreSQL server.
import { createHash, randomUUID } from "node:crypto";
import { sql } from "kysely";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { cardOf } from "../../../core/compare-card.ts";
import { type Database, openDatabase } from "../../../editor/host/database/database.ts";
import { saveDraft } from "../../../editor/host/database/draft-versions.ts";
import { seal } from "../../../editor/host/database/editions.ts";
import { deliver, keepAgreement } from "../../../editor/host/database/job-table.ts";
import { keepPhoto } from "../../../editor/host/database/photos.ts";
import { type TableName, sealedTables, tableKeys } from "../../../editor/host/database/tables.ts";
import { keepText } from "../../../editor/host/database/texts.ts";
import { verifyLog } from "../../../editor/host/database/verify.ts";
import { liftGuards, putGuards } from "../../../editor/host/database/write-once-triggers.ts";
import { inviteFirst, takeInvitation } from "../../../editor/host/people/accounts.ts";
import { engineVersion, readBook, showJob, workJob } from "../../../engine/index.ts";
import { chance } from "../../support/chance.ts";
import { smallBook } from "./support/books.ts";
import { bothPlaces } from "./support/places.ts";
import { jobEntries } from "./support/records.ts";

const hash = (content: string | Uint8Array): string => createHash("sha256").update(content).digest("hex");
type Row = Record<string, unknown>;

/** A shop with a row in each table. */
async function fill(database: Database): Promise<void> {
  const text = smallBook({ edition: 1 });
  await saveDraft(database, "Ilse Marrow", "small-panels", { base: 0, text });
  await saveDraft(database, "Ilse Marrow", "small-panels", { base: 1, text: `${text}\n-- more\n` });
  await seal(database, "Ilse Marrow", {
    book: "small-panels",
    number: 1,
    title: "Small panels",
    print: hash(text),
    text,
    stands: [],
    why: "first",
    standing: { goals: 1, proved: 1, done: true, engine: engineVersion },
    faults: [{ is: "promise", says: "Broken" }],
    reason: "as agreed",
  });
  await keepText(database, "Bo Hale", hash("another"), "another");
  const png = Buffer.alloc(40);
  png.set([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52]);
  png[19] = 2;
  png[23] = 2;
  await keepPhoto(database, "Bo Hale", hash(png), png);
  const ref = { name: "small-panels", edition: 1, print: hash(text), sealed: true };
  const card = cardOf(showJob(workJob(readBook(text), { thickness: "3 mm" })), engineVersion);
  const entries = jobEntries(chance(3), ref, Date.UTC(2026, 9, 1), card, { thickness: "3 mm" });
  await deliver(database, { name: "Bo Hale" }, entries, Date.now() + 5000);
  const same = { says: "same" as const, now: engineVersion, differences: [] };
  await keepAgreement(database, entries[0]!.job, ref.print, same, Buffer.from("traces"));
  const { token } = (await inviteFirst(database))!;
  await takeInvitation(database, {
    token,
    name: "Ilse Marrow",
    password: "seven dry cloths on a rail",
    address: "a",
    device: "d",
  });
}

const other = (value: unknown): unknown =>
  typeof value === "number"
    ? value + 100
    : value instanceof Uint8Array
      ? Buffer.concat([value, Buffer.from([1])])
      : value === null
        ? "1"
        : `${value as string}x`;

const keysOf = (table: TableName): readonly string[] =>
  tableKeys.find((one) => one.table === table)?.key ?? ["token"];
const sameKey = (key: readonly string[], row: Row) =>
  sql.join(
    key.map((name) => sql`${sql.ref(name)} = ${row[name]}`),
    sql` and `,
  );

describe.each(bothPlaces)("over $name", ({ fresh }) => {
  let database: Database;
  beforeAll(async () => {
    database = await openDatabase(await fresh());
    await fill(database);
  }, 60_000);
  afterAll(() => database?.close());

  const rowOf = async (table: TableName): Promise<Row> => {
    const { rows } = await sql<Row>`select * from ${sql.table(table)} limit 1`.execute(database.db);
    return rows[0]!;
  };
  /** Past all guards, as whoever can write to the file would. */
  const change = async (action: () => Promise<unknown>): Promise<void> => {
    await liftGuards(database.db, database.sort);
    if (database.sort === "file") await sql`pragma foreign_keys = off`.execute(database.db);
    await action();
    if (database.sort === "file") await sql`pragma foreign_keys = on`.execute(database.db);
    await putGuards(database.db, database.sort, sealedTables);
  };

  test("a shop that nobody has touched is whole", async () => {
    expect(await verifyLog(database)).toMatchObject({ holds: true, troubles: [] });
  });

  test("a change of any column shows", async () => {
    const unseen: string[] = [];
    for (const { table, key } of tableKeys) {
      const row = await rowOf(table);
      for (const [column, value] of Object.entries(row)) {
        // The server holds names of books together by itself.
        const held =
          ["book", "name"].includes(column) && ["drafts", "draft_history", "books"].includes(table);
        if (held && database.sort === "server") continue;
        if (table === "editions" && column === "book" && database.sort === "server") continue;
        const [there, changed] = [sameKey(key, row), sameKey(key, { ...row, [column]: other(value) })];
        await change(() =>
          sql`update ${sql.table(table)} set ${sql.ref(column)} = ${other(value)} where ${there}`.execute(
            database.db,
          ),
        );
        const { holds } = await verifyLog(database);
        if (holds) unseen.push(`${table}.${column}`);
        await change(() =>
          sql`update ${sql.table(table)} set ${sql.ref(column)} = ${value} where ${changed}`.execute(
            database.db,
          ),
        );
      }
    }
    expect(unseen).toEqual([]);
    expect(await verifyLog(database)).toMatchObject({ holds: true, troubles: [] });
  }, 120_000);

  test("a row that the log does not know shows, and so does a row that is gone", async () => {
    const planted: readonly [TableName, Row][] = [
      ["texts", { print: hash("planted"), text: "planted" }],
      ["photos", { ...(await rowOf("photos")), print: hash("p") }],
      ["editions", { ...(await rowOf("editions")), number: 2 }],
      ["draft_history", { ...(await rowOf("draft_history")), version: 9 }],
      ["job_entries", { ...(await rowOf("job_entries")), id: randomUUID() }],
      ["job_entries", { ...(await rowOf("job_entries")), id: randomUUID(), line: 0 }],
      ["books", { name: "planted", title: "", begun: 1 }],
      ["jobs", { ...(await rowOf("jobs")), id: randomUUID() }],
      ["people", { ...(await rowOf("people")), id: randomUUID(), name: "Nemo", name_key: "nemo" }],
      ["sessions", { ...(await rowOf("sessions")), token: hash("session") }],
      [
        "invitations",
        { token: hash("i"), role: "lead", person: null, who: "x", made: Date.now(), ends: 9e15 },
      ],
    ];
    const unseen: string[] = [];
    for (const [table, row] of planted) {
      await database.db
        .insertInto(table)
        .values(row as never)
        .execute();
      if ((await verifyLog(database)).holds) unseen.push(table);
      await change(() =>
        sql`delete from ${sql.table(table)} where ${sameKey(keysOf(table), row)}`.execute(database.db),
      );
    }
    expect(unseen).toEqual([]);
    for (const { table } of tableKeys) {
      const row = await rowOf(table);
      // Books are held by their drafts and editions.
      if (table === "books" && database.sort === "server") continue;
      await change(() =>
        sql`delete from ${sql.table(table)} where ${sameKey(keysOf(table), row)}`.execute(database.db),
      );
      if ((await verifyLog(database)).holds) unseen.push(`${table} gone`);
      await change(() =>
        database.db
          .insertInto(table)
          .values(row as never)
          .execute(),
      );
    }
    expect(unseen).toEqual([]);
    expect(await verifyLog(database)).toMatchObject({ holds: true, troubles: [] });
  }, 120_000);
});
