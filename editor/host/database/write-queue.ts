// Writes of many people, one after another but brought to the disk together: whatever waits while one batch
// goes to the disk makes up the next. Each action has a savepoint of its own, so that one that is refused
// takes nothing back but itself. No promise resolves before the whole batch is on the disk.
import { type Kysely, type Transaction, sql } from "kysely";
import type { Tables } from "./tables.ts";
import { troubleOf } from "./database-errors.ts";

export interface Writing {
  write<T>(action: (tx: Transaction<Tables>) => Promise<T>): Promise<T>;
  /** Resolves when nothing waits. */
  idle(): Promise<void>;
}

interface Waiting {
  readonly action: (tx: Transaction<Tables>) => Promise<unknown>;
  readonly resolve: (outcome: never) => void;
  readonly reject: (cause: unknown) => void;
}

const mostTogether = 64;

/** What surrounds each batch. */
export interface Around {
  /** Keeps other programs from writing until the transaction ends. */
  lock(tx: Transaction<Tables>): Promise<unknown>;
  /** Called at the end of the transaction; what comes back is called once it is on the disk. */
  ending(tx: Transaction<Tables>): Promise<() => void>;
  /** Something new is on the disk, and everybody was told. */
  after(): void;
}

export function writeTogether(db: Kysely<Tables>, around: Around): Writing {
  const queue: Waiting[] = [];
  let running: Promise<void> | undefined;
  const run = async (): Promise<void> => {
    while (queue.length > 0) {
      await together(db, around, queue.splice(0, mostTogether));
      around.after();
      // The file is written without giving up the thread: between two batches answers go out and others come
      // in.
      await new Promise((resolve) => {
        setImmediate(resolve);
      });
    }
    running = undefined;
  };
  return {
    write: (action) =>
      new Promise((resolve, reject) => {
        queue.push({ action, resolve: resolve as (outcome: unknown) => void, reject });
        running ??= run();
      }),
    idle: async () => {
      while (running !== undefined) await running;
    },
  };
}

async function together(
  db: Kysely<Tables>,
  { lock, ending }: Around,
  batch: readonly Waiting[],
): Promise<void> {
  const answers: (() => void)[] = [];
  try {
    const written = await db.transaction().execute(async (tx) => {
      await lock(tx);
      for (const { action, resolve, reject } of batch) {
        if (batch.length > 1) await sql`savepoint part`.execute(tx);
        try {
          const outcome = await action(tx);
          answers.push(() => resolve(outcome as never));
        } catch (cause) {
          const status = troubleOf(cause)?.status;
          // With the disk or the server something is wrong for all of them.
          if (batch.length === 1 || status === 503 || status === 507) throw cause;
          await sql`rollback to savepoint part`.execute(tx).catch(() => {
            throw cause;
          });
          answers.push(() => reject(cause));
        }
        if (batch.length > 1) await sql`release savepoint part`.execute(tx);
      }
      return ending(tx);
    });
    written();
  } catch (cause) {
    for (const { reject } of batch) reject(cause);
    return;
  }
  for (const answer of answers) answer();
}
