// `bevelbook log`: who did what at the shop's host, and with --verify whether the log is whole and says the
// same as the data.
import { type Command, CallError } from "./call.ts";
import { withShelf } from "./open-database.ts";

const shown = 40;

export const logCommand: Command = {
  usage: "[--verify [--head HASH]] [--json]",
  says: "Prints the newest lines of the log. --verify looks whether any line, entry, edition, text or photograph was changed or taken away; --head gives a newest hash noted earlier.",
  options: { verify: { type: "boolean" }, head: { type: "string" }, json: { type: "boolean" } },
  run: async (files, { verify, head, json }) => {
    if (files.length > 0) throw new CallError("bevelbook log takes no file.");
    if (head !== undefined && (verify !== true || typeof head !== "string" || !/^[0-9a-f]{64}$/.test(head)))
      throw new CallError("--head goes with --verify and takes the 64 hexadecimal digits of a line's hash.");
    return withShelf(async (database) => {
      if (verify === true) {
        const { verifyLog } = await import("../host/database/verify.ts");
        const verdict = await verifyLog(database, typeof head === "string" ? head : undefined);
        if (json === true) process.stdout.write(`${JSON.stringify(verdict, null, 2)}\n`);
        else
          process.stdout.write(
            `${verdict.holds ? `The log is whole: ${verdict.lines} ${verdict.lines === 1 ? "line" : "lines"}, and the data says the same.` : verdict.troubles.join("\n")}\n${verdict.head === undefined ? "" : `Newest line: ${verdict.head}\n`}`,
          );
        return verdict.holds ? 0 : 1;
      }
      const lines = (
        await database.db.selectFrom("log").selectAll().orderBy("seq", "desc").limit(shown).execute()
      ).reverse();
      if (json === true)
        process.stdout.write(
          `${JSON.stringify(
            lines.map((line) => ({ ...line, body: JSON.parse(line.body) as unknown })),
            null,
            2,
          )}\n`,
        );
      else
        for (const { seq, at, who, what, body } of lines)
          process.stdout.write(
            `${String(seq).padStart(6)}  ${new Date(at).toISOString()}  ${who}  ${what}  ${body.length > 160 ? `${body.slice(0, 160)}…` : body}\n`,
          );
      return 0;
    });
  },
};
