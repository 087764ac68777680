// Writes a job as a worked example of the book.
import { type Job, showJob, evaluationOf } from "./book.ts";

/** A worked example made of a job: its answers and the values asked for. */
export function workedFrom(job: Job, name: string, title: string, gives: readonly string[]): string {
  const view = showJob(job);
  const given = Object.entries(job.answers)
    .filter(([ask, text]) => text.trim() !== "" && evaluationOf(job).given.get(ask)?.is !== "unusable")
    .map(([ask, text]) => `${ask} ${text.trim()}`);
  const values = gives.flatMap((one) => {
    const value = view.values.find((shown) => shown.name === one);
    return value?.state === "known" && typeof value.value !== "object" ? [`${one} ${value.text}`] : [];
  });
  const state = view.state;
  return [
    `worked ${name} "${title.replace(/"/g, "''")}"`,
    ...(given.length > 0 ? [`    with ${given.join(", ")}`] : []),
    `    gives ${[...values, state].join(", ")}`,
    `    from house "worked in the bench"`,
  ].join("\n");
}
