// Writes the cases back as they come out: `npx tsx tests/support/accept-cases.ts FILE…`. For a case that was
// read and found right; what it changes shows in the difference of the file.
import { readFileSync, writeFileSync } from "node:fs";
import { argv } from "node:process";
import { fileURLToPath } from "node:url";
import { allCases, redraw } from "./cases.ts";

for (const file of argv.slice(2)) {
  const path = fileURLToPath(new URL(`../engine/language/cases/${file}.bevel-cases`, import.meta.url));
  const old = readFileSync(path, "utf8");
  let text = old;
  for (const one of allCases()) if (one.file === file) text = text.replace(one.text, () => redraw(one.text));
  if (text !== old) writeFileSync(path, text);
}
