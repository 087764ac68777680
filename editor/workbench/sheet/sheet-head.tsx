// The head of the sheet: a rail with the names of the columns, a tag for each job, and a button that adds
// one.
import type { Place } from "../store/document.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";
import type { Columns } from "./columns.ts";
import { addColumn } from "./columns.ts";
import { JobTagHead } from "./job-tags.tsx";

/** Height of the head in px; `.hung-tag` and `scroll-padding-top` in the style sheets follow it. */
export const headHeight = 144;

export function SheetHead(props: {
  readonly columns: Columns;
  readonly template: string;
  readonly printing: boolean;
  readonly jobs: readonly JobTag[];
  readonly views: Snapshot["jobs"];
  readonly chosen: Place | undefined;
  readonly onOpenJob: (id: string) => void;
  readonly onAddJob: () => void;
}) {
  const { columns, template } = props;
  const column = props.chosen?.column;
  const chosenJob = typeof column === "object" ? column.job : undefined;
  return (
    <div
      className="sheet-head"
      role="row"
      aria-rowindex={1}
      style={{
        gridTemplateColumns: props.printing ? template : `${template} ${addColumn}px`,
        height: headHeight,
      }}
    >
      <div role="columnheader" className="sheet-head-name">
        <span>{columns.stacked ? "Name and rule" : "Name"}</span>
      </div>
      {!columns.stacked && <OwnHead says="Rule" />}
      {columns.basis > 0 && <OwnHead says="Basis" />}
      {props.jobs.map((job) => (
        <div role="columnheader" key={job.id} className="sheet-head-job">
          <JobTagHead
            job={job}
            view={props.views[job.id]}
            chosen={chosenJob === job.id}
            onOpen={() => props.onOpenJob(job.id)}
          />
        </div>
      ))}
      <div role="columnheader" className="sheet-head-add no-print">
        <button
          type="button"
          className="add-tag"
          onClick={props.onAddJob}
          aria-label="Lay a job alongside"
          title="Lay a job alongside"
        >
          <span aria-hidden="true">+</span>
        </button>
      </div>
    </div>
  );
}

const OwnHead = (props: { readonly says: string }) => (
  <div role="columnheader" className="sheet-head-own">
    <span>{props.says}</span>
  </div>
);
