// The bench's worker as the build knows it.
export const engineWorker = (): Worker =>
  new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name: "bevelbook-engine" });
