// How many jobs each own line of a layer changes, read from a comparison with the book underneath.
import type { ComparisonView } from "../../../core/view.ts";
import type { ComparisonState } from "../../client/engine/compare-client.ts";

/** What one own line of a layer changes. */
export interface LayerImpact {
  readonly jobs: number;
  /** Only words for readers differ. */
  readonly wordsOnly: boolean;
  /** False while jobs are still being compared, or when the text has changed since. */
  readonly done: boolean;
}

/** By row. Lines that only make sense together share their jobs. */
export function impactByRow(state: ComparisonState, text: string): ReadonlyMap<string, LayerImpact> {
  const { view, wish } = state;
  if (view === undefined || wish === undefined) return new Map();
  const done = view.done && wish.after === text;
  return new Map(
    view.groups.flatMap(({ changes, jobs }) =>
      changes.map((change) => [change.id, { jobs, wordsOnly: change.wordsOnly, done }] as const),
    ),
  );
}

/** Index of the group that holds the change of a row. */
export const groupOf = (view: ComparisonView | undefined, row: string): number | undefined => {
  const at = view?.groups.findIndex(({ changes }) => changes.some((change) => change.id === row)) ?? -1;
  return at < 0 ? undefined : at;
};

export function impactWords({ jobs, wordsOnly, done }: LayerImpact): string {
  if (wordsOnly) return "only words";
  if (jobs > 0) return `moves ${jobs === 1 ? "1 job" : `${jobs} jobs`}${done ? "" : " so far"}`;
  return done ? "moves no job" : "weighing…";
}
