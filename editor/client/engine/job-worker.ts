// The engine for the technician's page: it works and explains a job, and carries nothing that edits a book.
// What answers a question about the job is fetched when the page has shown its first question.
import type { JobPageCalls, Served } from "./messages.ts";
import { serve, updateHere } from "./served.ts";

type Later = typeof import("./job-answers.ts");
let later: Promise<Later> | undefined;
/** Fetched again after a failure. */
const answers = (): Promise<Later> =>
  (later ??= import("./job-answers.ts").catch((cause: unknown) => {
    later = undefined;
    throw cause;
  }));

const calls: Served<JobPageCalls> = {
  update: updateHere,
  ground: async (...asked) => (await import("./depends-on.ts")).dependencies(...asked),
  // Not waited for: a slow network is no reason to restart the engine.
  getReady: () => void answers().catch(() => undefined),
  why: async (...asked) => (await answers()).why(...asked),
  closeCalls: async (...asked) => (await answers()).closeCalls(...asked),
  cardRecord: async (...asked) => (await answers()).cardRecord(...asked),
  drawing: async (...asked) => (await answers()).drawing(...asked),
};
serve<JobPageCalls>(calls);
