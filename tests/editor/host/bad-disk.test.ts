// A disk that changes bytes: nothing ends the process, what is lost is told, and what is good can be saved.
import { copyFileSync, mkdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import {
  type EngineThreads,
  startEngineThreads,
} from "../../../editor/host/engine-threads/engine-threads.ts";
import { backUp, restore } from "../../../editor/host/database/backup-file.ts";
import { fileName, openDatabase } from "../../../editor/host/database/database.ts";
import { structureFaults } from "../../../editor/host/database/newest-line.ts";
import { salvage } from "../../../editor/host/database/salvage.ts";
import { verifyLog } from "../../../editor/host/database/verify.ts";
import { openHost } from "../../../editor/host/host.ts";
import { Trouble } from "../../../editor/host/trouble.ts";
import { chance } from "../../support/chance.ts";
import { freshFolder } from "./support/places.ts";
import { newDatabase } from "./support/postgres.ts";
import { fillShelf } from "./support/volume.ts";

let threads: EngineThreads;
let whole: Buffer;
beforeAll(async () => {
  threads = startEngineThreads();
  const folder = freshFolder();
  const database = await openDatabase({ data: folder });
  await fillShelf(database, 40, 2);
  await database.close();
  whole = readFileSync(join(folder, fileName));
}, 60_000);
afterAll(() => threads.close());

const folderWith = (bytes: Uint8Array): string => {
  const folder = freshFolder();
  writeFileSync(join(folder, fileName), bytes);
  return folder;
};

/** The file with one byte of a text in it no longer UTF-8. */
function withBadByte(text: string): Buffer {
  const bytes = Buffer.from(whole);
  const at = bytes.indexOf(text);
  expect(at).toBeGreaterThan(0);
  bytes[at] = 0xff;
  return bytes;
}

test("a byte that is no UTF-8: verify names the row, a backup says so, salvage saves the rest", async () => {
  // In the body of an entry, which the database reads as text.
  const folder = folderWith(withBadByte('checked by tapping"}'));
  const database = await openDatabase({ data: folder });
  const verdict = await verifyLog(database);
  expect(verdict.holds).toBe(false);
  expect(verdict.troubles.join("\n")).toMatch(/damaged/);
  await expect(backUp(database, join(folder, "out.backup"))).rejects.toThrow(/data file is damaged/);
  await database.close();

  const saved = join(folder, "saved.backup");
  const { backup, lost } = await salvage(folder, saved);
  expect(lost).toHaveLength(1);
  expect(lost[0]).toMatch(/job entries/);
  expect(statSync(saved).mode & 0o777).toBe(0o600);
  // Put back elsewhere it is a shop again, and one entry is told to be missing.
  const next = await openDatabase({ data: freshFolder() });
  await restore(next, saved, "a test");
  const entries = await next.db.selectFrom("job_entries").select("id").execute();
  expect(entries.length).toBe(backup.counts["job_entries"]);
  const after = await verifyLog(next);
  expect(after.troubles).toHaveLength(1);
  expect(after.troubles[0]).toMatch(/^Entry [0-9a-f-]{36} is in the log and no longer on the shelf/);
  await next.close();
}, 60_000);

test("whatever byte is flipped: no end of the process, and nothing but sentences", async () => {
  const luck = chance(5);
  const seen = new Set<string>();
  for (let n = 0; n < 40; n += 1) {
    const bytes = Buffer.from(whole);
    // Every other time where the tables are described.
    const at = luck.whole(n % 2 === 0 ? bytes.length : 3 * 4096);
    bytes[at]! ^= n % 3 === 0 ? 1 << luck.whole(8) : 0x80;
    const folder = folderWith(bytes);
    try {
      const database = await openDatabase({ data: folder });
      try {
        await structureFaults(database.db);
        seen.add((await verifyLog(database)).holds ? "whole" : "told");
      } finally {
        await database.close();
      }
    } catch (cause) {
      expect([at, cause]).toEqual([at, expect.any(Error)]);
      seen.add("refused");
    }
    await salvage(folder, join(folder, "saved.backup")).catch((cause: unknown) => {
      expect([at, cause]).toEqual([at, expect.any(Trouble)]);
    });
  }
  expect(seen).toContain("told");
}, 120_000);

test("a whole page of nothing costs its rows alone", async () => {
  const bytes = Buffer.from(whole);
  const at = bytes.indexOf('checked by tapping"}');
  bytes.fill(0, at - (at % 4096), at - (at % 4096) + 4096);
  const folder = folderWith(bytes);
  const { backup, lost } = await salvage(folder, join(folder, "saved.backup"));
  expect(lost.length).toBeGreaterThan(0);
  expect(backup.counts["editions"]).toBe(2);
  expect(backup.counts["log"]).toBeGreaterThan(0);
  // A host does not begin to write into it.
  const host = await openHost(folder, { host: "127.0.0.1", port: 0 }, { data: folder, proofSeconds: 0 });
  expect(host).toEqual({ failed: expect.stringMatching(/damaged.*bevelbook salvage/) });
});

test("writes that the disk took back are told: at the start, in the log, and by verify", async () => {
  const folder = freshFolder();
  const database = await openDatabase({ data: folder });
  for (let n = 0; n < 50; n += 1) await database.write("a test", (_tx, log) => log("test", { n }));
  // As a power cut finds it: the last writes stand in the log beside the file, and one bit of that is wrong.
  const cut = join(freshFolder(), "cut");
  mkdirSync(cut);
  for (const name of [fileName, `${fileName}-wal`, "newest-line"])
    copyFileSync(join(folder, name), join(cut, name));
  await database.close();
  const wal = readFileSync(join(cut, `${fileName}-wal`));
  wal[Math.floor(wal.length / 2)]! ^= 1;
  writeFileSync(join(cut, `${fileName}-wal`), wal);
  const again = await openDatabase({ data: cut });
  expect(again.lost?.to).toBe(50);
  expect(again.lost!.from).toBeLessThan(50);
  expect((await verifyLog(again)).troubles[0]).toMatch(/The last writes are gone: lines \d+ to 50/);
  await again.close();
  const host = await openHost(cut, { host: "127.0.0.1", port: 0 }, { data: cut, proofSeconds: 0 });
  if ("failed" in host) throw new Error(host.failed);
  const line = await host.database.db.selectFrom("log").select("what").orderBy("seq", "desc").execute();
  expect(line[0]).toEqual({ what: "lines lost" });
  expect((await verifyLog(host.database)).holds).toBe(false);
  await host.close();
  // From here on the newest line is known again.
  const third = await openDatabase({ data: cut });
  expect(third.lost).toBeUndefined();
  await third.close();
}, 60_000);

test("an empty file in the place of a log with lines is refused, and a restore is no loss", async () => {
  const folder = freshFolder();
  const database = await openDatabase({ data: folder });
  await database.write("a test", (_tx, log) => log("test", {}));
  const early = join(folder, "early.backup");
  await backUp(database, early);
  for (let n = 0; n < 9; n += 1) await database.write("a test", (_tx, log) => log("test", {}));
  await restore(database, early, "a test");
  await database.close();
  const again = await openDatabase({ data: folder });
  expect(again.lost).toBeUndefined();
  await again.close();
  writeFileSync(join(folder, fileName), "");
  await expect(openDatabase({ data: folder })).rejects.toThrow(/is empty, and the log had 2 lines/);
});

test("hosts on several servers may share a folder, and nothing counts as lost", async () => {
  const data = freshFolder();
  for (let n = 0; n < 2; n += 1) {
    const place = { data, database: await newDatabase(inject("server")) };
    const database = await openDatabase(place);
    expect(database.lost).toBeUndefined();
    await database.write("a test", (_tx, log) => log("test", {}));
    await database.close();
  }
});

test("nobody else on the machine reads the data", async () => {
  const folder = join(freshFolder(), "data");
  const database = await openDatabase({ data: folder });
  await database.write("a test", (_tx, log) => log("test", {}));
  for (const name of [fileName, `${fileName}-wal`, `${fileName}-shm`, "newest-line"])
    expect([name, statSync(join(folder, name)).mode & 0o777]).toEqual([name, 0o600]);
  expect(statSync(folder).mode & 0o777).toBe(0o700);
  await database.close();
});
