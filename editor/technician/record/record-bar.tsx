// The line above a job: its name, the way to the other jobs of this device, and whether what was entered is
// kept and delivered.
import { useState } from "react";
import type { JobRecord } from "../../../core/record.ts";
import type { Delivery } from "../store/deliver.ts";
import { useWords } from "../../ui/words/words.ts";
import type { Say } from "../../ui/words/words.ts";
import { useNow } from "./clock.ts";
import type { JobListProps } from "./job-list.tsx";
import "./record.css";

export interface RecordBarProps {
  readonly open: JobRecord;
  readonly jobs: readonly JobRecord[];
  readonly delivery: Delivery;
  readonly unkept: boolean;
  /** The list of jobs, once it is loaded. */
  readonly List: ((props: JobListProps) => React.ReactNode) | undefined;
  readonly onName: (title: string) => void;
  readonly onOpen: (job: string) => void;
  readonly onBegin: () => void;
}

export function RecordBar(props: RecordBarProps) {
  const { open, jobs, List } = props;
  const say = useWords();
  const now = useNow(20_000);
  const [listed, setListed] = useState(false);
  return (
    <div className="record-bar no-print">
      <JobName key={`${open.id} ${open.title}`} open={open} onName={props.onName} />
      <button
        type="button"
        className="button record-jobs"
        aria-haspopup="dialog"
        disabled={List === undefined}
        onClick={() => setListed(true)}
      >
        {say("record.jobs")} <span className="record-count">{jobs.length}</span>
      </button>
      <p className={props.unkept ? "record-kept is-unkept" : "record-kept"} role="status">
        {keptLine(say, open, props, now)}
        {props.delivery.host === "refused" && (
          <>
            {" "}
            <a href={`/sign-in.html?back=${encodeURIComponent(location.pathname + location.search)}`}>
              {say("record.sign-in-here")}
            </a>
          </>
        )}
      </p>
      {listed && List && (
        <List
          jobs={jobs}
          open={open.id}
          onClose={() => setListed(false)}
          onOpen={(job) => {
            setListed(false);
            props.onOpen(job);
          }}
          onBegin={() => {
            setListed(false);
            props.onBegin();
          }}
        />
      )}
    </div>
  );
}

function JobName({ open, onName }: Pick<RecordBarProps, "open" | "onName">) {
  const say = useWords();
  const [typed, setTyped] = useState(open.title);
  if (open.signed !== undefined)
    return (
      <p className="record-name is-signed">
        <b>{open.title || say("record.untitled")}</b>
      </p>
    );
  return (
    <label className="record-name">
      <span className="label">{say("record.name")}</span>
      <input
        className="field"
        value={typed}
        maxLength={200}
        placeholder={say("record.name-hint")}
        onChange={(event) => setTyped(event.currentTarget.value)}
        onBlur={() => onName(typed)}
        onKeyDown={(event) => {
          if (event.key === "Enter") onName(typed);
        }}
      />
    </label>
  );
}

/** Milliseconds that this device's clock may be off before it is told. */
const skewTold = 2 * 60_000;

/** `Kept on this device; delivered 3 min ago`, `Kept on this device; 4 entries wait`. */
export function keptLine(
  say: Say,
  open: JobRecord,
  { delivery, unkept }: Pick<RecordBarProps, "delivery" | "unkept">,
  now: number,
): string {
  if (unkept) return say("record.unkept");
  const parts = [open.begun === 0 ? say("record.nothing-yet") : say("record.kept")];
  const { host, waiting, last, unwanted, skew = 0 } = delivery;
  if (waiting > 0)
    parts.push(waiting === 1 ? say("record.waits-one") : say("record.waits", { count: waiting }));
  else if (last !== undefined) parts.push(say("record.delivered", { ago: agoWords(say, now - last) }));
  if (host === "refused") parts.push(say("record.sign-in"));
  if (unwanted > 0) parts.push(say("record.unwanted", { count: unwanted }));
  if (Math.abs(skew) > skewTold)
    parts.push(say("record.clock", { count: Math.round(Math.abs(skew) / 60_000) }));
  return parts.join("; ");
}

function agoWords(say: Say, milliseconds: number): string {
  const minutes = Math.floor(milliseconds / 60_000);
  if (minutes < 1) return say("record.ago-now");
  if (minutes < 60) return say("record.ago-minutes", { count: minutes });
  if (minutes < 48 * 60) return say("record.ago-hours", { count: Math.floor(minutes / 60) });
  return say("record.ago-days", { count: Math.floor(minutes / 1440) });
}
