// Starts the engine's thread where the host runs from its sources. A bundled host has the bundled thread beside
// it, by this name.
import { startProgram } from "../../build/start-program.mjs";

await startProgram("engine-worker");
