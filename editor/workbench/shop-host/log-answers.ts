// The answers of logged jobs, fetched from the host page by page for a weighing. It can be left off after any
// page, and goes on from there: what has come stays with whoever asked, also where the host goes away half
// way.
import type { Answers } from "../../../core/view.ts";
import type { HostClient } from "../../client/storage/host-client.ts";

interface LoggedJob {
  readonly name: string;
  readonly answers: Answers;
}

export interface LogFetched {
  readonly jobs: readonly LoggedJob[];
  /** Jobs that the host has told of, also those left out because nothing is answered in them. */
  readonly looked: number;
  /** Where the next page begins; absent before the first. */
  readonly next?: string;
  /** As many as were asked for have come, or all that there are. */
  readonly whole: boolean;
}

export const nothingFetched: LogFetched = { jobs: [], looked: 0, whole: false };

/** The most that the host gives at once. */
const atOnce = 500;

/**
 * The last changed jobs of a book, at most `most`; goes on from `from`. Tells after each page what has come
 * so far, and leaves off once `stopped` says so. Throws what the client throws.
 */
export async function loggedJobs(
  client: Pick<HostClient, "answers">,
  book: string,
  most: number,
  from: LogFetched,
  told: (fetched: LogFetched) => void,
  stopped: () => boolean,
): Promise<LogFetched> {
  let fetched: LogFetched = {
    ...from,
    whole: from.looked >= most || (from.looked > 0 && from.next === undefined),
  };
  while (!fetched.whole && !stopped()) {
    const page = await client.answers({
      book,
      limit: Math.min(atOnce, most - fetched.looked),
      ...(fetched.next === undefined ? {} : { before: fetched.next }),
    });
    const looked = fetched.looked + page.jobs.length;
    const jobs = page.jobs
      .filter(({ answers }) => Object.keys(answers).length > 0)
      .map(({ id, title, answers }) => ({ name: title === "" ? `job ${id.slice(0, 8)}` : title, answers }));
    fetched = {
      jobs: [...fetched.jobs, ...jobs],
      looked,
      ...(page.next === undefined ? {} : { next: page.next }),
      whole: page.next === undefined || looked >= most,
    };
    told(fetched);
  }
  return fetched;
}
