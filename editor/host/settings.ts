// Where the shop's host listens, read from the settings of the process.

/** Which address and port; the port may be 0 for any free one. */
export interface Settings {
  readonly host: string;
  readonly port: number;
}

const ownPort = 4173;

/** The settings, or one sentence of what is wrong with them. */
export function readSettings(given: Readonly<Record<string, string | undefined>>): Settings | { readonly wrong: string } {
  const host = given["HOST"]?.trim() || "127.0.0.1";
  const wish = given["PORT"]?.trim();
  if (!wish) return { host, port: ownPort };
  const port = Number(wish);
  if (!/^\d+$/.test(wish) || port > 65_535) return { wrong: `PORT is ${JSON.stringify(wish)}. It must be a whole number from 0 to 65535.` };
  return { host, port };
}
