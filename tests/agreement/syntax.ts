// The books of this check in a form of its own: what the generator makes, the printer writes out, and the
// evaluator and the solver read. Nothing here comes from the program under test.
import type { Fraction } from "../engine/analysis/support/fraction.ts";

/** The power of a length: 0 a plain number, 1 a length in mm, 2 an area in mm2. */
export type Power = 0 | 1 | 2;

export interface Kind {
  readonly name: string;
  readonly words: readonly string[];
}

/** What a rule gives: an amount of some power, or a word of a kind. */
export type Sort = { readonly power: Power } | { readonly kind: Kind };

/** A rule that gives an amount (in mm to a power) or a word (its place in its kind). */
export type Amount =
  | { readonly is: "number"; readonly value: Fraction; readonly power: Power }
  | { readonly is: "word"; readonly kind: Kind; readonly at: number }
  | { readonly is: "name"; readonly name: string }
  | {
      readonly is: "arithmetic";
      readonly does: "+" | "-" | "*" | "/";
      readonly a: Amount;
      readonly b: Amount;
    }
  | { readonly is: "extreme"; readonly does: "largest" | "smallest"; readonly a: Amount; readonly b: Amount }
  | { readonly is: "abs"; readonly a: Amount }
  | {
      readonly is: "round";
      readonly way: RoundWay;
      readonly a: Amount;
      readonly step: Fraction;
      readonly power: Power;
    }
  | { readonly is: "choose"; readonly cases: readonly Case[]; readonly otherwise: Amount }
  | { readonly is: "call"; readonly formula: string; readonly given: readonly Amount[] }
  | { readonly is: "gather"; readonly what: Gathered; readonly list: string; readonly column: string }
  | { readonly is: "kept"; readonly what: "count" | "first"; readonly chart: string }
  /** The row number, and the column in the row above: in a list's columns only. */
  | { readonly is: "counter" }
  | { readonly is: "above"; readonly column: string };

export type RoundWay = "up" | "down" | "near";
export type Gathered = "sum" | "largest" | "smallest" | "first" | "last" | "count";
interface Case {
  readonly when: Truth;
  readonly value: Amount;
}

/** One end of a band; `included` says whether the end itself belongs to it. */
interface End {
  readonly value: Fraction;
  readonly included: boolean;
}
export interface Band {
  readonly low?: End;
  readonly high?: End;
}
export type Order = "<" | "<=" | ">" | ">=" | "is" | "is not";

/** A rule that gives yes or no. */
export type Truth =
  | { readonly is: "truth"; readonly value: boolean }
  | { readonly is: "name"; readonly name: string }
  | { readonly is: "compare"; readonly does: Order; readonly a: Amount; readonly b: Amount }
  | { readonly is: "band"; readonly of: Amount; readonly band: Band; readonly power: Power }
  | { readonly is: "words"; readonly of: Amount; readonly kind: Kind; readonly words: readonly number[] }
  | { readonly is: "both" | "either"; readonly a: Truth; readonly b: Truth }
  | { readonly is: "not"; readonly a: Truth }
  | { readonly is: "known"; readonly name: string }
  | { readonly is: "among"; readonly chart: string; readonly kind: Kind; readonly at: number }
  | { readonly is: "stopped" };

/** What an ask is answered with. A length is asked in mm or in inch, its range given in that unit. */
type Answered =
  | { readonly is: "length"; readonly unit: "mm" | "inch"; readonly low: Fraction; readonly high: Fraction }
  | { readonly is: "count"; readonly low: Fraction; readonly high: Fraction }
  | { readonly is: "kind"; readonly kind: Kind }
  | { readonly is: "truth" };

export interface Ask {
  readonly is: "ask";
  readonly name: string;
  readonly answered: Answered;
  /** What `if unknown take` says. */
  readonly take?: { readonly amount: Amount } | { readonly truth: Truth };
}

export type Cell =
  | { readonly is: "any" }
  | { readonly is: "band"; readonly band: Band }
  | { readonly is: "words"; readonly words: readonly number[] };
export interface Condition {
  readonly name: string;
  readonly sort: Sort | "truth";
}

export interface Chart {
  readonly is: "chart";
  readonly name: string;
  readonly by: readonly Condition[];
  readonly gives: Sort;
  /** `one`: no two rows may fit a job; `first`: the first row that fits; `keep`: every row that fits. */
  readonly mode: "one" | "first" | "keep";
  readonly rows: readonly { readonly cells: readonly Cell[]; readonly value: Amount }[];
  /** Whether every combination of conditions has a row. */
  readonly whole: boolean;
}

/** A chart read straight between its points. */
export interface Line {
  readonly is: "between";
  readonly name: string;
  readonly by: Condition;
  readonly gives: { readonly power: Power };
  readonly points: readonly { readonly x: Fraction; readonly y: Fraction }[];
  readonly hold: boolean;
}

export interface List {
  readonly is: "list";
  readonly name: string;
  readonly count: Amount;
  /** No job makes more rows. */
  readonly most: number;
  readonly columns: readonly { readonly name: string; readonly power: Power; readonly rule: Amount }[];
}

export type Statement =
  | Ask
  | Chart
  | Line
  | List
  | { readonly is: "dial"; readonly name: string; readonly value: Fraction; readonly power: Power }
  | { readonly is: "figure"; readonly name: string; readonly sort: Sort; readonly rule: Amount }
  | { readonly is: "decided"; readonly name: string; readonly rule: Truth }
  | {
      readonly is: "formula";
      readonly name: string;
      readonly takes: readonly { readonly name: string; readonly power: Power }[];
      readonly rule: Amount;
    }
  | {
      readonly is: "step" | "caution" | "stop";
      readonly name: string;
      readonly when: Truth;
      readonly shows?: string;
    }
  | { readonly is: "promise"; readonly rule: Truth; readonly when?: Truth };

export interface SmallBook {
  readonly kinds: readonly Kind[];
  readonly statements: readonly Statement[];
}

export const asksOf = (book: SmallBook): readonly Ask[] =>
  book.statements.flatMap((one) => (one.is === "ask" ? [one] : []));
export const promisesOf = (book: SmallBook) =>
  book.statements.flatMap((one) => (one.is === "promise" ? [one] : []));
