// `bevelbook backup FILE` and `bevelbook restore FILE`: all of the shop's data as one file and back, while
// the host runs.
import { join } from "node:path";
import { type Command, CallError } from "./call.ts";
import { atTheTerminal, withShelf } from "./open-database.ts";

export const backupCommand: Command = {
  usage: "FILE",
  says: "Writes all of the shop's data into FILE, as it stands at this moment; the host may run.",
  options: {},
  run: async (files) => {
    const file = oneFile(files);
    return withShelf(async (database) => {
      const { backUp } = await import("../host/database/backup.ts");
      const { rows, counts, head } = await backUp(database, file);
      process.stdout.write(
        `${file}: ${rowsText(rows)} (${countsText(counts)}) of ${database.where}.\n${head === undefined ? "" : `Newest line of the log: ${head}\n`}`,
      );
      return 0;
    });
  },
};

export const restoreCommand: Command = {
  usage: "FILE",
  says: "Puts a backup in the place of the shop's data, whole or not at all; the host may run. What was there is backed up first, beside it.",
  options: {},
  run: async (files) => {
    const file = oneFile(files);
    return withShelf(async (database, data) => {
      const { backUp, readBackup, restore, restoredWhole } = await import("../host/database/backup.ts");
      const { mkdir } = await import("node:fs/promises");
      // A file that cannot be put back leaves nothing behind beside the data.
      await readBackup(database, file);
      if ((await database.db.selectFrom("log").select("seq").limit(1).executeTakeFirst()) !== undefined) {
        await mkdir(data, { recursive: true });
        const kept = join(data, `before-restore-${new Date().toISOString().replace(/[:.]/g, "-")}.backup`);
        await backUp(database, kept);
        process.stdout.write(`What was there is kept in ${kept}.\n`);
      }
      const backup = await restore(database, file, atTheTerminal);
      const troubles = await restoredWhole(database, backup);
      process.stdout.write(
        `${rowsText(backup.rows)} of ${new Date(backup.made).toISOString()} ${backup.rows === 1 ? "is" : "are"} back in ${database.where}.\n`,
      );
      for (const trouble of troubles) process.stdout.write(`${trouble}\n`);
      return troubles.length === 0 ? 0 : 1;
    });
  },
};

function oneFile(files: readonly string[]): string {
  if (files.length !== 1) throw new CallError("Name the one file of the backup.");
  return files[0]!;
}

const rowsText = (rows: number): string => `${rows} ${rows === 1 ? "row" : "rows"}`;
const countsText = (counts: Readonly<Record<string, number>>): string =>
  Object.entries(counts)
    .filter(([, count]) => count > 0)
    .map(([table, count]) => `${table.replaceAll("_", " ")} ${count}`)
    .join(", ") || "nothing yet";
