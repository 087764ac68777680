// What an own line of a layer moves, as a weighing of the layer against the book underneath tells it.
import type { ComparisonView } from "../../../core/view.ts";
import type { ComparisonState } from "../../client/engine/compare-client.ts";

export interface Moves {
  readonly jobs: number;
  /** Only words for readers differ. */
  readonly wordsOnly: boolean;
  /** False while jobs are still worked, or the text has changed since. */
  readonly done: boolean;
}

/** By row. Lines that only make sense together share their jobs. */
export function movesByRow(state: ComparisonState, text: string): ReadonlyMap<string, Moves> {
  const { view, wish } = state;
  if (view === undefined || wish === undefined) return new Map();
  const done = view.done && wish.after === text;
  return new Map(
    view.groups.flatMap(({ changes, jobs }) =>
      changes.map((change) => [change.id, { jobs, wordsOnly: change.wordsOnly, done }] as const),
    ),
  );
}

/** The place among the groups of the change that brought a row about. */
export const groupOf = (view: ComparisonView | undefined, row: string): number | undefined => {
  const at = view?.groups.findIndex(({ changes }) => changes.some((change) => change.id === row)) ?? -1;
  return at < 0 ? undefined : at;
};

export function movesWords({ jobs, wordsOnly, done }: Moves): string {
  if (wordsOnly) return "only words";
  if (jobs > 0) return `moves ${jobs === 1 ? "1 job" : `${jobs} jobs`}`;
  return done ? "moves no job" : "weighing…";
}
