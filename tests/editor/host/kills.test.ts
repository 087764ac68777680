// The host killed in the middle of writing: what it had acknowledged is there, what it had not is there whole
// or not at all, and the data opens again. Killing a process leaves what the system has not brought to the
// disk yet in its memory, so this shows no loss by a kill; that a power cut loses nothing rests on the
// databases, which are told to bring each write to the disk (synchronous = FULL, and the server's own).
import Database from "libsql";
import { join } from "node:path";
import { afterAll, beforeAll, expect, onTestFinished, test } from "vitest";
import { fileName, openDatabase, type DatabasePlace } from "../../../editor/host/database/database.ts";
import { verifyLog } from "../../../editor/host/database/verify.ts";
import { chance } from "../../support/chance.ts";
import { freshFolder } from "./support/places.ts";
import { startServer } from "./support/postgres.ts";
import { type Said, type Writers, buildWriters } from "./support/writers.ts";

let writers: Writers;
beforeAll(async () => {
  writers = await buildWriters(3);
}, 60_000);
afterAll(() => writers?.close());

const kills = 200;
const pause = (milliseconds: number) =>
  new Promise((resolve) => {
    setTimeout(resolve, milliseconds);
  });

/** What is on the disk, seen past the host. */
function inFile(folder: string): {
  readonly entries: Set<string>;
  readonly versions: Map<string, number>;
  readonly check: unknown;
} {
  const db = new Database(join(folder, fileName));
  try {
    const tables = db.prepare("select name from sqlite_master where name = 'job_entries'").all([]);
    const check = (db.prepare("PRAGMA integrity_check").all([]) as { integrity_check: string }[])[0]!
      .integrity_check;
    if (tables.length === 0) return { entries: new Set(), versions: new Map(), check };
    return {
      check,
      entries: new Set(
        (db.prepare("select id from job_entries").all([]) as { id: string }[]).map((row) => row.id),
      ),
      versions: new Map(
        (db.prepare("select book, version from drafts").all([]) as { book: string; version: number }[]).map(
          (row) => [row.book, row.version],
        ),
      ),
    };
  } finally {
    db.close();
  }
}

test(`${kills} kills at chance moments: no acknowledged write is lost, no file broken`, async () => {
  const luck = chance(2026);
  const acknowledged = new Map<string, { entries: Set<string>; versions: Map<string, number> }>();
  let old = freshFolder();
  const moments = { beforeOpen: 0, writing: 0 };
  let killed = 0;
  for (let round = 0; killed < kills; round += 1) {
    if (round % 40 === 39) old = freshFolder();
    // Most on a shelf that grows, some while a new one is being made; in some rounds two hosts write the same
    // file.
    const folder = round % 10 === 9 ? freshFolder() : old;
    const seen = acknowledged.get(folder) ?? {
      entries: new Set<string>(),
      versions: new Map<string, number>(),
    };
    acknowledged.set(folder, seen);
    const running = Array.from({ length: Math.min(round % 4 === 3 ? 2 : 1, kills - killed) }, (_, i) => {
      const one = writers.next();
      one.start({ place: { data: folder }, seed: 10 * round + i, does: "write" });
      return one;
    });
    if (luck.odds(0.85)) await Promise.all(running.map((one) => one.until((said) => said.open === true)));
    await pause(luck.next() * 40);
    await Promise.all(running.map((one) => one.kill()));
    killed += running.length;
    for (const one of running) {
      const lines = one.lines();
      if (lines.length === 0) moments.beforeOpen += 1;
      else moments.writing += 1;
      expect(lines.filter((said: Said) => said.fault !== undefined || said.trouble !== undefined)).toEqual(
        [],
      );
      for (const said of lines) {
        for (const id of said.entries ?? []) seen.entries.add(id);
        if (said.book !== undefined)
          seen.versions.set(said.book, Math.max(said.version!, seen.versions.get(said.book) ?? 0));
      }
    }
    const found = inFile(folder);
    expect(found.check).toBe("ok");
    for (const id of seen.entries)
      expect(found.entries.has(id), `entry ${id} after kill ${killed}`).toBe(true);
    for (const [book, version] of seen.versions)
      expect(found.versions.get(book) ?? 0, `draft ${book} after kill ${killed}`).toBeGreaterThanOrEqual(
        version,
      );
  }
  let written = 0;
  for (const [folder, { entries }] of acknowledged) {
    written += entries.size;
    const database = await openDatabase({ data: folder });
    // What was not acknowledged is there with its line in the log, or not at all.
    expect(await verifyLog(database)).toMatchObject({ holds: true, troubles: [] });
    await database.close();
  }
  expect(killed).toBe(kills);
  expect(moments.writing).toBeGreaterThan(kills / 2);
  expect(written).toBeGreaterThan(kills);
}, 280_000);

test("20 kills of the host and 3 of the PostgreSQL server: no acknowledged write is lost", async () => {
  const luck = chance(2027);
  const server = await startServer();
  onTestFinished(() => server.stop());
  const place: DatabasePlace = { data: "", database: await server.database() };
  const entries = new Set<string>();
  for (let round = 0; round < 23; round += 1) {
    const one = writers.next();
    one.start({ place, seed: round, does: "write" });
    await one.until((said) => said.open === true);
    await pause(luck.next() * 150);
    if (round < 20) await one.kill();
    else {
      await server.cut();
      // The writer notices, says so in a sentence, and ends; it had not acknowledged that write.
      await one.ended();
      expect(one.lines().at(-1)).toEqual({
        status: 503,
        trouble: expect.stringMatching(/does not answer as it should .* nothing of this was saved/),
      });
    }
    for (const said of one.lines()) for (const id of said.entries ?? []) entries.add(id);
  }
  const database = await openDatabase(place);
  const found = new Set(
    (await database.db.selectFrom("job_entries").select("id").execute()).map((row) => row.id),
  );
  for (const id of entries) expect(found.has(id)).toBe(true);
  expect(entries.size).toBeGreaterThan(20);
  expect(await verifyLog(database)).toMatchObject({ holds: true, troubles: [] });
  await database.close();
}, 120_000);
