// Starts the engine's thread straight from its TypeScript source, as the terminal program is started.
import { register } from "tsx/esm/api";

register();
await import("./engine-worker.ts");
