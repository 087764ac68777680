// `npm start`: the shop's host on this machine.
import { runHost } from "./run.ts";

const { failed } = await runHost();
if (failed !== undefined) console.error(failed);
process.exit(failed === undefined ? 0 : 1);
