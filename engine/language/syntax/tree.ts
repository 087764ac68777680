// The tree of a book: plain values that know nothing of types. Every place (`at`) counts from the
// first character of the statement, so that a statement keeps its tree when text above it changes.
import type { Span } from "../../../core/span.ts";

export type Expr =
  | { readonly is: "number"; readonly at: Span; readonly value: number }
  | { readonly is: "quantity"; readonly at: Span; readonly parts: readonly QuantityPart[] }
  | { readonly is: "taper"; readonly at: Span; readonly thickness: number; readonly run: number }
  | {
      readonly is: "mix";
      readonly at: Span;
      readonly first: number;
      readonly second: number;
      readonly by: "mass" | "volume";
    }
  | { readonly is: "truth"; readonly at: Span; readonly value: boolean }
  | { readonly is: "text"; readonly at: Span; readonly text: Text }
  | { readonly is: "name"; readonly at: Span; readonly name: string; readonly field?: Word }
  | {
      readonly is: "call";
      readonly at: Span;
      readonly name: Word;
      readonly args: readonly Expr[];
      readonly field?: Word;
    }
  /** A list's column in the row above. */
  | { readonly is: "before"; readonly at: Span; readonly name: Word }
  /** An amount as the plain number of it in a unit. */
  | { readonly is: "counted"; readonly at: Span; readonly of: Expr; readonly unit: UnitText }
  | { readonly is: "minus" | "not"; readonly at: Span; readonly of: Expr }
  | {
      readonly is: "binary";
      readonly at: Span;
      readonly op: BinaryOp;
      readonly opAt: Span;
      readonly left: Expr;
      readonly right: Expr;
    }
  | {
      readonly is: "round";
      readonly at: Span;
      readonly way: "up" | "down" | "near";
      readonly of: Expr;
      readonly to: Expr | "whole";
    }
  | {
      readonly is: "in-band";
      readonly at: Span;
      readonly of: Expr;
      readonly band: Band;
      readonly not: boolean;
    }
  | {
      readonly is: "one-of";
      readonly at: Span;
      readonly of: Expr;
      readonly items: readonly Expr[];
      readonly not: boolean;
    }
  | { readonly is: "known"; readonly at: Span; readonly of: Expr; readonly not: boolean }
  | {
      readonly is: "among";
      readonly at: Span;
      readonly of: Expr;
      readonly chart: Word;
      readonly not: boolean;
    }
  /** Of several values those that are known: the first, the smallest, the largest, or how many they are. */
  | {
      readonly is: "of-known";
      readonly at: Span;
      readonly what: OfKnown;
      readonly items: readonly Expr[];
    }
  | { readonly is: "choose"; readonly at: Span; readonly cases: readonly Case[]; readonly otherwise?: Expr }
  | {
      readonly is: "gather";
      readonly at: Span;
      readonly what: Gather;
      readonly from: Word;
      readonly field?: Word;
    };

export type BinaryOp =
  | "+"
  | "-"
  | "*"
  | "/"
  | "^"
  | "of"
  | "run out at"
  | "paired at"
  | "<"
  | "<="
  | ">"
  | ">="
  | "is"
  | "is not"
  | "and"
  | "or";
export type Gather = "sum" | "largest" | "smallest" | "count" | "first" | "last";

export type OfKnown = "first" | "smallest" | "largest" | "count";

export interface QuantityPart {
  readonly value: number;
  readonly unit: UnitText;
}

export interface UnitText {
  readonly at: Span;
  readonly text: string;
  readonly apart: boolean;
  readonly by?: "mass" | "volume";
}

export interface Word {
  readonly at: Span;
  readonly text: string;
}

export interface Case {
  readonly value: Expr;
  readonly when: Expr;
}

/** `any`: both ends absent and `any` true. A point: `low` and `high` are the same node. */
export interface Band {
  readonly at: Span;
  readonly low?: Expr;
  readonly lowIn: boolean;
  readonly high?: Expr;
  readonly highIn: boolean;
}

export interface Text {
  readonly at: Span;
  readonly pieces: readonly (string | Insert)[];
}

export interface Insert {
  readonly at: Span;
  readonly rule: Expr;
  readonly unit?: UnitText;
}

/** What a value is declared to be: `in mm`, `of substrate`, or nothing. */
export type Declared = { readonly in: UnitText } | { readonly of: Word } | undefined;

export interface BasisText {
  readonly at: Span;
  readonly kind: string;
  readonly detail?: string;
}

export interface Clauses {
  readonly title?: Text;
  readonly because?: Text;
  readonly from?: BasisText;
  /** Of a stop or a referral: what to do now. */
  readonly then?: Text;
  readonly when?: Expr;
  readonly takes?: Expr;
  readonly waits?: Expr;
  readonly withSteps?: readonly Word[];
  readonly measured?: Expr;
  readonly drawn?: Word;
  /** Of a step in a layer: the step underneath behind which it is placed. */
  readonly after?: Word;
  /** What is taken where nobody can tell, and where nobody noted it; the same where it is said at once. */
  readonly ifUnknown?: Fallback;
  readonly ifBlank?: Fallback;
}

export interface Fallback {
  readonly at: Span;
  readonly take: Expr;
  readonly because?: Text;
}

export interface Cell {
  readonly at: Span;
  readonly text: string;
}

export interface ConditionCell extends Cell {
  /** "any", or what fits: bands, points and words. Undefined where the cell could not be read. */
  readonly fits: "any" | readonly Band[] | undefined;
}

export interface ValueCell extends Cell {
  readonly rule: Expr | undefined;
}

export interface ChartRow {
  readonly at: Span;
  readonly cells: readonly Cell[];
}

export interface ChartOut {
  readonly at: Span;
  readonly name?: Word;
  /** A bare word may be a unit, a kind, `yes-no`, `number` or `text`; the checker decides. */
  readonly declared: Declared | { readonly bare: Word };
}

/**
 * What a chart is read by: the name of a value, or, where it says what it is, a parameter of the chart's own.
 */
export interface ChartCondition extends Word {
  readonly declared?: Declared;
}

export type ChartOption =
  | "straight"
  | "curve"
  | "first-row-wins"
  | "keep-every-row"
  | "nothing outside"
  | "hold ends";

export interface Given {
  readonly at: Span;
  readonly name: Word;
  readonly value: Expr;
  readonly tolerance?: Expr;
}

export type Expectation =
  | {
      readonly is: "value";
      readonly at: Span;
      readonly name: Word;
      readonly field?: Word;
      readonly value: Expr;
      readonly tolerance?: Expr;
    }
  | {
      readonly is: "state";
      readonly at: Span;
      /** As written; the checker refuses a word that is no state of a job. */
      readonly state: string;
    }
  | {
      readonly is: "line";
      readonly at: Span;
      readonly what: "step" | "caution" | "stop";
      readonly name: Word;
      readonly wanted: boolean;
    };

export type Body =
  | {
      readonly keyword: "book";
      readonly edition?: number;
      readonly amends?: { readonly name: Word; readonly edition?: number };
    }
  | { readonly keyword: "part" }
  | {
      readonly keyword: "kind";
      readonly words: readonly { readonly at: Span; readonly word: string; readonly means?: Text }[];
    }
  | {
      readonly keyword: "ask";
      readonly declared: Declared;
      readonly range?: { readonly low: Expr; readonly high: Expr };
      /** What is usual within it: with `to`, from the only one of the items; else the words that are. */
      readonly usually?: { readonly at: Span; readonly items: readonly Expr[]; readonly to?: Expr };
    }
  | {
      readonly keyword: "dial";
      readonly declared: Declared;
      readonly rule: Expr;
      readonly range?: { readonly low: Expr; readonly high: Expr };
    }
  | { readonly keyword: "figure"; readonly declared: Declared; readonly rule: Expr }
  | {
      readonly keyword: "formula";
      readonly parameters: readonly { readonly name: Word; readonly declared: Declared }[];
      readonly rule: Expr;
    }
  | {
      readonly keyword: "chart";
      readonly conditions: readonly ChartCondition[];
      readonly gives: readonly ChartOut[];
      readonly options: readonly { readonly at: Span; readonly option: ChartOption }[];
      readonly header: readonly Cell[];
      readonly rows: readonly ChartRow[];
    }
  | {
      readonly keyword: "list";
      readonly counter: Word;
      readonly from: Expr;
      readonly to: Expr;
      readonly columns: readonly {
        readonly at: Span;
        readonly name: Word;
        readonly declared: Declared;
        readonly rule: Expr;
      }[];
    }
  | { readonly keyword: "step" }
  | { readonly keyword: "caution" }
  /** `refers`: written as a referral; the job is not refused, but somebody else's to decide. */
  | { readonly keyword: "stop"; readonly refers?: true }
  | { readonly keyword: "promise"; readonly rule: Expr }
  | {
      readonly keyword: "picture";
      readonly shape: Word;
      readonly arguments: readonly { readonly name: Word; readonly rule: Expr }[];
    }
  | { readonly keyword: "worked"; readonly given: readonly Given[]; readonly gives: readonly Expectation[] }
  /** Another book's kinds, values and formulas, brought in by name. */
  | { readonly keyword: "use"; readonly edition?: number }
  /**
   * In a layer: a statement underneath is left out. It is meant by its name, by its text, or (a promise) by
   * its rule.
   */
  | { readonly keyword: "drop"; readonly what: string; readonly target?: Word; readonly rule?: Expr }
  /** In a layer: rows for a chart underneath; they are read within that chart. */
  | { readonly keyword: "add"; readonly rows: readonly ChartRow[] }
  /** Broken beyond its first words: it still owns its name, so that its uses are not blamed. */
  | { readonly keyword: "unreadable"; readonly meant: string };

export interface Statement {
  /** The statement's own text, from its first word to the end of its last line that is not blank. */
  readonly text: string;
  readonly name?: Word;
  readonly body: Body;
  readonly clauses: Clauses;
  /** Where the word `instead` is, in a layer. */
  readonly instead?: Span;
  /** Of a dial that replaces another: the name under which the one underneath is kept. */
  readonly below?: string;
  /** The part that is edited in place: a rule, a dial's value and span, a step's text. */
  readonly ruleAt?: Span;
  /** Every name that a rule, text or cell mentions, for the order of work. Words of kinds are among them. */
  readonly uses: readonly string[];
  /**
   * Those of them that its value rests on; texts and reasons are left out, so that a reason may name its own
   * figure.
   */
  readonly needs: readonly string[];
  /** Mistakes of writing, as facts. */
  readonly faults: readonly Fault[];
}

/** A syntax fault: a finding's code and facts, worded elsewhere. */
export interface Fault {
  readonly code: string;
  readonly at: Span;
  readonly facts: Readonly<Record<string, unknown>>;
}
