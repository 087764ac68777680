// bevelbook tidy: a book laid out evenly, to standard output or back into its file.
import { writeFile } from "node:fs/promises";
import { resolve } from "node:path";
import { tidy } from "../../engine/index.ts";
import { CallError, type Command, printJson, readText } from "./call.ts";

export const tidyCommand: Command = {
  usage: "BOOK [--write] [--json]",
  says:
    "Lays the text out evenly and prints it; --write puts it back into the file. " +
    "Meaning, comments and order stay.",
  options: { write: { type: "boolean" }, json: { type: "boolean" } },
  run: async ([file], { write, json }, io) => {
    const text = await readText(io, file, "book");
    const tidied = tidy(text);
    const changed = tidied !== text;
    if (write) {
      if (file === "-") throw new CallError("Standard input cannot be written back; leave --write out.");
      if (changed)
        await writeFile(resolve(io.cwd, file!), tidied).catch(() => {
          throw new CallError(`${file} may not be written.`);
        });
      if (json) printJson(io, { file, changed });
    } else if (json) {
      printJson(io, { changed, text: tidied });
    } else {
      io.stdout.write(tidied);
    }
    return 0;
  },
};
