// `npm start`: builds the pages where they are old, serves them on this machine, and prints the address.
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { stripVTControlCharacters } from "node:util";
import { needsBuild } from "./built.ts";
import { listen } from "./listen.ts";
import { pagesApp } from "./pages.ts";
import { readSettings } from "./settings.ts";

const project = fileURLToPath(new URL("../..", import.meta.url));
const folder = join(project, "dist", "bench");

const settings = readSettings(process.env);
if ("wrong" in settings) giveUp(settings.wrong);

if (needsBuild(project, folder)) {
  console.log("Building the pages. This takes some seconds.");
  try {
    const { build } = await import("vite");
    // The bench first: its build empties the folder.
    for (const mode of ["production", "job"]) await build({ mode, configFile: join(project, "vite.config.ts"), logLevel: "error" });
  } catch (cause) {
    giveUp(`The pages could not be built: ${stripVTControlCharacters(cause instanceof Error ? cause.message : String(cause))}`);
  }
}

const listening = await listen(pagesApp(folder), settings);
if ("failed" in listening) giveUp(listening.failed);
console.log(`Bevelbook is at ${listening.address}  (the job page: ${listening.address}job.html)`);
if (settings.port !== 0 && listening.port !== settings.port) console.log(`Port ${settings.port} was taken, so it is at ${listening.port}.`);
if (settings.host !== "127.0.0.1" && settings.host !== "localhost" && settings.host !== "::1") console.log("Everyone who can reach this address can open it: there is no sign-in yet.");
console.log("Ctrl+C ends it.");

for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => { listening.close(); process.exit(0); });

function giveUp(says: string): never {
  console.error(says);
  process.exit(1);
}
