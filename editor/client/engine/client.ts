// A page's one way to the engine. Snapshots are latest-wins: while one is being worked, only the newest wish
// waits. A worker that does not answer in time is replaced.
import type { EngineCalls, JobCalls, Snapshot, Wanted } from "./messages.ts";
import type { PageCopy } from "./page-copy.ts";
import { pageCopy } from "./page-copy.ts";
import type { Async } from "./worker-calls.ts";
import type { WorkerLine } from "./worker-line.ts";
import { openLine } from "./worker-line.ts";

export type AsyncEngine = Async<EngineCalls>;

/** How long the worker may be silent before it is replaced, in milliseconds. */
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
  /** One question; undefined where the worker had to be replaced. */
  ask<Answer>(question: (engine: Async<Calls>) => Promise<Answer>): Promise<Answer | undefined>;
  close(): void;
}

export function startEngine<Calls extends JobCalls = EngineCalls>(
  makeWorker: () => Worker,
  listener: Listener,
  waitFor = patience,
): EngineClient<Calls> {
  const talk: Talk<Calls> = {
    line: openLine<Calls>(makeWorker, waitFor, listener.trouble),
    copy: pageCopy(),
    generation: 0,
  };
  let working = false;
  let closed = false;
  let next: Wanted | undefined;
  // How often this wish was begun: a second time with a new worker is fair on a slow machine; an endless rule
  // ends there.
  let tries = 0;
  let tried: Wanted | undefined;

  const work = async (): Promise<void> => {
    if (working) return;
    working = true;
    while (next !== undefined && !closed) {
      const wanted = next;
      next = undefined;
      listener.busy(true);
      tries = tried === wanted ? tries + 1 : 1;
      tried = wanted;
      const snapshot = await snapshotFrom(talk, wanted);
      if (closed) return;
      if (snapshot) listener.snapshot(snapshot);
      else if (tries < 2) next ??= wanted;
      listener.busy(next !== undefined);
    }
    working = false;
  };

  return {
    show: (wanted) => {
      next = wanted;
      void work();
    },
    ask: (question) => answerFrom(talk, question),
    close: () => {
      closed = true;
      talk.line.close();
    },
  };
}

interface Talk<Calls extends JobCalls> {
  readonly line: WorkerLine<Calls>;
  readonly copy: PageCopy;
  /** Of the worker that holds what the copy has sent. */
  generation: number;
}

/** A new worker holds nothing. */
function meetWorker<Calls extends JobCalls>(talk: Talk<Calls>): void {
  if (talk.generation === talk.line.generation()) return;
  talk.generation = talk.line.generation();
  talk.copy.forget();
}

/** The worker that misses a version is sent everything, once. */
async function snapshotFrom<Calls extends JobCalls>(
  talk: Talk<Calls>,
  wanted: Wanted,
): Promise<Snapshot | undefined> {
  for (let turn = 0; turn < 2; turn += 1) {
    meetWorker(talk);
    const request = talk.copy.request(wanted);
    const reply = await talk.line.ask((to) => (to as unknown as Async<JobCalls>).update(request));
    if (reply === undefined) return undefined;
    if ("answer" in reply) return talk.copy.take(reply.answer);
    talk.copy.forget();
  }
  return undefined;
}

async function answerFrom<Calls extends JobCalls, Answer>(
  talk: Talk<Calls>,
  question: (engine: Async<Calls>) => Promise<Answer>,
): Promise<Answer | undefined> {
  meetWorker(talk);
  const reply = await talk.line.ask((to) => question(talk.copy.naming(to)));
  if (reply === undefined || "answer" in reply) return reply?.answer;
  const whole = await talk.line.ask(question);
  return whole !== undefined && "answer" in whole ? whole.answer : undefined;
}
