// What can be done with the jobs beside the sheet: add, copy, rename, move, remove, write into the book.
import type { Answers } from "../../../core/view.ts";
import type { Ticked, JobTag } from "../../client/storage/stored-work.ts";
import { freshId, movedJob, writeAsExample } from "../bench-jobs.ts";
import type { WorkbenchParts } from "./use-workbench.ts";

export interface JobActions {
  /** Adds a job at the right and opens its panel. */
  readonly add: (made: Omit<JobTag, "id">) => void;
  /** Adds a job from a record and goes to its cell in this row of the sheet. */
  readonly addFromRecord: (answers: Answers, name: string, row: string) => void;
  readonly change: (id: string, part: Partial<Omit<JobTag, "id">>) => void;
  readonly tick: (id: string, ticked: Ticked) => void;
  readonly openCard: (id: string) => void;
  readonly remove: (job: JobTag) => void;
  readonly move: (id: string, by: -1 | 1) => void;
  readonly writeIntoBook: (job: JobTag) => void;
  /** Opens the why of this row for a job. */
  readonly showWhy: (id: string, row: string) => void;
}

export function jobActions(parts: WorkbenchParts): JobActions {
  const { store, panel, chosen, filter, calls } = parts;
  const { jobs } = parts.state.desk;
  const change: JobActions["change"] = (id, part) =>
    store.setJobs(jobs.map((job) => (job.id === id ? { ...job, ...part } : job)));
  const goToCell = (row: string, job: string): void => {
    store.choose({ row, column: { job } });
    chosen.setJob(job);
    panel.show({ is: "why" });
    calls.focusSheet();
  };
  return {
    change,
    tick: (id, ticked) => change(id, { ticked }),
    add: (made) => {
      const id = freshId(jobs);
      store.setJobs([...jobs, { ...made, id }]);
      chosen.setJob(id);
      panel.show({ is: "job", id });
    },
    addFromRecord: (answers, name, row) => {
      const id = freshId(jobs);
      store.setJobs([...jobs, { id, name, answers }]);
      store.tell(`Laid ${name} alongside. It is the last job on the right.`);
      parts.setView("sheet");
      filter.clear();
      goToCell(parts.book.byId.has(row) ? row : (parts.snapshot?.rows[0]?.id ?? row), id);
    },
    openCard: (id) => {
      chosen.setJob(id);
      parts.setView("card");
      panel.close();
    },
    remove: (job) => {
      store.setJobs(jobs.filter((one) => one.id !== job.id));
      panel.close();
      store.tell(`Took away ${job.name}. Undo brings it back.`);
    },
    move: (id, by) => store.setJobs(movedJob(jobs, id, by)),
    writeIntoBook: (job) => void writeAsExample(store, job),
    showWhy: (id, row) => goToCell(row, id),
  };
}
