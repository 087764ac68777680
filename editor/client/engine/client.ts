// The bench's one way to the engine. Snapshots are latest-wins: while one is being worked only the
// newest wish waits. A worker that does not answer in time is put away and a new one started.
import { wrap } from "comlink";
import type { EngineCalls, JobCalls, Snapshot, Wanted } from "./messages.ts";

/** The engine's calls as they look from outside the worker. */
type Async<Calls extends JobCalls> = {
  readonly [Name in keyof Calls]: Calls[Name] extends (...given: infer Given) => infer Answer
    ? (...given: Given) => Promise<Answer>
    : never;
};
export type AsyncEngine = Async<EngineCalls>;

/** How long the worker may be silent before it is started again, in milliseconds. */
const patience = 5000;

export interface Listener {
  snapshot(snapshot: Snapshot): void;
  /** True while a snapshot is being worked. */
  busy(busy: boolean): void;
  /** One sentence for the person. */
  trouble(says: string): void;
}

export interface EngineClient<Calls extends JobCalls = EngineCalls> {
  /** Asks for a snapshot; an older wish not yet begun is dropped. */
  show(wanted: Wanted): void;
  /** One question; undefined when the worker had to be started again. */
  ask<Answer>(question: (engine: Async<Calls>) => Promise<Answer>): Promise<Answer | undefined>;
  close(): void;
}

export function startEngine<Calls extends JobCalls = EngineCalls>(
  makeWorker: () => Worker,
  listener: Listener,
  waitFor = patience,
): EngineClient<Calls> {
  let worker = makeWorker();
  let engine = callsOf<Calls>(worker);
  let working: Wanted | undefined;
  let next: Wanted | undefined;
  // How often the wish at hand was begun: once more with a fresh worker is fair on a slow machine; an endless
  // rule ends there.
  let tries = 0;
  let tried: Wanted | undefined;
  let closed = false;
  // Set by `restart`, so that every question waiting on the old worker ends at once.
  let giveUp: (() => void)[] = [];

  const restart = (says: string): void => {
    worker.terminate();
    const waiting = giveUp;
    giveUp = [];
    if (!closed) {
      worker = makeWorker();
      engine = callsOf<Calls>(worker);
      listener.trouble(says);
    }
    for (const end of waiting) end();
  };

  const guarded = <Answer>(question: (to: Async<Calls>) => Promise<Answer>): Promise<Answer | undefined> =>
    new Promise((resolve) => {
      const mine = worker;
      const end = (): void => {
        clearTimeout(clock);
        resolve(undefined);
      };
      const clock = setTimeout(() => {
        if (mine === worker)
          restart("Working this out took too long, so it was stopped and started again. Your text is kept.");
      }, waitFor);
      giveUp.push(end);
      const done = (answer: Answer | undefined): void => {
        clearTimeout(clock);
        giveUp = giveUp.filter((one) => one !== end);
        resolve(answer);
      };
      question(engine).then(done, (cause: unknown) => {
        done(undefined);
        listener.trouble(
          `The working-out failed: ${cause instanceof Error ? cause.message : "no reason was given"}. Your text is kept.`,
        );
      });
    });

  const pump = async (): Promise<void> => {
    if (working || !next || closed) return;
    working = next;
    next = undefined;
    listener.busy(true);
    const wanted = working;
    tries = tried === wanted ? tries + 1 : 1;
    tried = wanted;
    const snapshot = await guarded((to) => (to as unknown as Async<JobCalls>).show(wanted));
    working = undefined;
    if (closed) return;
    if (snapshot) listener.snapshot(snapshot);
    else if (tries < 2) next ??= wanted;
    listener.busy(next !== undefined);
    void pump();
  };

  return {
    show: (wanted) => {
      next = wanted;
      void pump();
    },
    ask: (question) => guarded(question),
    close: () => {
      closed = true;
      restart("");
    },
  };
}

const callsOf = <Calls extends JobCalls>(worker: Worker): Async<Calls> =>
  wrap<Calls>(worker) as unknown as Async<Calls>;
