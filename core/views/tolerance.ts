// What the tolerances of the answers leave open in a job.
import type { Doubt } from "../reason.ts";

export interface OpenDecision {
  readonly id: string;
  /** In a sentence that names it as the book does. */
  readonly says: string;
  readonly doubt: Doubt;
  /** The text of a stop. */
  readonly text?: string;
}

/** What a job's tolerances leave open. */
export interface ToleranceView {
  /** Span of each value that is not one number: "142 mm to 156 mm". */
  readonly spans: Readonly<Record<string, string>>;
  /** Decisions that turn within the tolerances. */
  readonly open: readonly OpenDecision[];
  /** The measurement whose narrowing settles most. */
  readonly measureAgain?: string;
  /** The nearest value of that measurement at which a decision turns, and how far that is from the answer. */
  readonly turnsAt?: { readonly value: string; readonly away: string };
}
