// The shop's host: the database, the engine threads, the API and the pages, opened and closed together.
import { hostApi } from "./api/app.ts";
import { endEvents } from "./api/event-routes.ts";
import { openPresence } from "./api/presence.ts";
import { type Gate, type Who, bySession, thisDesk } from "./api/who.ts";
import { type Rework, reworkSigned } from "./engine-threads/rework-card.ts";
import { startEngineThreads } from "./engine-threads/engine-threads.ts";
import { listen } from "./listen.ts";
import { pagesApp } from "./pages.ts";
import { inviteFirst, invitationPath, personOf } from "./people/accounts.ts";
import { type Settings, type DatabaseSettings, isLoopback } from "./settings.ts";
import { readTls } from "./tls.ts";
import { type Database, openDatabase } from "./database/database.ts";
import { troubleOf } from "./database/database-errors.ts";
import { structureFaults } from "./database/newest-line.ts";
import { lostWords } from "./database/verify.ts";
import { Trouble } from "./trouble.ts";

export interface Host {
  /** Ends with a slash. */
  readonly address: string;
  readonly port: number;
  readonly database: Database;
  readonly rework: Rework;
  /** Where the first lead comes in, below the address; there until someone has. */
  readonly firstLead?: string;
  /** The name in the certificate. */
  readonly name?: string;
  /** Answers what is being asked, then closes all; after it the data is one file again. */
  close(): Promise<void>;
}

/** Opens the host for the built pages in `folder`. What keeps it from opening comes back as a sentence. */
export async function openHost(
  folder: string,
  settings: Settings,
  databaseSettings: DatabaseSettings,
  asker?: Who,
): Promise<Host | { readonly failed: string }> {
  // Whoever comes through a server in front signs in, also where that is on this machine.
  const network = !isLoopback(settings.host) || settings.public !== undefined;
  const tls = settings.tls === undefined ? undefined : readTls(settings.tls);
  if (tls !== undefined && "wrong" in tls) return { failed: tls.wrong };
  const encrypted = tls !== undefined || settings.public?.protocol === "https:";
  if (network && !encrypted && settings.plain !== true) return { failed: plainRefused(settings.host) };
  const gate: Gate = {
    asked: network,
    secure: encrypted,
    ...(settings.public === undefined ? {} : { publicHost: settings.public.host }),
    forwarders: new Set(settings.forwarders),
  };
  let database: Database;
  try {
    database = await openDatabase(databaseSettings);
    await checkAtStart(database);
  } catch (cause) {
    if (cause instanceof Trouble) return { failed: cause.message };
    throw cause;
  }
  const who = asker ?? (network ? bySession(database, gate) : thisDesk);
  const threads = startEngineThreads();
  const rework = reworkSigned(database, threads);
  const presence = openPresence(database);
  const api = hostApi({
    database,
    threads,
    rework,
    presence,
    who,
    proofSeconds: databaseSettings.proofSeconds,
    gate,
  });
  const listening = await listen(
    pagesApp(folder, api, {
      gate,
      ownNameOnly: !network,
      isKnown: async (token) => (await personOf(database, token, false)) !== undefined,
    }),
    settings,
    tls,
  );
  const closeRest = async (): Promise<void> => {
    endEvents();
    presence.close();
    await threads.close();
    await rework.idle();
    await database.close();
  };
  if ("failed" in listening) {
    await closeRest();
    return listening;
  }
  // Cards that were signed while the host was away, or when it was ended.
  rework.poke();
  const first = network ? await inviteFirst(database) : undefined;
  return {
    address: listening.address,
    port: listening.port,
    database,
    rework,
    ...(first === undefined ? {} : { firstLead: invitationPath(first.token) }),
    ...(tls?.name === undefined ? {} : { name: tls.name }),
    close: async () => {
      listening.close();
      await closeRest();
    },
  };
}

/**
 * A file whose structure is damaged is not served: what is written to it may be lost. Lines that are gone are
 * told, in the log as well, and the work goes on.
 */
async function checkAtStart(database: Database): Promise<void> {
  const faults = database.sort === "file" ? await structureFaults(database.db).catch(damage) : [];
  if (faults.length > 0) {
    await database.close();
    throw new Trouble(
      503,
      `The data file ${database.where} is damaged (${faults[0]}). Save what is good with ` +
        "bevelbook salvage FILE, move the data away, and put that file or the last backup back with " +
        "bevelbook restore FILE.",
    );
  }
  const { lost } = database;
  if (lost === undefined) return;
  console.error(`WARNING: ${lostWords(lost)}`);
  await database.write("the host", (_tx, log) => log("lines lost", { ...lost }));
}
const damage = (cause: unknown): readonly string[] => {
  const found = troubleOf(cause);
  if (found?.refusal.code === "data-damaged") return [found.message];
  throw cause;
};

const plainRefused = (host: string): string =>
  `HOST is ${host}, which serves a network, and passwords must not cross it in the open. ` +
  "Give a certificate and its key in BEVELBOOK_TLS_CERT and BEVELBOOK_TLS_KEY, " +
  "or say BEVELBOOK_PLAIN=yes where something in front of this host encrypts.";
