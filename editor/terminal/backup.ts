// `bevelbook backup FILE` and `bevelbook restore FILE`: all of the shop's data as one file and back, while
// the host runs.
import { join, resolve } from "node:path";
import type { Database } from "../host/database/database.ts";
import { type Command, CallError, type Io, counted } from "./call.ts";
import { atTheTerminal, withDatabase } from "./open-database.ts";

export const backupCommand: Command = {
  usage: "FILE",
  says: "Writes all of the shop's data into FILE, as it stands at this moment; the host may run.",
  options: {},
  run: async (files, _options, io) => {
    const file = oneFile(files);
    const write = async (database: Database): Promise<0> => {
      const { backUp } = await import("../host/database/backup-file.ts");
      const { rows, counts, head } = await backUp(database, resolve(io.cwd, file));
      io.stdout.write(`${file}: ${counted(rows, "row")} (${countsText(counts)}) of ${database.where}.\n`);
      if (head !== undefined) io.stdout.write(`Newest line of the log: ${head}\n`);
      return 0;
    };
    return withDatabase(io, write, { reading: true });
  },
};

/** Lost things printed; of more only the number is said. */
const mostListed = 200;

export const salvageCommand: Command = {
  usage: "FILE",
  says:
    "Saves what is good of a damaged data file into FILE, a backup that restore puts back, and lists what " +
    "is not. Changes nothing of the data.",
  options: {},
  run: async (files, _options, io) => {
    const file = oneFile(files);
    const [{ databaseSettings }, { salvage }, { Trouble }] = await Promise.all([
      import("../host/run.ts"),
      import("../host/database/salvage.ts"),
      import("../host/trouble.ts"),
    ]);
    const settings = databaseSettings(io.env);
    if ("wrong" in settings) throw new CallError(settings.wrong);
    if (settings.database !== undefined)
      throw new CallError("bevelbook salvage is for a data file; a server has tools of its own for this.");
    const { backup, lost } = await salvage(settings.data, resolve(io.cwd, file)).catch((cause: unknown) => {
      throw cause instanceof Trouble ? new CallError(cause.message) : cause;
    });
    io.stdout.write(`${file}: ${counted(backup.rows, "row")} saved (${countsText(backup.counts)}).\n`);
    for (const one of lost.slice(0, mostListed)) io.stdout.write(`${one}\n`);
    if (lost.length > mostListed) io.stdout.write(`and ${lost.length - mostListed} more.\n`);
    io.stdout.write(
      lost.length === 0 ? "Nothing was lost.\n" : `${counted(lost.length, "trouble")} in all.\n`,
    );
    return lost.length === 0 ? 0 : 1;
  },
};

export const restoreCommand: Command = {
  usage: "FILE",
  says:
    "Puts a backup in the place of the shop's data, whole or not at all; the host may run. " +
    "What was there is backed up first, beside it.",
  options: {},
  run: async (files, _options, io) => {
    const file = oneFile(files);
    return withDatabase(io, (database, data) => restoreFile(io, database, data, resolve(io.cwd, file)));
  },
};

async function restoreFile(io: Io, database: Database, data: string, file: string): Promise<0 | 1> {
  const { readBackup, restore, restoredWhole } = await import("../host/database/backup-file.ts");
  // A file that cannot be put back leaves nothing behind beside the data.
  await readBackup(database, file);
  await keepPresent(io, database, data);
  const backup = await restore(database, file, atTheTerminal);
  const troubles = await restoredWhole(database, backup);
  const made = new Date(backup.made).toISOString();
  const are = backup.rows === 1 ? "is" : "are";
  io.stdout.write(`${counted(backup.rows, "row")} of ${made} ${are} back in ${database.where}.\n`);
  for (const trouble of troubles) io.stdout.write(`${trouble}\n`);
  return troubles.length === 0 ? 0 : 1;
}

/** Backs up what the database has now, if anything. */
async function keepPresent(io: Io, database: Database, data: string): Promise<void> {
  const line = await database.db.selectFrom("log").select("seq").limit(1).executeTakeFirst();
  if (line === undefined) return;
  const { backUp } = await import("../host/database/backup-file.ts");
  const { mkdir } = await import("node:fs/promises");
  await mkdir(data, { recursive: true });
  const kept = join(data, `before-restore-${new Date().toISOString().replace(/[:.]/g, "-")}.backup`);
  await backUp(database, kept);
  io.stdout.write(`What was there is kept in ${kept}.\n`);
}

function oneFile(files: readonly string[]): string {
  if (files.length !== 1) throw new CallError("Name the one file of the backup.");
  return files[0]!;
}

const countsText = (counts: Readonly<Record<string, number>>): string =>
  Object.entries(counts)
    .filter(([, count]) => count > 0)
    .map(([table, count]) => `${table.replaceAll("_", " ")} ${count}`)
    .join(", ") || "nothing yet";
