// Starts the engine's thread where the host runs from its sources. A bundled host has a bundled thread of
// this name beside it.
import { startProgram } from "../../build/start-program.mjs";

await startProgram("engine-worker");
