// Opens the port, and goes on to the next free one where it is taken.
import { createAdaptorServer } from "@hono/node-server";
import type { Hono } from "hono";
import { createServer } from "node:http";
import { createServer as createTlsServer } from "node:https";
import type { Settings } from "./settings.ts";
import type { Tls } from "./tls.ts";

/** So many ports are tried before giving up. */
const tries = 20;

/**
 * Milliseconds in which the head of a request (before it the handshake of an encrypted line), and all of it,
 * must have come, and how often that is looked at: slow senders hold no line for long.
 */
interface Patience {
  readonly head: number;
  readonly whole: number;
  readonly look: number;
}
const ownPatience: Patience = { head: 15_000, whole: 300_000, look: 5000 };

export type Listening =
  | { readonly address: string; readonly port: number; close(): void }
  | { readonly failed: string };

export async function listen(
  app: Hono,
  settings: Pick<Settings, "host" | "port">,
  tls?: Tls,
  patience = ownPatience,
): Promise<Listening> {
  for (let step = 0; step < tries; step += 1) {
    const port = settings.port === 0 ? 0 : settings.port + step;
    const outcome = await openPort(app, settings.host, port, tls, patience);
    if (typeof outcome === "object") return outcome;
    if (outcome === "EADDRINUSE" && port !== 0) continue;
    return { failed: sentence(outcome, settings.host, port) };
  }
  return {
    failed: `Ports ${settings.port} to ${settings.port + tries - 1} are all taken. Set PORT to a free one.`,
  };
}

function openPort(
  app: Hono,
  host: string,
  port: number,
  tls: Tls | undefined,
  { head, whole, look }: Patience,
): Promise<{ address: string; port: number; close(): void } | string> {
  return new Promise((resolve) => {
    const bounds = {
      headersTimeout: head,
      requestTimeout: whole,
      connectionsCheckingInterval: look,
      maxHeaderSize: 16_384,
    };
    const server =
      tls === undefined
        ? createAdaptorServer({ fetch: app.fetch, createServer, serverOptions: bounds })
        : createAdaptorServer({
            fetch: app.fetch,
            createServer: createTlsServer,
            serverOptions: {
              ...bounds,
              handshakeTimeout: head,
              cert: tls.cert,
              key: tls.key,
              minVersion: "TLSv1.2",
            },
          });
    server.once("error", (cause: NodeJS.ErrnoException) => resolve(cause.code ?? "unknown"));
    server.listen(port, host, () => {
      const at = server.address();
      const opened = typeof at === "object" && at ? at.port : port;
      const name = host.includes(":") ? `[${host}]` : host;
      resolve({
        address: `${tls === undefined ? "http" : "https"}://${name}:${opened}/`,
        port: opened,
        close: () => {
          server.close();
          if ("closeAllConnections" in server) server.closeAllConnections();
        },
      });
    });
  });
}

function sentence(code: string, host: string, port: number): string {
  switch (code) {
    case "EADDRINUSE":
      return `Port ${port} is taken. Set PORT to a free one.`;
    case "EACCES":
      return `This account may not open port ${port}. Set PORT to one above 1023.`;
    case "EADDRNOTAVAIL":
    case "ENOTFOUND":
    case "EAI_AGAIN":
      return `${host} is not an address of this machine. Set HOST to one that is, or leave it out.`;
    default:
      return `Port ${port} could not be opened (${code}).`;
  }
}
