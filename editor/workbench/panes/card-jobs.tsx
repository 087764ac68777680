// Which of the jobs laid alongside the card is drawn for.
import type { JobTag } from "../../client/storage/stored-work.ts";
export function CardJobs(props: {
  readonly jobs: readonly JobTag[];
  readonly current: string;
  readonly onPick: (id: string) => void;
}) {
  return (
    <div className="card-jobs no-print">
      <label>
        <span className="label">Job shown</span>
        <select
          className="field"
          value={props.current}
          onChange={(event) => props.onPick(event.target.value)}
        >
          {props.jobs.map((job) => (
            <option key={job.id} value={job.id}>
              {job.name}
            </option>
          ))}
        </select>
      </label>
      <a href="../job.html" target="_blank" rel="noreferrer">
        The technician’s own page
      </a>
    </div>
  );
}
