// The answers of logged jobs, fetched from the host page by page for a comparison. Fetching can stop after
// any page and resume there: what has come is kept by the caller, also when the host fails half way.
import type { Answers } from "../../../core/view.ts";
import type { HostClient } from "../../client/storage/host-client.ts";

interface LoggedJob {
  readonly name: string;
  readonly answers: Answers;
}

export interface LogFetched {
  readonly jobs: readonly LoggedJob[];
  /** Jobs that the host has listed, also those left out because nothing is answered in them. */
  readonly looked: number;
  /** Where the next page begins; absent before the first. */
  readonly next?: string;
  /** As many as were asked for have come, or all that there are. */
  readonly whole: boolean;
}

export const nothingFetched: LogFetched = { jobs: [], looked: 0, whole: false };

/** The most that the host gives at once. */
const atOnce = 500;

export interface LogRequest {
  readonly client: Pick<HostClient, "answers">;
  readonly book: string;
  /** At most so many jobs, the last changed first. */
  readonly most: number;
  /** What was fetched before; fetching goes on behind it. */
  readonly from: LogFetched;
  /** After each page: all that has come so far. */
  readonly onPage: (fetched: LogFetched) => void;
  /** True stops before the next page. */
  readonly stopped: () => boolean;
}

/** The last changed jobs of a book. Throws what the client throws. */
export async function loggedJobs(request: LogRequest): Promise<LogFetched> {
  const { client, book, most, from } = request;
  let fetched: LogFetched = {
    ...from,
    whole: from.looked >= most || (from.looked > 0 && from.next === undefined),
  };
  while (!fetched.whole && !request.stopped()) {
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
    request.onPage(fetched);
  }
  return fetched;
}
