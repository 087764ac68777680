// What would change a job. Apart from the other proofs, so that a page can fetch it when it is first asked.
import type { SensitivityView } from "../../core/view.ts";
import { type Job, evaluationOf } from "./book.ts";
import { sensitivityOf } from "../analysis/sensitivity/sensitivity.ts";

/** What would change the job: the nearest other answer to each side at which something turns. */
export const sensitivityOfJob = (job: Job): readonly SensitivityView[] => sensitivityOf(evaluationOf(job));
