// The engine at the host's hand: two threads, one for what takes a moment and one for proofs, each started
// when it is first needed. A question that takes too long is given up with its thread, so that one hostile
// book cannot stop the others.
import { Worker } from "node:worker_threads";
import { Trouble } from "../trouble.ts";
import type { AnswerTo, Question } from "./messages.ts";

export interface EngineThreads {
  /** Throws a `Trouble` if the engine did not come to an end in time. */
  ask<Q extends Question>(question: Q): Promise<AnswerTo<Q["asks"]>>;
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
    ask: (question) =>
      (question.asks === "prove" ? long : quick).ask(
        question,
        question.asks === "prove" ? question.seconds * 1000 + patience : patience,
      ) as Promise<never>,
    close: async () => {
      await Promise.all([quick.close(), long.close()]);
    },
  };
}

interface Waiting {
  readonly question: Question;
  readonly patience: number;
  readonly resolve: (answer: unknown) => void;
  readonly reject: (cause: Trouble) => void;
}

function lane(): { ask(question: Question, patience: number): Promise<unknown>; close(): Promise<void> } {
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
    made.on(
      "message",
      (message: { readonly id: number; readonly answer?: unknown; readonly failed?: string }) => {
        if (asked?.id !== message.id) return;
        const done = asked;
        asked = undefined;
        clearTimeout(done.clock);
        if (message.failed === undefined) done.resolve(message.answer);
        else done.reject(new Trouble(422, `The engine could not go on with this book: ${message.failed}`));
        next();
      },
    );
    made.on("error", (cause) => {
      drop(`The engine could not go on with this book: ${cause.message}`);
      next();
    });
    return made;
  };
  return {
    ask: (question, time) =>
      new Promise((resolve, reject) => {
        queue.push({ question, patience: time, resolve, reject });
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
