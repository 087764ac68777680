// What would change a job. Apart from the other proofs, so that a page can fetch it when it is first asked.
import type { FlipView } from "../../core/view.ts";
import { type Job, workedOf } from "./book.ts";
import { flipsOf } from "../analysis/sensitivity/sensitivity.ts";

/** What would change the job: the nearest other answer to each side at which something turns. */
export const whatWouldChange = (job: Job): readonly FlipView[] => flipsOf(workedOf(job));
