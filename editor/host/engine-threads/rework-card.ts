// A signed card worked again by the book that it was made by: the same, or exactly what differs, and by which
// versions of the engine.
import { promisify } from "node:util";
import { deflateRaw } from "node:zlib";
import type { Agreement } from "../../../core/schemas/host.ts";
import type { JobRecord } from "../../../core/record.ts";
import { cardDifferences } from "../../../core/compare-card.ts";
import { engineVersion } from "../../../engine/index.ts";
import { jobRecordOf, jobsWaiting, keepAgreement } from "../database/job-table.ts";
import type { Database } from "../database/database.ts";
import { Trouble } from "../trouble.ts";
import type { AskedBy, EngineThreads } from "./engine-threads.ts";
import { bookWithDependencies } from "./dependencies-of.ts";
import type { WorkedAgain } from "./thread-messages.ts";

export interface ReworkedCard {
  readonly agreement: Agreement;
  readonly traces: readonly { readonly of: string; readonly steps: readonly unknown[] }[];
}

export async function reworkCard(
  database: Database,
  threads: EngineThreads,
  job: JobRecord,
  by: AskedBy = {},
): Promise<ReworkedCard> {
  const card = job.signed?.card;
  if (card === undefined)
    return { agreement: { says: "not signed", now: engineVersion, differences: [] }, traces: [] };
  const book =
    job.book === undefined ? undefined : await bookWithDependencies(database, threads, job.book.print, by);
  if (book === undefined)
    return {
      agreement: { says: "book unknown", then: card.engine, now: engineVersion, differences: [] },
      traces: [],
    };
  let worked: WorkedAgain;
  try {
    worked = await threads.ask({ asks: "work", ...book, answers: job.answers }, by);
  } catch (cause) {
    if (cause instanceof Trouble && cause.status === 422)
      return {
        agreement: { says: "cannot be worked", then: card.engine, now: engineVersion, differences: [] },
        traces: [],
      };
    throw cause;
  }
  const { card: now, traces } = worked;
  const differences = [...cardDifferences(card, now)];
  return {
    agreement: {
      says: differences.length === 0 ? "same" : "differs",
      then: card.engine,
      now: now.engine,
      differences,
    },
    traces,
  };
}

export interface Rework {
  /** Looks for signed jobs that wait. */
  poke(): void;
  /** Resolves when none waits. */
  idle(): Promise<void>;
}

/** Works cards again as they are signed, and keeps what came of it with the traces of the values. */
export function reworkSigned(database: Database, threads: EngineThreads): Rework {
  let again = false;
  let running: Promise<void> | undefined;
  const run = async (): Promise<void> => {
    do {
      again = false;
      try {
        const waiting = await jobsWaiting(database);
        for (const id of waiting) {
          const job = await jobRecordOf(database, id);
          const { agreement, traces } = await reworkCard(database, threads, job);
          const packed =
            traces.length === 0
              ? null
              : await promisify(deflateRaw)(JSON.stringify({ engine: agreement.now, traces }));
          await keepAgreement(database, id, job.book?.print ?? "", agreement, packed);
        }
        if (waiting.length > 0) again = true;
      } catch {
        /* It stays waiting, and is tried at the next poke. */
      }
    } while (again);
    running = undefined;
  };
  return {
    poke: () => {
      again = true;
      running ??= run();
    },
    idle: async () => {
      while (running !== undefined) await running;
    },
  };
}
