// The log of the shop's host and its backups: over a file and over a real PostgreSQL server.
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { sql } from "kysely";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { BookRef, CardRecord } from "../../../core/record.ts";
import * as schemas from "../../../core/schemas/host.ts";
import { cardOf } from "../../../core/compare-card.ts";
import {
  type EngineThreads,
  startEngineThreads,
} from "../../../editor/host/engine-threads/engine-threads.ts";
import { backUp, restore, restoredWhole } from "../../../editor/host/database/backup-file.ts";
import { liftGuards, putGuards } from "../../../editor/host/database/write-once-triggers.ts";
import { type DatabasePlace, openDatabase } from "../../../editor/host/database/database.ts";
import { verifyLog } from "../../../editor/host/database/verify.ts";
import { tableKeys } from "../../../editor/host/database/tables.ts";
import { engineVersion, readBook, showJob, workJob } from "../../../engine/index.ts";
import { chance } from "../../support/chance.ts";
import { type TestHost, testHost } from "./support/api.ts";
import { smallBook } from "./support/books.ts";
import { bothPlaces, freshFolder } from "./support/places.ts";
import { jobEntries } from "./support/records.ts";

const print = (content: string | Uint8Array): string => createHash("sha256").update(content).digest("hex");
const cardFor = (text: string, answers: Record<string, string>): CardRecord =>
  cardOf(showJob(workJob(readBook(text), answers)), engineVersion);
const refTo = (text: string, edition: number): BookRef => ({
  name: "small-panels",
  edition,
  print: print(text),
  sealed: true,
});
const october = Date.UTC(2026, 9, 1);

/**
 * A small shop: a draft of two people, an edition, a photograph and signed jobs, one by a text sent later.
 */
async function fillShop(host: TestHost): Promise<void> {
  const luck = chance(10);
  const base = smallBook();
  const draft = "/api/books/small-panels/draft";
  const done = [
    await host.ask("PUT", draft, { base: 0, text: base }),
    await host.ask(
      "PUT",
      draft,
      { base: 1, text: base.replace("1:20", "1:12") },
      { name: "T. Hale", role: "lead" },
    ),
  ];
  const sealed = smallBook({ edition: 1 });
  const fromFile = smallBook({ edition: 77 });
  done.push(
    await host.ask("POST", "/api/books/small-panels/editions", { text: sealed, why: "What is new" }),
    await host.ask("PUT", `/api/texts/${print(fromFile)}`, { text: fromFile }),
  );
  const picture = new Uint8Array(25_000);
  // The head of a PNG of 512 by 256.
  picture.set([137, 80, 78, 71, 13, 10, 26, 10, 0, 0, 0, 13, 73, 72, 68, 82, 0, 0, 2, 0, 0, 0, 1, 0]);
  const photo = await host.raw(`/api/photos/${print(picture)}`, {
    method: "PUT",
    headers: { "Content-Type": "image/png" },
    body: picture,
  });
  const answers = { thickness: "4 mm" };
  for (let i = 0; i < 12; i += 1) {
    const [text, edition] = i % 3 === 0 ? [fromFile, 77] : [sealed, 1];
    const card = i % 2 === 0 ? cardFor(text, answers) : undefined;
    const entries = jobEntries(luck, refTo(text, edition), october + i * 1e6, card, answers);
    done.push(await host.ask("POST", "/api/jobs/entries", { entries }));
  }
  expect([...done.map((one) => one.status), photo.status].filter((one) => one >= 300)).toEqual([]);
  await host.rework.idle();
}

let threads: EngineThreads;
beforeAll(() => {
  threads = startEngineThreads();
});
afterAll(() => threads.close());

describe.each(bothPlaces)("over $name", ({ fresh }) => {
  let place: DatabasePlace;
  let host: TestHost;
  beforeAll(async () => {
    place = await fresh();
    host = await testHost(place, threads);
    await fillShop(host);
  }, 60_000);
  afterAll(() => host?.close());

  test("A08: the log tells who did what, and shows what was tampered with", async () => {
    const list = schemas.logList.parse((await host.ask("GET", "/api/log?limit=500")).body);
    expect(new Set(list.lines.map((line) => line.what))).toEqual(
      new Set(["draft", "edition", "entries", "text", "photo", "worked again"]),
    );
    expect(list.lines.some((line) => line.what === "draft" && line.who === "T. Hale")).toBe(true);
    const whole = schemas.logVerdict.parse((await host.ask("GET", "/api/log/verify")).body);
    expect(whole).toMatchObject({ holds: true, troubles: [] });
    expect(whole.head).toBe(list.lines[0]!.hash);

    const { db, sort } = host.database;
    const rolledBack = new Error("not kept");
    // Someone who can write the database takes the triggers off and changes something: each way shows.
    for (const [statement, says] of [
      ["update log set who = 'nobody' where seq = 3", /Line 3 .* changed/],
      ["delete from log where seq = 4", /missing/],
      ["update log set at = at + 1 where seq = (select max(seq) from log)", /changed/],
      ["update job_entries set body = replace(body, 'front', 'rear')", /Entry .* changed/],
      ["delete from job_entries where id = (select min(id) from job_entries)", /no longer on the shelf/],
      ["update texts set text = replace(text, '1:20', '1:21')", /text .* changed/],
      ["update editions set print = (select min(print) from texts)", /not the one that was sealed/],
      ["delete from photos", /no longer on the shelf/],
    ] as const) {
      await expect(
        db.transaction().execute(async (tx) => {
          await liftGuards(tx, sort);
          await sql.raw(statement).execute(tx);
          const verdict = await verifyLog({ ...host.database, db: tx });
          expect(verdict.holds, statement).toBe(false);
          expect(verdict.troubles.join("\n"), statement).toMatch(says);
          throw rolledBack;
        }),
        statement,
      ).rejects.toBe(rolledBack);
    }
    // Lines cut off at the end show against a newest hash that was noted.
    await expect(
      db.transaction().execute(async (tx) => {
        await liftGuards(tx, sort);
        await sql
          .raw("delete from log where what = 'worked again' and seq = (select max(seq) from log)")
          .execute(tx);
        const last = await tx
          .selectFrom("log")
          .select("hash")
          .orderBy("seq", "desc")
          .limit(1)
          .executeTakeFirstOrThrow();
        const cut = last.hash === whole.head ? "0".repeat(64) : whole.head!;
        expect((await verifyLog({ ...host.database, db: tx }, cut)).holds).toBe(false);
        await putGuards(tx, sort);
        throw rolledBack;
      }),
    ).rejects.toBe(rolledBack);
    expect((await host.ask("GET", `/api/log/verify?head=${list.lines[5]!.hash}`)).body.holds).toBe(true);
  });

  test("a backup is one moment, goes back whole, and a damaged one changes nothing", async () => {
    const luck = chance(16);
    const file = join(freshFolder(), "shop.backup");
    let stop = false;
    // A turn for everyone else between two writes, as over a socket.
    const writing = (async () => {
      for (; !stop; await new Promise(setImmediate))
        expect(
          (
            await host.ask("POST", "/api/jobs/entries", {
              entries: jobEntries(luck, refTo(smallBook(), 1), october),
            })
          ).status,
        ).toBe(200);
    })();
    // As the command does it: by a connection of its own.
    const beside = await openDatabase(place);
    const backup = await backUp(beside, file);
    stop = true;
    await writing;
    await beside.close();
    const rowsNow = async (of: TestHost) =>
      Object.fromEntries(
        await Promise.all(
          tableKeys.map(
            async ({ table, key }) =>
              [
                table,
                (
                  await sql<
                    Record<string, unknown>
                  >`select * from ${sql.table(table)} order by ${sql.join(key.map(sql.ref))}`.execute(
                    of.database.db,
                  )
                ).rows.map((row) =>
                  JSON.stringify(row, (_, value: unknown) =>
                    value instanceof Uint8Array
                      ? print(value)
                      : typeof value === "object" &&
                          value !== null &&
                          "type" in value &&
                          value.type === "Buffer" &&
                          "data" in value
                        ? print(Buffer.from(value.data as number[]))
                        : value,
                  ),
                ),
              ] as const,
          ),
        ),
      );
    expect(backup.rows).toBeGreaterThan(100);

    for (const other of bothPlaces) {
      const back = await testHost(await other.fresh(), threads);
      try {
        const restored = await restore(back.database, file, "a test");
        expect(await restoredWhole(back.database, restored)).toEqual([]);
        expect(restored).toEqual({
          rows: backup.rows,
          form: back.database.form,
          counts: expect.anything(),
          head: backup.head,
          made: backup.made,
        });
        const [here, there] = [await rowsNow(host), await rowsNow(back)];
        // What was written after the moment of the backup is not in it; all else is.
        for (const { table } of tableKeys) {
          if (table === "jobs" || table === "log" || table === "job_entries") continue;
          expect(there[table], table).toEqual(here[table]);
        }
        expect(there["log"]!.slice(0, -1)).toEqual(here["log"]!.slice(0, backup.counts["log"]!));
        expect(there["log"]!.at(-1)).toContain("restored");
        expect(there["job_entries"]!.every((row) => here["job_entries"]!.includes(row))).toBe(true);
        expect(there["job_entries"]).toHaveLength(backup.counts["job_entries"]!);
        await expect(sql`delete from log`.execute(back.database.db)).rejects.toThrow(/never changed/);
        // Work goes on upon it, also over what was there.
        expect(
          (await back.ask("PUT", "/api/books/small-panels/draft", { base: 2, text: "x\n" })).status,
        ).toBe(200);
        const verdict = (await back.ask("GET", "/api/log/verify")).body;
        expect(verdict).toMatchObject({ holds: true, troubles: [] });

        const bytes = readFileSync(file);
        const before = await rowsNow(back);
        for (const [name, damaged] of [
          ["cut", bytes.subarray(0, bytes.length - 40)],
          ["short", bytes.subarray(0, 10)],
          [
            "flipped",
            Buffer.concat([
              bytes.subarray(0, 5000),
              Buffer.from([bytes[5000]! ^ 0x55]),
              bytes.subarray(5001),
            ]),
          ],
          ["text", Buffer.from("no backup")],
          ["empty", Buffer.alloc(0)],
        ] as const) {
          const path = join(freshFolder(), name);
          writeFileSync(path, damaged);
          await expect(restore(back.database, path, "a test"), name).rejects.toThrow(/Nothing was put back/);
        }
        await expect(restore(back.database, join(freshFolder(), "none"), "a test")).rejects.toThrow(
          /no file/,
        );
        expect(await rowsNow(back)).toEqual(before);
        await restore(back.database, file, "a test");
        expect(await restoredWhole(back.database, restored)).toEqual([]);
      } finally {
        await back.close();
      }
    }
  }, 120_000);
});
