// What the tolerances of the answers leave open in a job.
import type { Doubt } from "../reason.ts";

/** What a job's tolerances leave open. */
export interface ToleranceView {
  /** Span of each value that is not one number: "142 mm to 156 mm". */
  readonly spans: Readonly<Record<string, string>>;
  /** Decisions that turn within the tolerances, each in a sentence. */
  readonly open: readonly { readonly id: string; readonly says: string; readonly doubt: Doubt }[];
  /** The measurement whose narrowing settles most. */
  readonly measureAgain?: string;
  /** The nearest value of that measurement at which a decision turns, and how far that is from the answer. */
  readonly turnsAt?: { readonly value: string; readonly away: string };
}
