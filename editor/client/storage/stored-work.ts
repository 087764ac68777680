// The shapes in which the browser keeps work: open documents with their history, and a technician's drafts
// and ticks.
import type { Answers } from "../../../core/view.ts";

/**
 * Step id → the words that were ticked. If an answer changes the step, its tick no longer holds and the card
 * says so.
 */
export type Ticked = Readonly<Record<string, string>>;

export interface Draft {
  readonly number: string;
  readonly unit: string;
  /** What may be typed after ±, in the same unit; "" if nothing is known. */
  readonly tolerance: string;
}

/** A job laid alongside the rules. */
export interface JobTag {
  readonly id: string;
  readonly name: string;
  readonly answers: Answers;
  /** The worked example that it was copied from. */
  readonly from?: string;
  /** Steps ticked off on its card. */
  readonly ticked?: Ticked;
}

/** All that an undo puts back. */
export interface Document {
  readonly text: string;
  /** The text as it stood when changes were last accepted. */
  readonly accepted: string;
  readonly jobs: readonly JobTag[];
}

export interface Splice {
  readonly at: number;
  readonly removed: string;
  readonly inserted: string;
}

export interface Step {
  readonly text?: Splice;
  readonly accepted?: { readonly was: string; readonly is: string };
  readonly jobs?: { readonly was: readonly JobTag[]; readonly is: readonly JobTag[] };
  /** Steps of one group that follow quickly become one: `typing`, `answer thickness j1`. */
  readonly group?: string;
  readonly when: number;
}

export interface History {
  readonly done: readonly Step[];
  readonly undone: readonly Step[];
}
