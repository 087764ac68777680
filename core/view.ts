// What the engine shows of a book and of a job to the rest of the program: plain
// data, in the words of people who write books and work jobs. Screens, the terminal
// and the records are built on these shapes and on nothing deeper.
//
// Every `Span` here counts from the start of the whole book text.
import type { JobState, ValueState } from "./job-state.ts";
import type { Span, TextEdit } from "./span.ts";

// ───────────────────────────── findings ─────────────────────────────

/** `error`: the rule cannot be used. `warning`: it can, and is probably not meant. `note`: worth knowing. */
export type Severity = "error" | "warning" | "note";

export interface Finding {
  /** A stable word code such as `unit/mismatch`; each has its part in engine/FINDINGS.md. */
  readonly code: string;
  readonly weight: Severity;
  readonly at: Span;
  /** One plain sentence, in the author's own words and units. */
  readonly says: string;
  /** Other places that belong to the finding, each with its own label. */
  readonly also: readonly { readonly at: Span; readonly says: string }[];
  /**
   * A case that shows the fault, where there is one: "skin hand-laid, longest-side 150 mm to under 300 mm".
   */
  readonly witness?: string;
  /** Only repairs that are certain; the first is the one that a single key applies. */
  readonly repairs: readonly Repair[];
}

export interface Repair {
  readonly says: string;
  readonly edits: readonly TextEdit[];
}

// ───────────────────────────── the book ─────────────────────────────

export type Keyword =
  | "book"
  | "part"
  | "kind"
  | "ask"
  | "dial"
  | "figure"
  | "formula"
  | "chart"
  | "list"
  | "step"
  | "caution"
  | "stop"
  | "promise"
  | "picture"
  | "worked"
  | "use"
  | "drop"
  | "unreadable";

/** One statement of the book, as a row of the sheet. */
export interface Row {
  /** Stable as long as keyword and name stay: `figure bevel-width`, `caution #2`. */
  readonly id: string;
  readonly keyword: Keyword;
  /** Absent for statements without a name. */
  readonly name?: string;
  /** Title of the part heading above it, or "". */
  readonly part: string;
  /** The statement itself, from its first word to its last line's end. */
  readonly at: Span;
  /** Comments and blank lines just above that move with it; empty span at `at.start` if none. */
  readonly lead: Span;
  readonly nameAt?: Span;
  /**
   * The part that one edits in place: a figure's expression, a dial's value, an ask's unit and range, a
   * step's text.
   */
  readonly ruleAt?: Span;
  /** That part on one line. */
  readonly rule: string;
  /** The question of an ask, the text of a step, caution or stop, the title of a part or worked example. */
  readonly title: string;
  readonly because?: string;
  /** As written after `from`, e.g. `practice` or `standard "ISO 12215-5:2008"`. */
  readonly basis?: string;
  /** "length in mm", "one of substrate", "share by mass": for a reader. */
  readonly type: string;
  /** Unit in which values are shown, as the book says; "" where there is none. */
  readonly unit: string;
  readonly uses: readonly string[];
  readonly usedBy: readonly string[];
  /** How many findings of each weight stand in it. */
  readonly errors: number;
  readonly warnings: number;
  /** Name of the book that the statement stands in. */
  readonly layer: string;
  /** False for what stands in a book underneath: its places lie beyond the end of the book's own text. */
  readonly own: boolean;
  /**
   * What it replaces or adds to, and in which book that stands; `when` is the condition under which it does,
   * where it has one.
   */
  readonly was?: { readonly layer: string; readonly rule: string; readonly when?: string };
}

export interface KindView {
  readonly name: string;
  readonly words: readonly { readonly word: string; readonly means: string }[];
}

/** One question of the job screen. */
export interface AskView {
  readonly name: string;
  readonly question: string;
  readonly part: string;
  /** How it is answered. */
  readonly answer:
    | {
        readonly is: "quantity";
        readonly unit: string;
        readonly low: string;
        readonly high: string;
        readonly resolution?: string;
      }
    | {
        readonly is: "kind";
        readonly kind: string;
        readonly words: readonly { readonly word: string; readonly means: string }[];
      }
    | { readonly is: "yes-no" };
  /** What "cannot tell" would take, and why; absent where the book says nothing. */
  readonly ifUnknown?: { readonly take: string; readonly because?: string };
  /**
   * Where it is measured, for the small drawing beside the question: `thickness`, `run`, `hole-long`,
   * `hole-short`, `depth`, `edge-distance`, `gap`, `temperature`, `none`.
   */
  readonly drawn?: string;
}

export interface WorkedView {
  readonly name: string;
  readonly title: string;
  /** Answers as written, ready to be given to `workJob`. */
  readonly answers: Answers;
  readonly passes: boolean;
  /** Each thing it expects, and what the book gives. */
  readonly expects: readonly {
    readonly what: string;
    readonly wanted: string;
    readonly got: string;
    readonly holds: boolean;
  }[];
}

export interface PictureView {
  readonly id: string;
  readonly shape: string;
  readonly arguments: readonly { readonly name: string; readonly rule: string }[];
}

/**
 * A drawing of one job: what it shows, by the names of its arguments. What is not known yet is said so in the
 * drawing. A cup has `marks` besides, one row for each part: `part`, `amount`, `together`, `volume`,
 * `filled`, `height`, as far as they follow. A time line has `steps`: `step`, `says`, `from`, `takes`,
 * `waits`; unknown while the steps are withheld. A map and a chart are drawn from `outcomeMap` and
 * `chartDrawn`, asked for apart since they cost many jobs.
 */
export interface PictureShown {
  readonly id: string;
  readonly shape: string;
  /** Empty where the book gives none. */
  readonly title: string;
  readonly values: readonly PictureValue[];
}

export interface PictureValue extends Shown {
  /** The argument's name, e.g. `thickness`; `name` is the value's own, or the rule as written. */
  readonly argument: string;
  /** In SI: metres, kilograms, seconds, kelvin; absent for words, lists and what is not known. */
  readonly si?: number;
  /** The rows of a list, each column in SI with its text beside it. */
  readonly rows?: readonly Readonly<Record<string, { readonly si: number; readonly text: string }>>[];
}

/**
 * One axis of a map or a chart: its ends and the job's own place in SI, with round numbers to write along it.
 */
export interface DrawnAxis {
  readonly name: string;
  /** The question of an ask, the title of a figure; its name where there is none. */
  readonly title: string;
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly { readonly si: number; readonly text: string }[];
  readonly at?: { readonly si: number; readonly text: string };
}

/** Which word comes out for every pair of two answers, all other answers being the job's. */
export interface OutcomeMap {
  readonly across: DrawnAxis;
  readonly up: DrawnAxis;
  readonly shows: string;
  readonly title: string;
  /** Words that come out, in the kind's order. */
  readonly words: readonly string[];
  /** Fields that fill the map; ends in SI; `word` is a place in `words`, -1 where nothing comes out yet. */
  readonly fields: readonly {
    readonly left: number;
    readonly right: number;
    readonly bottom: number;
    readonly top: number;
    readonly word: number;
    readonly stopped: boolean;
  }[];
  /** What comes out for the job itself: a place in `words`, or -1. */
  readonly here: number;
}

/** A chart over one number as a line, with the job's own point; other conditions stand as in the job. */
export interface DrawnChart {
  readonly across: DrawnAxis;
  readonly up: DrawnAxis;
  readonly title: string;
  /** Stretches of the line, in SI; level ones for bands. */
  readonly lines: readonly (readonly { readonly x: number; readonly y: number }[])[];
  /** Rows as points, where rows are points. */
  readonly points: readonly { readonly x: number; readonly y: number; readonly says: string }[];
  /** Conditions held as they are in the job: "resin-type polyester". */
  readonly held: readonly string[];
}

// ───────────────────────────── charts ─────────────────────────────

export interface ChartView {
  readonly name: string;
  readonly at: Span;
  /** How the rows are read. */
  readonly mode: "rows" | "first-row-wins" | "keep-every-row" | "straight" | "curve";
  readonly outside: "nothing" | "hold-ends";
  readonly columns: readonly ChartColumn[];
  readonly rows: readonly {
    readonly at: Span;
    readonly cells: readonly { readonly at: Span; readonly text: string }[];
  }[];
  readonly holes: readonly { readonly witness: string; readonly repair?: Repair }[];
  readonly clashes: readonly { readonly rows: readonly [number, number]; readonly witness: string }[];
  /** For a chart over one number: the points and a finely sampled line, in the columns' own units. */
  readonly curve?: {
    readonly x: string;
    readonly xUnit: string;
    readonly y: string;
    readonly yUnit: string;
    readonly points: readonly { readonly x: number; readonly y: number; readonly row: number }[];
    readonly line: readonly (readonly { readonly x: number; readonly y: number }[])[];
  };
}

export interface ChartColumn {
  readonly name: string;
  readonly role: "condition" | "value";
  readonly unit: string;
  /** Words to choose from, for a column of a kind. */
  readonly words?: readonly string[];
  readonly type: string;
}

// ───────────────────────────── the job ─────────────────────────────

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
  readonly reason?: string;
}

/** A text with its numbers marked, so that each can be asked why. */
export type Piece = string | { readonly text: string; readonly name?: string; readonly state: ValueState };

export interface CardLine {
  /** Row id of the statement. */
  readonly id: string;
  readonly name?: string;
  readonly text: string;
  readonly pieces: readonly Piece[];
  readonly because?: string;
  readonly basis?: string;
  /** Work time and waiting time, shown in the book's units; absent where none is given. */
  readonly takes?: string;
  readonly waits?: string;
  readonly minutes?: { readonly takes: number; readonly waits: number };
  /** Name of the book that the line stands in; absent in a book that stands on no other. */
  readonly layer?: string;
}

export interface JobView {
  readonly state: JobState;
  /** Every ask, dial, figure, chart and list of the book, in book order. */
  readonly values: readonly Shown[];
  /** Released only when the job is ready. */
  readonly steps: readonly CardLine[];
  readonly cautions: readonly CardLine[];
  readonly stops: readonly CardLine[];
  /**
   * Asks that a step, a stop or a shown figure still waits for: the one that most of them wait for comes
   * first.
   */
  readonly waiting: readonly string[];
  /** Answers that could not be used, each in a sentence. */
  readonly findings: readonly { readonly code: string; readonly ask: string; readonly says: string }[];
  /**
   * Why an impossible job is so: each reason with the rows (ids) of the lines that it keeps back. Absent in
   * other states.
   */
  readonly blocked?: readonly { readonly says: string; readonly ids: readonly string[] }[];
  /** The book's drawings of this job whose condition holds, in book order. */
  readonly pictures?: readonly PictureShown[];
  /** Promises of the book that this job breaks. */
  readonly broken: readonly { readonly id: string; readonly says: string }[];
}

// ───────────────────────────── the trace ─────────────────────────────

export interface TraceView {
  readonly of: string;
  readonly depth: "deciding" | "full";
  /**
   * Step 0 answers for the value asked about; `rests` are places in this same list, each step stands once.
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
  readonly because?: string;
  readonly basis?: string;
  /** Name of the book or layer that the rule stands in. */
  readonly layer: string;
  readonly rests: readonly number[];
}

// ───────────────────────────── standing: what is proved of a book ─────────────────────────────

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
  /** A job that really breaks it, as plain as it could be made; ready to be laid alongside. */
  readonly job?: Answers;
  /** What comes out in that job: "bevel-width is 80 mm, to-edge is 50 mm". */
  readonly gives?: string;
  /** The part of all jobs that is open still, 0 to 1, and its largest piece by ask. */
  readonly share?: number;
  readonly rest?: Answers;
}

/**
 * What would change a job: the nearest other answer at which a chosen word, a step, a caution or a stop
 * turns.
 */
export interface SensitivityView {
  readonly changes: readonly { readonly ask: string; readonly now: string; readonly to: string }[];
  /** "method becomes wet-layup", "step lay-up applies", "stop too-cold holds". */
  readonly turns: readonly string[];
  /** One sentence: "method becomes wet-layup when longest-side is 150 mm: it is 142 mm now." */
  readonly says: string;
}

/** What a job's tolerances leave open. */
export interface ToleranceView {
  /** Span of each value that is not one number: "142 mm to 156 mm". */
  readonly spans: Readonly<Record<string, string>>;
  /** Decisions that turn within the tolerances, each in a sentence. */
  readonly open: readonly { readonly id: string; readonly says: string }[];
  /** The measurement whose narrowing settles most. */
  readonly measureAgain?: string;
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

// ───────────────────────────── weighing: what a change of the rules does ─────────────────────────────

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
 * Where a job of a weighing comes from: a worked example of either book, a logged job, or the spread made up
 * to reach every row and alternative.
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
