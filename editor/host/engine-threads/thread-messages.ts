// What the host asks the engine, which works in threads of its own so that nobody waits for a long proof or a
// hostile book.
import type { CardRecord } from "../../../core/record.ts";
import type { Fault, VerificationSummary } from "../../../core/schemas/host.ts";
import type { Answers } from "../../../core/view.ts";

export interface Checked {
  readonly name: string;
  readonly edition?: number;
  readonly title: string;
  readonly faults: readonly Fault[];
  /**
   * What it depends on, the nearest first, with everything that those depend on; `here` if its text was
   * among those given.
   */
  readonly stands: readonly { readonly name: string; readonly edition?: number; readonly here: boolean }[];
}
export interface Proved {
  readonly faults: readonly Fault[];
  readonly standing: VerificationSummary;
}
/** How far a proof is: goals settled, and goals in all. */
export interface Progress {
  readonly settled: number;
  readonly all: number;
}
export interface WorkedAgain {
  readonly card: CardRecord;
  readonly traces: readonly { readonly of: string; readonly steps: readonly unknown[] }[];
}

/** `under` are the texts of the books that it depends on. */
export type Question =
  | { readonly asks: "check"; readonly text: string; readonly under: readonly string[] }
  /** Goes on for at most `seconds`. */
  | {
      readonly asks: "prove";
      readonly text: string;
      readonly under: readonly string[];
      readonly seconds: number;
    }
  | {
      readonly asks: "work";
      readonly text: string;
      readonly under: readonly string[];
      readonly answers: Answers;
    };

export type AnswerTo<Q extends Question["asks"]> = Q extends "check"
  ? Checked
  : Q extends "prove"
    ? Proved
    : WorkedAgain;
