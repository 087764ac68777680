// The jobs of this device, laid over the page: open and signed, the last changed first, found by any word in
// them.
import { useEffect, useRef, useState } from "react";
import type { JobRecord } from "../../../core/record.ts";
import { PickOne } from "../../ui/parts/pick-one.tsx";
import { useWords } from "../../ui/words/words.ts";
import { dayAndTime } from "./clock.ts";
import { findJobs } from "./finding.ts";
import type { Which } from "./finding.ts";

export interface JobListProps {
  readonly jobs: readonly JobRecord[];
  readonly open: string;
  readonly onOpen: (job: string) => void;
  readonly onBegin: () => void;
  readonly onClose: () => void;
}

export function JobList({ jobs, open, onOpen, onBegin, onClose }: JobListProps) {
  const say = useWords();
  const sheet = useRef<HTMLDialogElement>(null);
  const [typed, setTyped] = useState("");
  const [which, setWhich] = useState<Which>("all");
  useEffect(() => {
    sheet.current?.showModal();
  }, []);
  const found = findJobs(jobs, typed, which);
  return (
    <dialog className="job-list" ref={sheet} onClose={onClose} aria-labelledby="job-list-heading">
      <header className="job-list-head">
        <h2 id="job-list-heading">{say("record.list")}</h2>
        <button type="button" className="button" onClick={() => sheet.current?.close()}>
          {say("record.close")}
        </button>
      </header>
      <div className="job-list-find">
        <label>
          <span className="label">{say("record.find")}</span>
          <input
            className="field"
            type="search"
            value={typed}
            onChange={(event) => setTyped(event.currentTarget.value)}
          />
        </label>
        <PickOne
          legend={say("record.show")}
          value={which}
          onPick={setWhich}
          options={[
            { value: "all", says: say("record.show-all") },
            { value: "open", says: say("record.show-open") },
            { value: "signed", says: say("record.show-signed") },
          ]}
        />
      </div>
      {found.length === 0 && (
        <p className="job-list-none">
          {jobs.length === 0 ? say("record.no-jobs") : say("record.none-found")}
        </p>
      )}
      <ul className="job-list-rows">
        {found.map((job) => (
          <li key={job.id}>
            <button
              type="button"
              className={job.signed ? "job-list-row is-signed" : "job-list-row"}
              aria-current={job.id === open ? "true" : undefined}
              onClick={() => onOpen(job.id)}
            >
              <b>{job.title || say("record.untitled")}</b>
              <span>
                {job.signed
                  ? say("record.is-signed", { time: dayAndTime(job.signed.at), name: job.signed.name })
                  : `${say("record.is-open")}, ${say("record.changed", { time: dayAndTime(job.changed) })}`}
                {job.id === open && ` · ${say("record.open-now")}`}
              </span>
              <small>
                {[
                  job.book &&
                    say("record.by-book", { book: job.book.name }) +
                      (job.book.edition === undefined
                        ? ""
                        : `, ${say("record.edition", { edition: job.book.edition })}`),
                  lotsOf(job) !== "" && say("record.lots", { lots: lotsOf(job) }),
                ]
                  .filter((part) => part)
                  .join(" · ")}
              </small>
            </button>
          </li>
        ))}
      </ul>
      <button type="button" className="button main job-list-begin" onClick={onBegin}>
        {say("record.begin")}
      </button>
    </dialog>
  );
}

const lotsOf = (job: JobRecord): string =>
  [...new Set(job.used.map((line) => line.lot).filter((lot) => lot !== ""))].join(", ");
