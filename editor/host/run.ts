// Runs the host until it is told to end: builds the pages where they are old, opens everything, prints the
// address. Both `npm start` and `bevelbook host` do this.
import { hostname } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { stripVTControlCharacters } from "node:util";
import { needsBuild } from "./built.ts";
import { openHost } from "./host.ts";
import { isLoopback, readSettings, readShelfSettings } from "./settings.ts";

const project = fileURLToPath(new URL("../..", import.meta.url));

/** Where the settings say that the shelf is; relative folders count from the project. */
export const shelfSettings = (given: Readonly<Record<string, string | undefined>> = process.env) =>
  readShelfSettings(given, project);

/** Resolves with what keeps the host from running, or when it has ended. */
export async function runHost(): Promise<{ readonly failed?: string }> {
  const folder = join(project, "dist", "pages");
  const settings = readSettings(process.env);
  if ("wrong" in settings) return { failed: settings.wrong };
  const shelf = shelfSettings();
  if ("wrong" in shelf) return { failed: shelf.wrong };

  if (needsBuild(project, folder)) {
    console.log("Building the pages. This takes some seconds.");
    try {
      const { build } = await import("vite");
      // The bench first: its build empties the folder.
      for (const mode of ["production", "job"])
        await build({ mode, configFile: join(project, "vite.config.ts"), logLevel: "error" });
    } catch (cause) {
      return {
        failed: `The pages could not be built: ${stripVTControlCharacters(cause instanceof Error ? cause.message : String(cause))}`,
      };
    }
  }

  const host = await openHost(folder, settings, shelf);
  if ("failed" in host) return host;
  const everywhere = settings.host === "0.0.0.0" || settings.host === "::";
  const address =
    host.name === undefined && !everywhere
      ? host.address
      : `${host.address.split("//")[0]}//${host.name ?? hostname()}:${host.port}/`;
  console.log(`Bevelbook is at ${address}  (the job page: ${address}job.html)`);
  console.log(`The shop's data is in ${host.shelf.where}.`);
  if (settings.port !== 0 && host.port !== settings.port)
    console.log(`Port ${settings.port} was taken, so it is at ${host.port}.`);
  if (!isLoopback(settings.host)) {
    console.log("It serves a network: people sign in.");
    if (settings.tls === undefined)
      console.log(
        "WARNING: it does not encrypt. Whoever can listen on the network reads passwords, unless something in front of this host encrypts.",
      );
    if (host.firstLead !== undefined)
      console.log(
        `Nobody is known yet. The first lead opens this address within an hour, once, and chooses a name and a password:\n  ${address}${host.firstLead}`,
      );
  }
  console.log("Ctrl+C ends it.");
  return new Promise((resolve) => {
    const end = (): void => {
      void host.close().then(() => resolve({}));
    };
    for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, end);
  });
}
