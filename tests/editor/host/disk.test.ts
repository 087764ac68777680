// A full disk, a folder that can only be read, a file that is none: a clear sentence, and nothing lost.
import { spawnSync } from "node:child_process";
import { chmodSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { fileName, openDatabase } from "../../../editor/host/database/database.ts";
import { verifyLog } from "../../../editor/host/database/verify.ts";
import { freshFolder } from "./support/places.ts";
import { type Said, type Writers, buildWriters } from "./support/writers.ts";

let writers: Writers;
beforeAll(async () => {
  writers = await buildWriters(0);
}, 60_000);
afterAll(() => writers?.close());

/**
 * Whether a small disk can be made for a test here; where it cannot, the limit on the size of a file stands
 * for it.
 */
const mayMount =
  spawnSync("unshare", ["-rm", "sh", "-c", "mount -t tmpfs -o size=1m tmpfs /mnt"], { stdio: "ignore" })
    .status === 0;
const entriesOf = (lines: readonly Said[]): string[] => lines.flatMap((said) => said.entries ?? []);

test("a file that may grow no further: one sentence, nothing lost, and it goes on later", async () => {
  const folder = freshFolder();
  // In blocks of 512 bytes: 2 MB.
  const writer = writers.command("ulimit -f 4000;");
  writer.start({ place: { data: folder }, seed: 1, does: "write" });
  await writer.ended();
  const lines = writer.lines();
  expect(lines.at(-1)).toEqual({
    trouble: expect.stringMatching(/nothing of this was saved.*What was saved before is safe/),
    status: 507,
  });
  const entries = entriesOf(lines);
  expect(entries.length).toBeGreaterThan(100);
  const database = await openDatabase({ data: folder });
  const there = new Set(
    (await database.db.selectFrom("job_entries").select("id").execute()).map((row) => row.id),
  );
  for (const id of entries) expect(there.has(id)).toBe(true);
  expect(await verifyLog(database)).toMatchObject({ holds: true });
  await database.write("a test", (_tx, tell) => tell("test", {}));
  await database.close();
}, 60_000);

test.runIf(mayMount)(
  "a full disk: told in a sentence; when there is room again the same host goes on, and nothing is lost",
  async () => {
    const folder = freshFolder();
    const writer = writers.command(
      `exec unshare -rm sh -c 'mount -t tmpfs -o size=3m tmpfs ${folder} && exec "$0" "$1"' "$0" "$1";`,
    );
    writer.start({ place: { data: folder }, seed: 2, does: "fill" });
    await writer.ended();
    const lines = writer.lines();
    const trouble = lines.find((said) => said.trouble !== undefined);
    expect(trouble).toEqual({
      trouble:
        "The disk is full, so nothing of this was saved. What was saved before is " +
        "safe. Free some space and do it again.",
      status: 507,
    });
    const at = lines.indexOf(trouble!);
    expect(lines[at + 1]).toEqual({ read: { rows: expect.any(Number), holds: true } });
    expect(entriesOf(lines.slice(0, at)).length).toBeGreaterThan(100);
    // After room was made the same process wrote on, and the log holds all that it had acknowledged before.
    expect(entriesOf(lines.slice(at)).length).toBeGreaterThan(10);
    expect(lines.at(-1)!.verdict).toMatchObject({ holds: true, troubles: [] });
  },
  60_000,
);

test("a folder that may not be written is refused in a sentence that says what to do", async () => {
  const folder = freshFolder();
  const inside = join(folder, "data");
  mkdirSync(inside);
  if (process.getuid?.() === 0) {
    // The administrator may write everywhere but on a disk that can only be read.
    if (mayMount) {
      const writer = writers.command(
        `exec unshare -rm sh -c 'mount -t tmpfs -o ro tmpfs ${inside} && exec "$0" "$1"' "$0" "$1";`,
      );
      writer.start({ place: { data: inside }, seed: 3, does: "write" });
      await writer.ended();
      expect(writer.lines()).toEqual([
        {
          trouble:
            `The data folder ${inside} is on a disk that can only be read. Set ` +
            "BEVELBOOK_DATA to a folder that can be.",
          status: 503,
        },
      ]);
    }
  } else {
    chmodSync(inside, 0o555);
    await expect(openDatabase({ data: inside })).rejects.toThrow(
      `This account may not write in the data folder ${inside}. Set BEVELBOOK_DATA to a folder that can be.`,
    );
  }
  writeFileSync(join(folder, "file"), "");
  await expect(openDatabase({ data: join(folder, "file") })).rejects.toThrow(
    "is a file and cannot be the data folder",
  );
  await expect(openDatabase({ data: join(folder, "file", "below") })).rejects.toThrow(
    "is a file and cannot be the data folder",
  );
}, 60_000);

test("a file that is no data file and a server that is away are told in a sentence", async () => {
  const folder = freshFolder();
  writeFileSync(join(folder, fileName), "this is a letter, and no data file at all".repeat(100));
  await expect(openDatabase({ data: folder })).rejects.toThrow(
    /is not a data file of Bevelbook, or it is damaged/,
  );
  expect(readFileSync(join(folder, fileName), "utf8")).toContain("this is a letter");
  await expect(
    openDatabase({ data: folder, database: "postgres://nobody@127.0.0.1:1/none" }),
  ).rejects.toThrow(/does not answer as it should/);
  await expect(openDatabase({ data: folder, database: "shelf" })).rejects.toThrow(
    /not an address like postgres/,
  );
});
