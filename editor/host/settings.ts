// Where the shop's host listens and where it keeps its data, read from the settings of the process.
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
  const more = {
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
