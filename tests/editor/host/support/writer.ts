// A process that writes to a shelf until it is killed, and says of each write when it was acknowledged. It
// waits for its place on standard input, so that starting the program is no part of what the test waits for.
import { writeSync } from "node:fs";
import { rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { deliver } from "../../../../editor/host/database/job-table.ts";
import { saveDraft } from "../../../../editor/host/database/draft-versions.ts";
import {
  type Database,
  type DatabasePlace,
  openDatabase,
} from "../../../../editor/host/database/database.ts";
import { Trouble } from "../../../../editor/host/trouble.ts";
import { backUp } from "../../../../editor/host/database/backup-file.ts";
import { verifyLog } from "../../../../editor/host/database/verify.ts";
import { chance } from "../../../support/chance.ts";
import { jobEntries } from "./records.ts";

export interface Order {
  readonly place: DatabasePlace;
  readonly seed: number /** `fill`: until the disk is full; then room is made, and it goes on for a while. */;
  readonly does: "write" | "fill";
}

const say = (line: unknown): void => {
  writeSync(1, `${JSON.stringify(line)}\n`);
};

async function write({ place, seed, does }: Order): Promise<void> {
  const luck = chance(seed);
  const ballast = join(place.data, "ballast");
  if (does === "fill") await writeFile(ballast, new Uint8Array(400_000)).catch(() => undefined);
  const database = await openDatabase(place);
  say({ open: true });
  let left = Infinity;
  for (let i = 0; left > 0; i += 1, left -= 1) {
    try {
      await one(database, luck, seed, i);
    } catch (cause) {
      if (!(cause instanceof Trouble)) throw cause;
      say({ trouble: cause.message, status: cause.status });
      if (does === "write") return;
      if (left !== Infinity) break;
      await readOnFull(place);
      await rm(ballast, { force: true });
      left = 20;
    }
    // A turn for what comes in.
    if (i % 8 === 0) await new Promise(setImmediate);
  }
  say({ verdict: await verifyLog(database) });
  await database.close();
}

/** What only reads works on the full disk, and a backup to another disk as well. */
async function readOnFull(place: DatabasePlace): Promise<void> {
  const database = await openDatabase(place, { reading: true });
  const other = join(tmpdir(), `full-${process.pid}.backup`);
  try {
    const { rows } = await backUp(database, other);
    const { holds } = await verifyLog(database);
    say({ read: { rows, holds } });
  } finally {
    await rm(other, { force: true });
    await database.close();
  }
}

async function one(
  database: Database,
  luck: ReturnType<typeof chance>,
  seed: number,
  i: number,
): Promise<void> {
  if (luck.odds(0.3)) {
    const text = `book b${seed}\nfigure f${i} = ${i}\n`;
    const saved = await saveDraft(database, "a writer", `b${seed}`, { base: versions, text });
    if (saved.is === "saved") {
      versions = saved.saved.version;
      say({ book: `b${seed}`, version: versions });
    }
  } else {
    const entries = jobEntries(
      luck,
      { name: "b", print: "0".repeat(64), sealed: true },
      Date.UTC(2026, 9, 1),
    );
    const { taken } = await deliver(database, { name: "a writer" }, entries);
    say({ entries: taken });
  }
}
let versions = 0;

createInterface({ input: process.stdin }).once("line", (line) => {
  write(JSON.parse(line) as Order).then(
    () => process.exit(0),
    (cause: unknown) => {
      say(
        cause instanceof Trouble
          ? { trouble: cause.message, status: cause.status }
          : { fault: cause instanceof Error ? `${cause.message}\n${cause.stack}` : String(cause) },
      );
      process.exit(1);
    },
  );
});
