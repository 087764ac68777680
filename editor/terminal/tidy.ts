// bevelbook tidy: a book laid out evenly, to standard output or back into its file.
import { writeFile } from "node:fs/promises";
import { tidy } from "../../engine/index.ts";
import { CallError, type Command, printJson, readText } from "./call.ts";

export const tidyCommand: Command = {
  usage: "BOOK [--write] [--json]",
  says: "Lays the text out evenly and prints it; --write puts it back into the file. Meaning, comments and order stay.",
  options: { write: { type: "boolean" }, json: { type: "boolean" } },
  run: async ([file], { write, json }) => {
    const text = await readText(file, "book");
    const laid = tidy(text);
    if (write) {
      if (file === "-") throw new CallError("Standard input cannot be written back; leave --write out.");
      if (laid !== text)
        await writeFile(file!, laid).catch(() => {
          throw new CallError(`${file} may not be written.`);
        });
      if (json) printJson({ file, changed: laid !== text });
    } else if (json) {
      printJson({ changed: laid !== text, text: laid });
    } else {
      process.stdout.write(laid);
    }
    return 0;
  },
};
