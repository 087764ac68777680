// `bevelbook host`: the shop's host, as `npm start` runs it.
import { type Command, CallError } from "./call.ts";

export const hostCommand: Command = {
  usage: "",
  says:
    "Runs the shop's host: serves the pages and keeps the shop's data. PORT, HOST, BEVELBOOK_DATA and " +
    "BEVELBOOK_DATABASE set where; a HOST that a network reaches needs BEVELBOOK_TLS_CERT and " +
    "BEVELBOOK_TLS_KEY.",
  options: {},
  run: async (files) => {
    if (files.length > 0) throw new CallError("bevelbook host takes no file.");
    const { runHost } = await import("../host/run.ts");
    const { failed } = await runHost();
    if (failed !== undefined) throw new CallError(failed);
    return 0;
  },
};
