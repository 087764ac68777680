// The jobs of the shop, searched and listed, with the record of the chosen one beside them.
import { memo, useCallback, useEffect, useRef, useState } from "react";
import type { JobLine, JobList } from "../../../core/schemas/host.ts";
import type { Answers } from "../../../core/view.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import type { Shop, ShopState } from "../store/shop.ts";
import { when } from "./edition-words.ts";
import { JobRecordPart } from "./job-record.tsx";
import { agreementWords, sameName, withNewest } from "./job-words.ts";

const atOnce = 50;
/** The most that the host gives at once. */
const mostAtOnce = 500;
/** Milliseconds for which typing rests before the host is asked. */
const rest = 250;

/** Which jobs are asked for; "" leaves that question open. */
interface JobFilter {
  readonly search: string;
  readonly state: "" | "open" | "signed";
  readonly book: string;
}
interface LoadedJobs {
  readonly jobs: readonly JobLine[];
  /** Where the next page begins; absent after the last. */
  readonly next?: string | undefined;
}

/** The jobs that the filter finds, as far as they are loaded. */
function useJobList(client: HostClient, { search, state, book }: JobFilter, deliveries: number) {
  const [list, setList] = useState<LoadedJobs>();
  const [trouble, setTrouble] = useState("");
  const query = {
    limit: atOnce,
    ...(search.trim() === "" ? {} : { search: search.trim() }),
    ...(state === "" ? {} : { state }),
    ...(book === "" ? {} : { book }),
  };
  const wanted = JSON.stringify(query);
  const fail = (): void => setTrouble("The host does not answer.");
  const shownFor = useRef("");
  // biome-ignore lint/correctness/useExhaustiveDependencies: loads again after each delivery.
  useEffect(() => {
    let over = false;
    // What is delivered meanwhile comes into the list that is read; it does not take the reader back to its
    // first page.
    const same = list !== undefined && shownFor.current === wanted;
    const limit = same ? Math.min(mostAtOnce, Math.max(atOnce, list.jobs.length)) : atOnce;
    const take = (found: JobList): void => {
      if (over) return;
      shownFor.current = wanted;
      setList((now) => (same && now !== undefined ? withNewest(now, found) : found));
      setTrouble("");
    };
    const clock = setTimeout(
      () => {
        client.jobs({ ...query, limit }).then(take, () => {
          if (!over) fail();
        });
      },
      list === undefined ? 0 : rest,
    );
    return () => {
      over = true;
      clearTimeout(clock);
    };
  }, [client, wanted, deliveries]);
  const more = (): void => {
    const before = list?.next;
    if (before !== undefined)
      client
        .jobs({ ...query, before })
        .then(
          (next) =>
            setList((now) =>
              now?.next !== before ? now : { jobs: [...now.jobs, ...next.jobs], next: next.next },
            ),
          fail,
        );
  };
  return { list, trouble, more };
}

export function JobsPart(props: {
  readonly shop: Shop;
  readonly state: ShopState;
  readonly book: string;
  readonly onLay: (answers: Answers, name: string) => void;
}) {
  const { client } = props.shop;
  const { deliveries, books } = props.state;
  const [filter, setFilter] = useState<JobFilter>({ search: "", state: "", book: "" });
  const { list, trouble, more } = useJobList(client, filter, deliveries);
  const [chosen, setChosen] = useState<string>();
  const choose = useCallback((id: string) => setChosen(id), []);
  const record = useRef<HTMLElement>(null);
  // Where the record does not fit beside the list it lies below all of its rows: the press shall not seem to
  // do nothing.
  useEffect(() => {
    if (chosen !== undefined && matchMedia("(max-width: 900px)").matches)
      record.current?.scrollIntoView({ block: "start" });
  }, [chosen]);
  return (
    <div className="log-jobs">
      <section aria-labelledby="log-jobs-heading">
        <h3 id="log-jobs-heading" className="out-of-sight">
          Jobs
        </h3>
        <JobFilterFields filter={filter} books={books} onChange={setFilter} />
        {trouble !== "" && <p role="alert">{trouble}</p>}
        <p role="status" className="record-note log-count">
          {countWords(list, filter)}
        </p>
        <ul className="log-lines">
          {(list?.jobs ?? []).map((job) => (
            <Line key={job.id} job={job} chosen={job.id === chosen} onChoose={choose} />
          ))}
        </ul>
        {list?.next !== undefined && (
          <p>
            <button type="button" className="button" onClick={more}>
              More jobs
            </button>
          </p>
        )}
      </section>
      <section ref={record} className="log-record" aria-label="Record of the job">
        {chosen === undefined ? (
          <p className="record-note">
            {list?.jobs.length === 0
              ? "The record of a job is read here."
              : "Choose a job to read its record."}
          </p>
        ) : (
          <JobRecordPart
            key={chosen}
            client={client}
            id={chosen}
            deliveries={deliveries}
            book={props.book}
            onLay={props.onLay}
          />
        )}
      </section>
    </div>
  );
}

function JobFilterFields(props: {
  readonly filter: JobFilter;
  readonly books: ShopState["books"];
  readonly onChange: (filter: JobFilter) => void;
}) {
  const { filter } = props;
  const change = (part: Partial<JobFilter>): void => props.onChange({ ...filter, ...part });
  return (
    <div className="log-find">
      <input
        type="search"
        className="field"
        aria-label="Find in jobs"
        placeholder="Title, lot, what was used, note, name"
        value={filter.search}
        onChange={(event) => change({ search: event.target.value })}
      />
      <label>
        <span className="out-of-sight">State</span>
        <select
          className="field"
          value={filter.state}
          onChange={(event) => change({ state: event.target.value as JobFilter["state"] })}
        >
          <option value="">open and signed</option>
          <option value="open">open</option>
          <option value="signed">signed</option>
        </select>
      </label>
      <label>
        <span className="out-of-sight">Book</span>
        <select
          className="field"
          value={filter.book}
          onChange={(event) => change({ book: event.target.value })}
        >
          <option value="">all books</option>
          {props.books.map((one) => (
            <option key={one.name} value={one.name}>
              {one.name}
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}

function countWords(list: LoadedJobs | undefined, { search, state, book }: JobFilter): string {
  if (list === undefined) return "Asking the host…";
  if (list.jobs.length > 0)
    return `Jobs: ${list.jobs.length}${list.next === undefined ? "" : " and more"}, the last changed first.`;
  const asksForAll = search.trim() === "" && state === "" && book === "";
  return asksForAll
    ? "No job has come yet. Jobs come from the tablets: a technician opens the job " +
        "page (/job.html) on this " +
        "host and answers, and what is answered stands here."
    : "No job is found.";
}

/** Drawn once: a page more, or another letter of the search, leaves the rows that stay as they are. */
const Line = memo(function Line(props: {
  readonly job: JobLine;
  readonly chosen: boolean;
  readonly onChoose: (id: string) => void;
}) {
  const { job } = props;
  return (
    <li>
      <button type="button" aria-current={props.chosen || undefined} onClick={() => props.onChoose(job.id)}>
        <b>{job.title || "without a name"}</b>
        <span>
          {job.book}
          {job.edition !== undefined && `, edition ${job.edition}`};{" "}
          {job.state === "signed" && job.signedAt !== undefined
            ? `signed by ${signerOf(job)}, ${when(job.closedAt ?? job.signedAt)}`
            : `open, changed ${when(job.changed)}`}
        </span>
        {job.state === "signed" && (
          <small className={job.agreement === "differs" ? "is-failing" : undefined}>
            {agreementWords(job.agreement)}
            {job.after > 0 && `; ${job.after} ${job.after === 1 ? "entry" : "entries"} after the signing`}
          </small>
        )}
      </button>
    </li>
  );
});

/** Whose signature it is, and who delivered it where that was somebody else. */
const signerOf = ({ signedBy = "", closedBy }: JobLine): string =>
  closedBy === undefined || sameName(signedBy, closedBy)
    ? signedBy
    : `${signedBy} (delivered by ${closedBy})`;
