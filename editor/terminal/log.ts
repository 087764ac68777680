// `bevelbook log`: who did what at the shop's host, and with --verify whether the log is whole and says the
// same as the data.
import type { Database } from "../host/database/database.ts";
import { type Command, CallError, type Io, counted, printJson } from "./call.ts";
import { withDatabase } from "./open-database.ts";

/** Lines printed, and characters of each. */
const mostLines = 40;
const mostLetters = 160;

export const logCommand: Command = {
  usage: "[--verify [--head HASH]] [--json]",
  says:
    "Prints the newest lines of the log. --verify looks whether any line, entry, edition, text or " +
    "photograph was changed or taken away; --head gives a newest hash noted earlier.",
  options: { verify: { type: "boolean" }, head: { type: "string" }, json: { type: "boolean" } },
  run: async (files, { verify, head, json }, io) => {
    if (files.length > 0) throw new CallError("bevelbook log takes no file.");
    const hash = typeof head === "string" ? head : undefined;
    if (head !== undefined && (verify !== true || hash === undefined || !/^[0-9a-f]{64}$/.test(hash)))
      throw new CallError("--head goes with --verify and takes the 64 hexadecimal digits of a line's hash.");
    return withDatabase(
      io,
      (database) =>
        verify === true
          ? printVerdict(io, database, json === true, hash)
          : printLines(io, database, json === true),
      { reading: true },
    );
  },
};

async function printVerdict(
  io: Io,
  database: Database,
  json: boolean,
  hash: string | undefined,
): Promise<0 | 1> {
  const { verifyLog } = await import("../host/database/verify.ts");
  const verdict = await verifyLog(database, hash);
  if (json) printJson(io, verdict);
  else {
    io.stdout.write(
      verdict.holds
        ? `The log is whole: ${counted(verdict.lines, "line")}, and the data says the same.\n`
        : `${verdict.troubles.join("\n")}\n`,
    );
    if (verdict.head !== undefined) io.stdout.write(`Newest line: ${verdict.head}\n`);
  }
  return verdict.holds ? 0 : 1;
}

async function printLines(io: Io, database: Database, json: boolean): Promise<0> {
  const newest = database.db.selectFrom("log").selectAll().orderBy("seq", "desc").limit(mostLines);
  const lines = (await newest.execute()).reverse();
  if (json) {
    printJson(
      io,
      lines.map((line) => ({ ...line, body: JSON.parse(line.body) as unknown })),
    );
    return 0;
  }
  for (const { seq, at, who, what, body } of lines) {
    const short = body.length > mostLetters ? `${body.slice(0, mostLetters)}…` : body;
    io.stdout.write(`${String(seq).padStart(6)}  ${new Date(at).toISOString()}  ${who}  ${what}  ${short}\n`);
  }
  return 0;
}
