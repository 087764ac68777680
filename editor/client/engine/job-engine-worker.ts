// The technician's page's worker as the build knows it.
export const jobWorker = (): Worker =>
  new Worker(new URL("./job-worker.ts", import.meta.url), { type: "module", name: "bevelbook-job-engine" });
