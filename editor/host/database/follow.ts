// Follows the log: passes on each line that any host or command has written, in order and once, so that every
// open page hears of it.
import type { Kysely } from "kysely";
import { linesAfter } from "./log-chain.ts";
import type { Tables } from "./tables.ts";

export type LogLine = Tables["log"];
/**
 * A line that was added; `restored` when the log is another one than before, because a backup was put back.
 */
export type Followed = { readonly is: "line"; readonly line: LogLine } | { readonly is: "restored" };

export interface Follower {
  /** Looks for what is new. */
  poke(): void;
  on(listener: (what: Followed) => void): () => void;
  /** Resolves when everything that was poked for is passed on. */
  idle(): Promise<void>;
}

const atOnce = 200;

export async function followLog(db: Kysely<Tables>): Promise<Follower> {
  const listeners = new Set<(what: Followed) => void>();
  const pass = (what: Followed): void => {
    for (const listener of [...listeners]) listener(what);
  };
  const newest = () => db.selectFrom("log").selectAll().orderBy("seq", "desc").limit(1).executeTakeFirst();
  let seen = await newest();
  let again = false;
  let running: Promise<void> | undefined;

  const look = async (): Promise<void> => {
    // The line seen last is read again: if it is not what it was, this is another log.
    const lines = await linesAfter(db, (seen?.seq ?? 1) - 1, atOnce);
    if (seen !== undefined && lines[0]?.hash !== seen.hash) {
      seen = await newest();
      pass({ is: "restored" });
      return;
    }
    for (const line of lines) {
      if (line.seq === seen?.seq) continue;
      seen = line;
      pass({ is: "line", line });
    }
    if (lines.length === atOnce) again = true;
  };
  const run = async (): Promise<void> => {
    do {
      again = false;
      // A database that does not answer now is asked again at the next poke.
      await look().catch(() => undefined);
    } while (again);
    running = undefined;
  };
  return {
    poke: () => {
      again = true;
      running ??= run();
    },
    on: (listener) => {
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
      };
    },
    idle: async () => {
      while (running !== undefined) await running;
    },
  };
}
