// Opens the port, and goes on to the next free one where it is taken.
import { createAdaptorServer } from "@hono/node-server";
import type { Hono } from "hono";
import type { Settings } from "./settings.ts";

/** So many ports are tried before giving up. */
const tries = 20;

export type Listening = { readonly address: string; readonly port: number; close(): void } | { readonly failed: string };

export async function listen(app: Hono, settings: Settings): Promise<Listening> {
  for (let step = 0; step < tries; step += 1) {
    const port = settings.port === 0 ? 0 : settings.port + step;
    const outcome = await openPort(app, settings.host, port);
    if (typeof outcome === "object") return outcome;
    if (outcome === "EADDRINUSE" && port !== 0) continue;
    return { failed: sentence(outcome, settings.host, port) };
  }
  return { failed: `Ports ${settings.port} to ${settings.port + tries - 1} are all taken. Set PORT to a free one.` };
}

function openPort(app: Hono, host: string, port: number): Promise<{ address: string; port: number; close(): void } | string> {
  return new Promise((resolve) => {
    const server = createAdaptorServer({ fetch: app.fetch });
    server.once("error", (cause: NodeJS.ErrnoException) => resolve(cause.code ?? "unknown"));
    server.listen(port, host, () => {
      const at = server.address();
      const opened = typeof at === "object" && at ? at.port : port;
      resolve({ address: `http://${host.includes(":") ? `[${host}]` : host}:${opened}/`, port: opened, close: () => { server.close(); if ("closeAllConnections" in server) server.closeAllConnections(); } });
    });
  });
}

function sentence(code: string, host: string, port: number): string {
  switch (code) {
    case "EADDRINUSE": return `Port ${port} is taken. Set PORT to a free one.`;
    case "EACCES": return `This account may not open port ${port}. Set PORT to one above 1023.`;
    case "EADDRNOTAVAIL":
    case "ENOTFOUND":
    case "EAI_AGAIN": return `${host} is not an address of this machine. Set HOST to one that is, or leave it out.`;
    default: return `Port ${port} could not be opened (${code}).`;
  }
}
