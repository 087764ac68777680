// What is chosen: the cell, its row, and the job that the card and the traces are about.
import { useState } from "react";
import type { Row } from "../../../core/view.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";
import type { Place, WorkbenchState } from "../store/document.ts";

export interface Chosen {
  readonly place: Place | undefined;
  readonly row: Row | undefined;
  /** The job of the chosen cell, else the one chosen last, else the first. */
  readonly job: JobTag | undefined;
  readonly setJob: (id: string) => void;
}

export function useChosen(state: WorkbenchState, byId: ReadonlyMap<string, Row>): Chosen {
  const [lastJob, setJob] = useState("");
  const { chosen: place } = state;
  const { jobs } = state.desk;
  const id = typeof place?.column === "object" ? place.column.job : lastJob;
  return {
    place,
    row: place && byId.get(place.row),
    job: jobs.find((one) => one.id === id) ?? jobs[0],
    setJob,
  };
}
