// What a weighing says in words, and the order in which its jobs are read: those that are refused now, or no
// longer, first.
import type { ComparisonView, ComparedJob, ComparedOutput } from "../../../core/view.ts";

export const jobsWords = (count: number): string => (count === 1 ? "1 job" : `${count} jobs`);

/** `laid` are the names of the jobs laid alongside; other logged ones come from the host. */
export function fromWords(job: ComparedJob, laid?: ReadonlySet<string>): string {
  switch (job.from) {
    case "worked":
      return "worked example";
    case "logged":
      return laid?.has(job.name) === false ? "job from the log" : "job laid alongside";
    case "spread":
      return "made-up job";
  }
}

/** One sentence of what a change does. */
export function movesWords(jobs: number, wordsOnly: boolean, done: boolean): string {
  if (wordsOnly) return "Only words for readers: it moves nothing.";
  if (jobs > 0) return `Moves ${jobsWords(jobs)}.`;
  return done ? "Moves no job that was weighed." : "Moves none so far.";
}

const weight = (job: ComparedJob): number =>
  job.stateBefore !== job.stateAfter ? 0 : job.stateAfter === "ready" ? 1 : 2;

/** Jobs that one of the groups moves (all of them where none is chosen), the weightiest first. */
export const readingOrder = (view: ComparisonView, group: number | undefined): readonly ComparedJob[] =>
  view.moved
    .filter((job) => group === undefined || job.outputs.some((output) => output.by.includes(group)))
    .sort((a, b) => weight(a) - weight(b));

/** What a reader looks for first: stops, then other lines, then chosen words, then numbers. */
export const outputOrder = (outputs: readonly ComparedOutput[]): readonly ComparedOutput[] => {
  const rank = ({ name }: ComparedOutput): number =>
    name.startsWith("stop ")
      ? 0
      : name.startsWith("caution ")
        ? 1
        : name.startsWith("step ") || name === "order of steps"
          ? 2
          : 3;
  return outputs.filter(({ name }) => name !== "state").sort((a, b) => rank(a) - rank(b));
};

export const countsWords = (view: ComparisonView, laid?: ReadonlySet<string>): string => {
  const parts = [
    `${view.counts.worked.moved} of ${view.counts.worked.worked} worked examples`,
    ...(view.counts.logged.worked > 0
      ? [
          `${view.counts.logged.moved} of ${jobsWords(view.counts.logged.worked)} laid ` +
            "alongside" +
            (laid !== undefined && view.counts.logged.worked > laid.size ? " or from the log" : ""),
        ]
      : []),
    ...(view.counts.spread.worked > 0
      ? [`${view.counts.spread.moved} of ${view.counts.spread.worked} made-up jobs`]
      : []),
  ];
  return `${parts.join(", ")} come out otherwise.`;
};
