// What is done at the panel once the questions are answered: mixing, what was used, photographs, notes, the
// sign-off.
import { isRefused } from "../../../core/job-state.ts";
import { useMemo } from "react";
import type { CardRecord, JobRecord } from "../../../core/record.ts";
import type { JobView, Row } from "../../../core/view.ts";
import type { DeviceJobs } from "../store/device-jobs.ts";
import { useWords } from "../../ui/words/words.ts";
import { mixesOf } from "../mixing/mix.ts";
import { MixPanel } from "../mixing/mix-panel.tsx";
import { Notes } from "./notes.tsx";
import { Photos } from "./photos.tsx";
import { partName, prefilled } from "./prefilled.ts";
import { SignOff } from "./sign-off.tsx";
import { Used } from "./used.tsx";

export interface AtPanelProps {
  readonly record: JobRecord;
  readonly jobs: readonly JobRecord[];
  readonly job: JobView;
  readonly rows: readonly Row[];
  readonly desk: DeviceJobs;
  readonly onCard: () => Promise<CardRecord | undefined>;
}

export function AtPanel({ record, jobs, job, rows, desk: deviceJobs, onCard }: AtPanelProps) {
  const say = useWords();
  const mixes = useMemo(() => (job.state === "ready" ? mixesOf(job.pictures ?? []) : []), [job]);
  const locked = record.signed !== undefined;
  const photos = (
    <Photos
      photos={record.photos}
      shelf={deviceJobs.shelf}
      locked={locked}
      onAdd={deviceJobs.addPhoto}
      onEnter={(photo, more) => deviceJobs.add({ does: "photo", photo, ...more })}
    />
  );
  if (locked) return <div className="at-panel no-print">{photos}</div>;
  // Nothing is done at the panel before the answers have led anywhere; what was entered before an answer was
  // changed stays in view.
  const begun = record.used.length + record.photos.length + record.notes.length > 0;
  if (job.state !== "ready" && !isRefused(job.state) && !begun) return null;
  return (
    <section className="at-panel no-print" aria-labelledby="at-panel-heading">
      <h2 id="at-panel-heading">{say("record.at-panel")}</h2>
      {mixes.length > 0 && (
        <section className="panel-part" aria-labelledby="mix-heading">
          <h3 id="mix-heading">{say("mix.heading")}</h3>
          {mixes.map((mix) => (
            <MixPanel
              key={mix.id}
              mix={mix}
              baseName={partName(mix.base, rows, say)}
              hardenerName={partName(mix.hardener, rows, say)}
              fillerName={mix.filler && partName(mix.filler, rows, say)}
              timers={record.timers}
              onStart={(timer, says, ends) => deviceJobs.add({ does: "timer", timer, says, ends })}
            />
          ))}
        </section>
      )}
      <Used
        used={record.used}
        ready={prefilled(mixes, record.used, rows, say)}
        jobs={jobs}
        onEnter={(line, entered) => deviceJobs.add({ does: "used", line, ...entered })}
      />
      {photos}
      <Notes
        notes={record.notes}
        onNote={(line, text) =>
          deviceJobs.add({ does: "note", line, ...(text === undefined ? {} : { text }) })
        }
      />
      <SignOff
        record={record}
        job={job}
        onCard={onCard}
        person={deviceJobs.state().delivery.person}
        lastName={async () =>
          String((await deviceJobs.shelf?.note("last name").catch(() => undefined)) ?? "")
        }
        onSign={(name, card, note) => {
          void deviceJobs.shelf?.setNote("last name", name).catch(() => undefined);
          deviceJobs.add({ does: "sign", name, card, ...(note === undefined ? {} : { note }) });
        }}
      />
    </section>
  );
}
