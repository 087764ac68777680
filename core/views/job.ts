// What the engine shows of a job: answers, values, the card, and the trace of a value.
import type { JobState, ValueState } from "../job-state.ts";
import type { Decision, Reason } from "../reason.ts";
import type { Span } from "../span.ts";
import type { PictureShown } from "./drawing.ts";
import type { ToleranceView } from "./tolerance.ts";

/**
 * Ask name → what the technician typed: `6 mm`, `1/4 inch`, `3.2 mm ± 0.2 mm`, `hand-laid`, `yes`, `unknown`.
 */
export type Answers = Readonly<Record<string, string>>;

/** `book`: each value in the unit that the book gives it. */
export type UnitSystem = "book" | "metric" | "us";

export interface Shown {
  readonly name: string;
  readonly state: ValueState;
  /** What a person reads: `75 mm`, `wet-layup`, `waits for skin`, or the reason why there is none. */
  readonly text: string;
  /** In `unit`; the word of a kind; true or false; the rows of a list; null where not known. */
  readonly value: number | string | boolean | readonly Readonly<Record<string, unknown>>[] | null;
  readonly unit: string | null;
  readonly waitsFor?: readonly string[];
  /** Why it can never be known, as a sentence and as facts; only where it is impossible. */
  readonly reason?: string;
  readonly cause?: Reason;
}

/** A text with its numbers marked, so that each can be asked why. */
export type Piece = string | { readonly text: string; readonly name?: string; readonly state: ValueState };

export interface CardLine {
  /** Row id of the statement. */
  readonly id: string;
  readonly name?: string;
  readonly text: string;
  readonly pieces: readonly Piece[];
  /** Of a stop: whether it is a referral, and what to do now. */
  readonly refers?: true;
  readonly then?: string;
  readonly thenPieces?: readonly Piece[];
  readonly because?: string;
  readonly basis?: string;
  /** Work time and waiting time, shown in the book's units; absent where none is given. */
  readonly takes?: string;
  readonly waits?: string;
  readonly minutes?: { readonly takes: number; readonly waits: number };
  /** Name of the book that the line is in; absent in a book that depends on no other. */
  readonly layer?: string;
  /** Of a caution whose condition is open, and so may apply: the asks that it waits for. */
  readonly mayApply?: readonly string[];
}

export interface JobView {
  readonly state: JobState;
  /** Every ask, dial, figure, chart and list of the book, in book order. */
  readonly values: readonly Shown[];
  /** Released only when the job is ready. */
  readonly steps: readonly CardLine[];
  /** Those that apply; where the job is ready also those that may apply, since they hold nothing back. */
  readonly cautions: readonly CardLine[];
  readonly stops: readonly CardLine[];
  /**
   * Asks that a step, a stop or a shown figure still waits for: the one that most of them wait for comes
   * first.
   */
  readonly waiting: readonly string[];
  /** Groups of these of which one answer is enough; absent where there are none. */
  readonly oneOf?: readonly (readonly string[])[];
  /** Answers that could not be used, each as a sentence and as facts. */
  readonly findings: readonly {
    readonly code: string;
    readonly ask: string;
    readonly says: string;
    readonly cause: Reason;
  }[];
  /**
   * Why an impossible job is so: each reason with the rows (ids) of the lines that it keeps back. Absent in
   * other states.
   */
  readonly blocked?: readonly {
    readonly says: string;
    readonly ids: readonly string[];
    readonly cause: Reason;
  }[];
  /** The book's drawings of this job whose condition holds, in book order. */
  readonly pictures?: readonly PictureShown[];
  /** What the tolerances of the answers leave open; absent where no answer has one. */
  readonly doubts?: ToleranceView;
  /** Promises of the book that this job breaks. */
  readonly broken: readonly { readonly id: string; readonly says: string }[];
}

export interface TraceView {
  readonly of: string;
  readonly depth: "deciding" | "full";
  /**
   * Step 0 answers for the value asked about; `rests` are places in this same list, each step is there once.
   */
  readonly steps: readonly TraceStep[];
}

export interface TraceStep {
  readonly does:
    | "answer"
    | "taken"
    | "unanswered"
    | "dial"
    | "figure"
    | "chart"
    | "list"
    | "step"
    | "caution"
    | "stop"
    | "promise";
  readonly name: string;
  /** Row id in the sheet, and the place in the text that decided (a chart row, a branch, else the rule). */
  readonly id: string;
  readonly at: Span;
  readonly state: ValueState;
  readonly value: string;
  /** The rule as written, and the same with its numbers filled in. */
  readonly rule: string;
  readonly filled: string;
  /**
   * What decided: "row 3: hand-laid, 150 mm and over", "since below-waterline is yes"; "" where all of it
   * did.
   */
  readonly decided: string;
  /** The same as facts, in the same order. */
  readonly decidedBy: readonly Decision[];
  /** Of a step, caution or stop: whether it applies, its text, and its condition as written. */
  readonly line?: TracedLine;
  /** What a value that is not known waits for, or why it can never be known. */
  readonly waitsFor?: readonly string[];
  readonly cause?: Reason;
  /** The value of a yes-no. */
  readonly holds?: boolean;
  readonly because?: string;
  readonly basis?: string;
  /** Name of the book or layer that the rule is in. */
  readonly layer: string;
  readonly rests: readonly number[];
}

export interface TracedLine {
  readonly applies: "yes" | "no" | "waits" | "has no answer";
  readonly text: string;
  /** Absent where it always applies, or is called by steps alone. */
  readonly condition?: string;
}
