// What the engine shows of a book: findings, statements as rows, questions, worked examples and charts. Every
// `Span` counts from the start of the whole text.
import type { Span, TextEdit } from "../span.ts";
import type { Answers } from "./job.ts";

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
  /** How many findings of each weight it has. */
  readonly errors: number;
  readonly warnings: number;
  /** Name of the book that the statement is in. */
  readonly layer: string;
  /** False for what is in a book underneath: its places lie beyond the end of the book's own text. */
  readonly own: boolean;
  /**
   * What it replaces or adds to, and which book that is in; `when` is the condition under which it does,
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
        /** The part of the range that is usual, where the book says so. */
        readonly usual?: { readonly low: string; readonly high: string };
      }
    | {
        readonly is: "kind";
        readonly kind: string;
        readonly words: readonly { readonly word: string; readonly means: string }[];
      }
    | { readonly is: "yes-no" };
  /** What "cannot tell" would take, and why; absent where the book says nothing. */
  readonly ifUnknown?: { readonly take: string; readonly because?: string };
  /** The same for an ask that is left blank. */
  readonly ifBlank?: { readonly take: string; readonly because?: string };
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
