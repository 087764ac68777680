// What the engine shows of proofs: verification, sensitivity, tolerances, relevant questions, mutation tests.
import type { Span } from "../span.ts";
import type { Turn } from "../reason.ts";
import type { Answers } from "./job.ts";

export interface VerificationView {
  /** The book's own promises, then what every book owes without being asked. */
  readonly goals: readonly GoalView[];
  /** Rows, alternatives, steps, cautions and stops that no job ever reaches. */
  readonly never: readonly { readonly id: string; readonly at: Span; readonly says: string }[];
  /** Goals settled and goals in all, for a progress line. */
  readonly settled: number;
  readonly all: number;
  readonly done: boolean;
}

export interface GoalView {
  /** Row id of the statement it belongs to; `book` for the book as a whole. */
  readonly id: string;
  readonly sort: "promise" | "condition" | "numbers" | "chart" | "card";
  readonly says: string;
  readonly verdict: "proved" | "broken" | "not settled" | "looking";
  /** A job that really breaks it, as plain as it could be made; ready to be shown beside others. */
  readonly job?: Answers;
  /** What comes out in that job: "bevel-width is 80 mm, to-edge is 50 mm". */
  readonly gives?: string;
  /** The part of all jobs that is open still, 0 to 1, and its largest piece by ask. */
  readonly share?: number;
  readonly rest?: Answers;
  /**
   * What kept it from being settled: as many boxes were looked at as one goal may cost, or what is left is
   * smaller than any answer.
   */
  readonly bound?: "boxes" | "digits";
  /** Of a promise that is proved as the dials are set: whether every setting within their spans keeps it. */
  readonly settings?: SettingsView;
}

/** How a promise stands for every setting of the dials. */
export interface SettingsView {
  readonly verdict: GoalView["verdict"];
  /** The settings that break it: the dials that are turned for it, and a job that breaks it then. */
  readonly dials?: Answers;
  readonly job?: Answers;
  /** `chart rows`: a row of a chart that it rests on ends at a dial; such dials are looked at as set only. */
  readonly bound?: "boxes" | "digits" | "chart rows";
}

/**
 * What would change a job: the nearest other answer at which a chosen word, a step, a caution or a stop
 * turns.
 */
export interface SensitivityView {
  readonly changes: readonly { readonly ask: string; readonly now: string; readonly to: string }[];
  /** "method becomes wet-layup", "step lay-up applies", "stop too-cold holds". */
  readonly turns: readonly string[];
  /** The same as facts, in the same order. */
  readonly turned: readonly Turn[];
  /** The turn that the sentence begins with. */
  readonly first: Turn;
  /** One sentence: "method becomes wet-layup when longest-side is 150 mm: it is 142 mm now." */
  readonly says: string;
}

/**
 * Which unanswered asks can still change the outcome, the one that settles soonest first; the others are
 * proved not to matter.
 */
export interface RelevantQuestionsView {
  readonly ask: readonly string[];
  readonly needless: readonly string[];
}

/** How well the worked examples guard the book. */
export interface MutationTestView {
  /** Rules, rows and alternatives that no worked example reaches. */
  readonly unreached: readonly { readonly id: string; readonly at: Span; readonly says: string }[];
  /** Small changes to the rules: how many were tried, how many an example (or the checker) notices. */
  readonly tried: number;
  readonly noticed: number;
  readonly unnoticed: readonly UnnoticedView[];
  readonly done: boolean;
  readonly all: number;
}

export interface UnnoticedView {
  readonly id: string;
  readonly at: Span;
  /** "row 3 of method: 150 mm moved to 151 mm". */
  readonly says: string;
  /** A job that tells the two apart, where one was found, as a worked example ready to be added. */
  readonly job?: Answers;
  readonly worked?: string;
}
