// The answers of logged jobs, fetched from the host page by page for a weighing; it can be stopped, and tells how far it is.
import type { Answers } from "../../../core/view.ts";
import type { HostClient } from "../store/host-client.ts";

export interface LoggedJob { readonly name: string; readonly answers: Answers }

const atOnce = 500;

/** The last changed jobs of a book, at most `most`; jobs without answers are left out. Ends early once `stopped` says so. */
export async function loggedJobs(client: Pick<HostClient, "answers">, book: string, most: number, told: (count: number) => void, stopped: () => boolean): Promise<readonly LoggedJob[]> {
  const found: LoggedJob[] = [];
  let looked = 0;
  for (let before: string | undefined; looked < most && !stopped(); ) {
    const page = await client.answers({ book, limit: Math.min(atOnce, most - looked), ...(before === undefined ? {} : { before }) });
    looked += page.jobs.length;
    found.push(...page.jobs.filter(({ answers }) => Object.keys(answers).length > 0).map(({ id, title, answers }) => ({ name: title === "" ? `job ${id.slice(0, 8)}` : title, answers })));
    told(looked);
    before = page.next;
    if (before === undefined) break;
  }
  return found;
}
