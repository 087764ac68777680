// Runs the host until a signal ends it: builds the pages where they are old, opens everything, prints the
// address. Both `npm start` and `bevelbook host` do this.
import { hostname } from "node:os";
import { join } from "node:path";
import { buildPages, needsBuild } from "./page-build.ts";
import { type Host, openHost } from "./host.ts";
import { project } from "./project.ts";
import { type Settings, isLoopback, readSettings, readDatabaseSettings } from "./settings.ts";

/** Where the settings say that the database is; relative folders count from the project. */
export const databaseSettings = (given: Readonly<Record<string, string | undefined>> = process.env) =>
  readDatabaseSettings(given, project);

/** Resolves with what keeps the host from running, or when it has ended. */
export async function runHost(): Promise<{ readonly failed?: string }> {
  const folder = join(project, "dist", "pages");
  const settings = readSettings(process.env);
  if ("wrong" in settings) return { failed: settings.wrong };
  const database = databaseSettings();
  if ("wrong" in database) return { failed: database.wrong };

  if (needsBuild(project, folder)) {
    console.log("Building the pages. This takes some seconds.");
    const wrong = await buildPages(project);
    if (wrong !== undefined) return { failed: `The pages could not be built: ${wrong}` };
  }

  const host = await openHost(folder, settings, database);
  if ("failed" in host) return host;
  for (const line of greeting(host, settings)) console.log(line);
  return new Promise((resolve) => {
    const end = (): void => {
      void host.close().then(() => resolve({}));
    };
    for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, end);
  });
}

/** What the host prints once it serves: addresses, and what its owner has to know or do. */
function greeting(host: Host, settings: Settings): readonly string[] {
  const everywhere = settings.host === "0.0.0.0" || settings.host === "::";
  const address =
    settings.public?.href ??
    (host.name === undefined && !everywhere
      ? host.address
      : `${host.address.split("//")[0]}//${host.name ?? hostname()}:${host.port}/`);
  const lines = [
    `Bevelbook is at ${address}  (the job page: ${address}job.html)`,
    `The shop's data is in ${host.database.where}.`,
  ];
  if (settings.port !== 0 && host.port !== settings.port)
    lines.push(`Port ${settings.port} was taken, so it is at ${host.port}.`);
  if (!isLoopback(settings.host) || settings.public !== undefined)
    lines.push(...networkLines(host, settings, address));
  return [...lines, "Ctrl+C ends it."];
}

function networkLines(host: Host, settings: Settings, address: string): readonly string[] {
  const lines = ["It serves a network: people sign in."];
  if (settings.tls === undefined && settings.public?.protocol !== "https:")
    lines.push(
      "WARNING: it does not encrypt. Whoever can listen on the network reads passwords, " +
        "unless something in front of this host encrypts.",
    );
  if (host.firstLead !== undefined)
    lines.push(
      "Nobody is known yet. The first lead opens this address within an hour, once, " +
        `and chooses a name and a password:\n  ${address}${host.firstLead}`,
    );
  return lines;
}
