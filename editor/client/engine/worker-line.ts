// A line to one worker that may have to be replaced: what does not answer in time is ended and a new worker
// started, and every question that waits on the old one ends with it.
import { missedVersion } from "./messages.ts";
import type { JobCalls } from "./messages.ts";
import type { Async } from "./worker-calls.ts";
import { callsOf } from "./worker-calls.ts";

type Reply<Answer> =
  | { readonly answer: Answer }
  /** The worker does not hold the version that the question names. */
  | { readonly missed: true }
  /** It had to be replaced, or it failed. */
  | undefined;

export interface WorkerLine<Calls extends JobCalls> {
  /** Rises with every worker that is started: what an earlier one was sent is gone. */
  generation(): number;
  ask<Answer>(question: (engine: Async<Calls>) => Promise<Answer>): Promise<Reply<Answer>>;
  close(): void;
}

const tooLong = "Working this out took too long, so it was stopped and started again. Your text is kept.";

/** `waitFor` in milliseconds; `trouble` gets one sentence for the person. */
export function openLine<Calls extends JobCalls>(
  makeWorker: () => Worker,
  waitFor: number,
  trouble: (says: string) => void,
): WorkerLine<Calls> {
  let worker = makeWorker();
  let engine = callsOf<Calls>(worker);
  let generation = 0;
  let closed = false;
  let waiting = new Set<() => void>();

  const restart = (says: string): void => {
    worker.terminate();
    generation += 1;
    const ended = waiting;
    waiting = new Set();
    if (!closed) {
      worker = makeWorker();
      engine = callsOf<Calls>(worker);
      trouble(says);
    }
    for (const end of ended) end();
  };

  const ask = <Answer>(question: (to: Async<Calls>) => Promise<Answer>): Promise<Reply<Answer>> =>
    new Promise((resolve) => {
      const asked = generation;
      const end = (reply?: Reply<Answer>): void => {
        clearTimeout(clock);
        waiting.delete(end);
        resolve(reply);
      };
      const clock = setTimeout(() => {
        if (asked === generation) restart(tooLong);
      }, waitFor);
      waiting.add(end);
      question(engine).then(
        (answer) => end({ answer }),
        (cause: unknown) => {
          if (cause instanceof Error && cause.name === missedVersion) return end({ missed: true });
          end();
          const reason = cause instanceof Error ? cause.message : "no reason was given";
          trouble(`The working-out failed: ${reason}. Your text is kept.`);
        },
      );
    });

  return {
    generation: () => generation,
    ask,
    close: () => {
      closed = true;
      restart("");
    },
  };
}
