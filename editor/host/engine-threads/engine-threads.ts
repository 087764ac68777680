// The engine at the host's hand: two threads, one for what takes a moment and one for proofs, each started
// when it is first needed. A question that takes too long is given up with its thread, so that one hostile
// book cannot stop the others.
import { Worker } from "node:worker_threads";
import { Trouble } from "../trouble.ts";
import type { AnswerTo, Progress, Question } from "./thread-messages.ts";

export interface EngineThreads {
  /**
   * Throws a `Trouble` if the engine did not come to an end in time. `tell` hears how far a proof is, from
   * when it begins.
   */
  ask<Q extends Question>(question: Q, tell?: (progress: Progress) => void): Promise<AnswerTo<Q["asks"]>>;
  close(): Promise<void>;
}

/** Milliseconds that reading a book or working a job may take; both have their own budgets far below. */
const patience = 30_000;
/** Megabytes that a thread may use. */
const room = 1024;

export function startEngineThreads(): EngineThreads {
  const quick = lane();
  const long = lane();
  return {
    ask: (question, tell) =>
      question.asks === "prove"
        ? (long.ask({ question, patience: question.seconds * 1000 + patience, tell }) as Promise<never>)
        : (quick.ask({ question, patience, tell }) as Promise<never>),
    close: async () => {
      await Promise.all([quick.close(), long.close()]);
    },
  };
}

interface Asked {
  readonly question: Question;
  /** Milliseconds that it may take. */
  readonly patience: number;
  readonly tell: ((progress: Progress) => void) | undefined;
}
interface Waiting extends Asked {
  readonly resolve: (answer: unknown) => void;
  readonly reject: (cause: Trouble) => void;
}

interface FromThread {
  readonly id: number;
  readonly progress?: Progress;
  readonly answer?: unknown;
  readonly failed?: string;
}

function lane(): { ask(asked: Asked): Promise<unknown>; close(): Promise<void> } {
  const queue: Waiting[] = [];
  let worker: Worker | undefined;
  let asked: (Waiting & { readonly id: number; readonly clock: NodeJS.Timeout }) | undefined;
  let count = 0;

  const drop = (says: string): void => {
    const gone = worker;
    worker = undefined;
    gone?.removeAllListeners();
    void gone?.terminate();
    const late = asked;
    asked = undefined;
    if (late !== undefined) {
      clearTimeout(late.clock);
      late.reject(new Trouble(422, says));
    }
  };
  const next = (): void => {
    const first = asked === undefined ? queue.shift() : undefined;
    if (first === undefined) return;
    worker ??= start();
    count += 1;
    const clock = setTimeout(() => {
      drop("The engine did not come to an end with this book in the time that it has.");
      next();
    }, first.patience);
    asked = { ...first, id: count, clock };
    worker.postMessage({ id: count, question: first.question });
  };
  const start = (): Worker => {
    const made = new Worker(new URL("./engine-worker.mjs", import.meta.url), {
      execArgv: [],
      resourceLimits: { maxOldGenerationSizeMb: room },
    });
    made.unref();
    made.on("message", (message: FromThread) => {
      if (asked?.id !== message.id) return;
      if (message.progress !== undefined) {
        asked.tell?.(message.progress);
        return;
      }
      const done = asked;
      asked = undefined;
      clearTimeout(done.clock);
      if (message.failed === undefined) done.resolve(message.answer);
      else done.reject(new Trouble(422, `The engine could not go on with this book: ${message.failed}`));
      next();
    });
    made.on("error", (cause) => {
      drop(`The engine could not go on with this book: ${cause.message}`);
      next();
    });
    return made;
  };
  return {
    ask: (one) =>
      new Promise((resolve, reject) => {
        queue.push({ ...one, resolve, reject });
        next();
      }),
    close: async () => {
      for (const one of queue.splice(0)) one.reject(new Trouble(503, "The host is closing."));
      const gone = worker;
      drop("The host is closing.");
      await gone?.terminate();
    },
  };
}
