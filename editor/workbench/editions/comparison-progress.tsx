// How far a comparison is, and the buttons that stop and resume it.
import { nothingFetched } from "../shop-host/log-answers.ts";
import type { Comparison } from "./use-comparison.ts";

export interface ComparisonStatus {
  /** Fetching the log was stopped: nothing of it is compared before the rest has come or is given up. */
  readonly partOfLog: boolean;
  /** Something is left to compare. */
  readonly left: boolean;
  /** One of the texts has changed since it was compared. */
  readonly outdated: boolean;
  /** Comparing again could tell something else: the log may have grown. */
  readonly worthRepeating: boolean;
}

/** `text` is the text in the workbench now. */
export function comparisonStatus(comparison: Comparison, text: string, hasHost: boolean): ComparisonStatus {
  const { state, logged, log, trouble, before, after } = comparison;
  const { view, wish } = state;
  const partOfLog = logged > 0 && hasHost && !comparison.fetching && !log.whole && log !== comparison.enough;
  return {
    partOfLog,
    left: partOfLog || (view !== undefined && !view.done),
    outdated:
      wish !== undefined &&
      ((after?.key === "bench" && wish.after !== text) || (before?.key === "bench" && wish.before !== text)),
    worthRepeating: logged > 0 || trouble !== undefined || state.trouble !== undefined || view === undefined,
  };
}

interface ProgressProps {
  readonly comparison: Comparison;
  readonly status: ComparisonStatus;
}

export function ComparisonProgress({ comparison, status }: ProgressProps) {
  const { state } = comparison;
  const { view } = state;
  return (
    <div className="progress no-print">
      <p role="status">{progressWords(comparison, status)}</p>
      {state.running && view && (
        <progress
          className="progress-rule"
          aria-label="Jobs weighed"
          max={Math.max(1, view.all)}
          value={view.settled}
        />
      )}
      {view && (
        <p className="progress-count">
          {view.settled} of {view.all}
        </p>
      )}
      <span className="progress-does">
        {state.running || comparison.fetching ? (
          <button type="button" className="button" onClick={comparison.stop}>
            Stop
          </button>
        ) : (
          <Resume comparison={comparison} status={status} />
        )}
      </span>
    </div>
  );
}

function Resume({ comparison, status }: ProgressProps) {
  const { log, enough, compare } = comparison;
  const { partOfLog, left, outdated } = status;
  return (
    <>
      {partOfLog && log.looked > 0 && (
        <button type="button" className="button" onClick={() => compare(log, true)}>
          Weigh these {log.looked}
        </button>
      )}
      {left && !outdated && (
        <button type="button" className="button" onClick={() => compare(log, log === enough)}>
          Go on
        </button>
      )}
      {(outdated || (!left && status.worthRepeating)) && (
        <button type="button" className="button" onClick={() => compare(outdated ? log : nothingFetched)}>
          {outdated ? "Weigh it as it is now" : "Weigh again"}
        </button>
      )}
    </>
  );
}

function progressWords({ state, fetching, log }: Comparison, status: ComparisonStatus): string {
  if (fetching) return `Fetching jobs from the log: ${log.looked} so far.`;
  if (status.partOfLog) return `Left off fetching the log: ${log.looked} jobs have come.`;
  if (state.trouble !== undefined) return "The weighing broke off. Your text is kept.";
  if (status.outdated) return "The text was changed since. What stands below is of the text before.";
  if (state.running) return "Working the same jobs by both.";
  if (state.view === undefined) return "Not weighed yet.";
  return state.view.done ? "All are weighed." : "Stopped. What is weighed stays.";
}
