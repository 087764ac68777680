// The worker for weighing as the build knows it.
export const compareWorker = (): Worker =>
  new Worker(new URL("./compare-worker.ts", import.meta.url), { type: "module", name: "bevelbook-weighing" });
