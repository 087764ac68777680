// In the technician's worker, fetched later: why, what would change it, the card as it is kept, and what its
// drawings are made from.
import { sensitivityOfJob, why as whyOf } from "../../../engine/index.ts";
import type { JobCalls } from "./messages.ts";
import { jobHere } from "./served.ts";

export { cardRecord } from "./card-record.ts";
export { drawing } from "./answer-drawing.ts";

export const why: JobCalls["why"] = (text, job, name, depth, units) =>
  whyOf(jobHere(text, job), name, depth, units);
export const closeCalls: JobCalls["closeCalls"] = (text, job) => sensitivityOfJob(jobHere(text, job));
