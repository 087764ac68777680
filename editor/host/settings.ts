// Where the shop's host listens and where it keeps its data, read from the settings of the process.
import { isIP } from "node:net";
import { isAbsolute, join } from "node:path";

/** Which address and port; the port may be 0 for any free one. */
export interface Settings {
  readonly host: string;
  readonly port: number;
  readonly tls?: TlsFiles;
  /**
   * Serves a network without encryption, where something in front of it encrypts or the shop has said that it
   * may.
   */
  readonly plain?: true;
  /** The address by which browsers come, where a server in front forwards to this host. */
  readonly public?: URL;
  /** Addresses of such servers. */
  readonly forwarders?: readonly string[];
}

/** Files in PEM form. */
export interface TlsFiles {
  readonly cert: string;
  readonly key: string;
}

/** Whether an address is reached from this machine alone. */
export const isLoopback = (host: string): boolean =>
  host === "localhost" || host === "::1" || /^127\.\d+\.\d+\.\d+$/.test(host);

const ownPort = 4173;

/** The settings, or one sentence of what is wrong with them. */
export function readSettings(
  given: Readonly<Record<string, string | undefined>>,
): Settings | { readonly wrong: string } {
  const host = given["HOST"]?.trim() || "127.0.0.1";
  const cert = given["BEVELBOOK_TLS_CERT"]?.trim();
  const key = given["BEVELBOOK_TLS_KEY"]?.trim();
  if (!cert !== !key)
    return {
      wrong: `BEVELBOOK_TLS_${cert ? "KEY" : "CERT"} is missing: a certificate and its key go together.`,
    };
  const front = readFront(given);
  if ("wrong" in front) return front;
  const more = {
    ...front,
    ...(cert && key ? { tls: { cert, key } } : {}),
    ...(given["BEVELBOOK_PLAIN"]?.trim() === "yes" ? { plain: true as const } : {}),
  };
  const wish = given["PORT"]?.trim();
  if (!wish) return { host, port: ownPort, ...more };
  const port = Number(wish);
  if (!/^\d+$/.test(wish) || port > 65_535)
    return { wrong: `PORT is ${JSON.stringify(wish)}. It must be a whole number from 0 to 65535.` };
  return { host, port, ...more };
}

/** What stands in front of the host, or what is wrong with how that is said. */
function readFront(
  given: Readonly<Record<string, string | undefined>>,
): Pick<Settings, "public" | "forwarders"> | { readonly wrong: string } {
  const address = given["BEVELBOOK_PUBLIC"]?.trim();
  const list = given["BEVELBOOK_FORWARDERS"]?.trim();
  const url = address && URL.canParse(address) ? new URL(address) : undefined;
  if (address && (url === undefined || !/^https?:$/.test(url.protocol) || url.pathname !== "/"))
    return { wrong: "BEVELBOOK_PUBLIC is not an address like https://bench.example." };
  const forwarders = list ? list.split(",").map((one) => one.trim()) : [];
  const strange = forwarders.find((one) => isIP(one) === 0);
  if (strange !== undefined)
    return { wrong: `BEVELBOOK_FORWARDERS holds ${JSON.stringify(strange)}, which is no address.` };
  return {
    ...(url === undefined ? {} : { public: url }),
    ...(forwarders.length === 0 ? {} : { forwarders }),
  };
}

export interface DatabaseSettings {
  /** Folder of the data. */
  readonly data: string;
  /** Address of a PostgreSQL database; absent for a file in the folder. */
  readonly database?: string;
  /** Seconds that a proof may take before a book is sealed; what is not settled by then needs a reason. */
  readonly proofSeconds: number;
}

const ownProofSeconds = 60;

/** `project` is the folder in which the data folder is made unless another is set. */
export function readDatabaseSettings(
  given: Readonly<Record<string, string | undefined>>,
  project: string,
): DatabaseSettings | { readonly wrong: string } {
  const folder = given["BEVELBOOK_DATA"]?.trim() || "data";
  const database = given["BEVELBOOK_DATABASE"]?.trim();
  const wish = given["BEVELBOOK_PROOF_SECONDS"]?.trim();
  const proofSeconds = wish ? Number(wish) : ownProofSeconds;
  if (!Number.isFinite(proofSeconds) || proofSeconds < 0 || proofSeconds > 3600)
    return {
      wrong: `BEVELBOOK_PROOF_SECONDS is ${JSON.stringify(wish)}. It must be a number from 0 to 3600.`,
    };
  return {
    data: isAbsolute(folder) ? folder : join(project, folder),
    ...(database ? { database } : {}),
    proofSeconds,
  };
}
