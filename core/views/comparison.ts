// What the engine shows of two books compared: by rule, and by effect on jobs.
import type { JobState } from "../job-state.ts";
import type { Answers } from "./job.ts";

/** One statement that two books write differently. */
export interface RuleChangeView {
  /** Row id, the same in both books. */
  readonly id: string;
  readonly does: "added" | "dropped" | "changed" | "moved";
  /** One line: "dial house-taper: 1:10 becomes 1:12". */
  readonly says: string;
  /** Further lines, one for each part that differs: "row 15 °C: 2.0 becomes 2.2". */
  readonly details: readonly string[];
  /** Only words for readers differ (a reason, a basis, a title of a figure): no value can follow from it. */
  readonly wordsOnly: boolean;
}

/** Changes that only make sense together (a new kind and the figure that uses it), tried as one. */
export interface ChangeGroupView {
  readonly changes: readonly RuleChangeView[];
  /** Jobs that this group alone moves. */
  readonly jobs: number;
}

/**
 * Where a job of a comparison comes from: a worked example of either book, a logged job, or the spread made
 * up to reach every row and alternative.
 */
export type ComparedFrom = "worked" | "logged" | "spread";

export interface ComparedOutput {
  /** A value's name, a row id of a line, or `state`. */
  readonly name: string;
  readonly before: string;
  readonly after: string;
  /**
   * Places in `groups`: each of these alone makes it differ; with `together` only all of them do. Empty where
   * no rule change does (the engine or a book underneath has changed).
   */
  readonly by: readonly number[];
  readonly together?: boolean;
}

export interface ComparedJob {
  readonly name: string;
  readonly from: ComparedFrom;
  readonly answers: Answers;
  readonly stateBefore: JobState;
  readonly stateAfter: JobState;
  readonly outputs: readonly ComparedOutput[];
}

export interface ComparisonView {
  readonly groups: readonly ChangeGroupView[];
  /** Jobs that come out differently, those of worked examples first. */
  readonly moved: readonly ComparedJob[];
  /** How many jobs of each origin were worked, and how many of them moved. */
  readonly counts: Readonly<Record<ComparedFrom, { readonly worked: number; readonly moved: number }>>;
  /** Rows, alternatives and lines of both books that the worked jobs reach. */
  readonly reached: number;
  readonly toReach: number;
  readonly done: boolean;
  readonly settled: number;
  readonly all: number;
}
