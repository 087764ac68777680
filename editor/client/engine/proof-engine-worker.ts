// The worker for long proofs as the build knows it.
export const proofWorker = (): Worker =>
  new Worker(new URL("./proof-worker.ts", import.meta.url), { type: "module", name: "bevelbook-proofs" });
