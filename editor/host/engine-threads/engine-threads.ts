// The engine at the host's hand: two threads, one for what takes a moment and one for proofs, each started
// when it is first needed. A question that takes too long is given up with its thread, so that one hostile
// book cannot stop the others; so is one that nobody waits for any more.
import { Worker } from "node:worker_threads";
import { sha256 } from "../database/log-chain.ts";
import { Trouble } from "../trouble.ts";
import { type Asker, type Shared, fairQueue } from "./fair-queue.ts";
import type { AnswerTo, Progress, Question } from "./thread-messages.ts";

/** Who asks: people take turns. Absent for the host itself. */
export interface AskedBy {
  readonly who?: string;
  /** Ends the question where nobody else waits for it. */
  readonly signal?: AbortSignal;
}

export interface EngineThreads {
  /**
   * Throws a `Trouble` if the engine did not come to an end in time, or if too many questions wait. `tell`
   * hears how far a proof is, from when it begins.
   */
  ask<Q extends Question>(
    question: Q,
    by?: AskedBy,
    tell?: (progress: Progress) => void,
  ): Promise<AnswerTo<Q["asks"]>>;
  close(): Promise<void>;
}

/** Milliseconds that reading a book or working a job may take; both have their own budgets far below. */
const patience = 30_000;
/** Megabytes that a thread may use. */
const room = 1024;
const theHost = "the host";

export function startEngineThreads(): EngineThreads {
  const quick = lane();
  const long = lane();
  return {
    ask: (question, by = {}, tell) => {
      const [on, time] =
        question.asks === "prove" ? [long, question.seconds * 1000 + patience] : [quick, patience];
      return on.ask({ question, patience: time }, by, tell) as Promise<never>;
    },
    close: async () => {
      await Promise.all([quick.close(), long.close()]);
    },
  };
}

interface Asked {
  readonly question: Question;
  /** Milliseconds that it may take. */
  readonly patience: number;
}

interface FromThread {
  readonly id: number;
  readonly progress?: Progress;
  readonly answer?: unknown;
  readonly failed?: string;
}

interface Lane {
  ask(asked: Asked, by: AskedBy, tell?: (progress: Progress) => void): Promise<unknown>;
  close(): Promise<void>;
}

const nobody = "Nobody waits for this any more.";
const tooLong = "The engine did not come to an end with this book in the time that it has.";
const stuck = (why: string): string => `The engine could not go on with this book: ${why}`;

type Listener = Asker & { readonly tell?: ((progress: Progress) => void) | undefined };
type Running = Shared<Asked> & { readonly id: number; readonly clock: NodeJS.Timeout };

function lane(): Lane {
  const queue = fairQueue<Asked>();
  let worker: Worker | undefined;
  let running: Running | undefined;
  let count = 0;

  /** Gives up the thread with what it works on. */
  const drop = (says: string): void => {
    const gone = worker;
    worker = undefined;
    gone?.removeAllListeners();
    void gone?.terminate();
    const late = running;
    running = undefined;
    if (late === undefined) return;
    clearTimeout(late.clock);
    for (const asker of late.askers) asker.reject(new Trouble(422, says));
  };
  const fail = (says: string): void => {
    drop(says);
    next();
  };
  const next = (): void => {
    const first = running === undefined ? queue.next() : undefined;
    if (first === undefined) return;
    worker ??= startWorker(hear, (cause) => fail(stuck(cause.message)));
    count += 1;
    const clock = setTimeout(() => fail(tooLong), first.asked.patience);
    running = { ...first, id: count, clock };
    worker.postMessage({ id: count, question: first.asked.question });
  };
  const hear = (message: FromThread): void => {
    if (running?.id !== message.id) return;
    if (message.progress !== undefined) {
      for (const asker of running.askers) (asker as Listener).tell?.(message.progress);
      return;
    }
    const { askers, clock } = running;
    running = undefined;
    clearTimeout(clock);
    for (const asker of askers) settle(asker, message);
    next();
  };
  const leave = (shared: Shared<Asked>, asker: Listener): void => {
    shared.askers.delete(asker);
    asker.reject(new Trouble(503, nobody));
    if (shared.askers.size > 0) return;
    queue.remove(shared);
    if (running?.askers === shared.askers) fail(nobody);
  };
  return {
    ask: ({ question, patience: time }, { who = theHost, signal }, tell) =>
      new Promise((resolve, reject) => {
        if (signal?.aborted === true) throw new Trouble(503, nobody);
        const key = sha256(JSON.stringify(question));
        const asker: Listener = { who, resolve, reject, tell };
        const same = running?.key === key ? running : undefined;
        const shared = same ?? queue.put(key, { question, patience: time }, asker);
        shared.askers.add(asker);
        signal?.addEventListener("abort", () => leave(shared, asker), { once: true });
        next();
      }),
    close: async () => {
      for (const asker of queue.clear()) asker.reject(new Trouble(503, "The host is closing."));
      const gone = worker;
      drop("The host is closing.");
      await gone?.terminate();
    },
  };
}

function settle(asker: Asker, { failed, answer }: FromThread): void {
  if (failed === undefined) asker.resolve(answer);
  else asker.reject(new Trouble(422, stuck(failed)));
}

function startWorker(hear: (message: FromThread) => void, fail: (cause: Error) => void): Worker {
  const made = new Worker(new URL("./engine-worker.mjs", import.meta.url), {
    execArgv: [],
    resourceLimits: { maxOldGenerationSizeMb: room },
  });
  made.unref();
  made.on("message", hear);
  made.on("error", fail);
  return made;
}
