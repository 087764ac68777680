// The states of a job and of a value: the one list from which the types, the schemas that cross a border and
// the words of worked examples derive.

/**
 * `ready`: the steps are released. `waiting`: an answer is missing. `stopped`: a stop applies. `referred`:
 * somebody else decides. `impossible`: a value that the card needs cannot be worked out.
 */
export const JOB_STATES = ["ready", "waiting", "stopped", "referred", "impossible"] as const;
export type JobState = (typeof JOB_STATES)[number];

/** Whether the book keeps the work from whoever asks: refused, or for somebody else to decide. */
export const isRefused = (state: JobState): boolean => state === "stopped" || state === "referred";

export const isJobState = (word: string): word is JobState =>
  (JOB_STATES as readonly string[]).includes(word);

export const VALUE_STATES = ["known", "unknown", "impossible"] as const;
export type ValueState = (typeof VALUE_STATES)[number];
