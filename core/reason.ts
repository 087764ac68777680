// Why a value came out as it did, as facts: a code and what belongs to it. The engine's English sentences are
// in `reason-words.ts`; a page says the same facts in its own language by their code.

/** No facts besides the code. */
type None = object;

/** What belongs to each reason why a value can never be known. Numbers with units are written texts. */
interface ReasonFacts {
  readonly "no-value": None;
  /** Faults of the book: each has its finding. */
  readonly finding: None;
  readonly "part-finding": None;
  readonly "chart-finding": None;
  readonly loop: None;
  readonly unreadable: None;
  readonly "line-unreadable": { readonly keyword: string };
  readonly "unknown-line-unreadable": { readonly word: string };
  readonly "formulas-too-large": None;
  readonly "book-missing": { readonly book: string; readonly as: "used" | "amended" };
  readonly "book-circle": { readonly book: string };
  readonly "books-too-deep": None;
  /** What the rules leave open. */
  readonly "no-alternative": None;
  readonly "no-row": { readonly chart: string };
  /** Two rows apply, and the chart does not say which one counts. */
  readonly "rows-clash": { readonly chart: string; readonly rows: readonly [ClashingRow, ClashingRow] };
  readonly "answers-contradict": { readonly chart: string };
  readonly "no-row-left": None;
  readonly "off-chart": { readonly chart: string };
  readonly "no-grid-point": None;
  /** What the book takes for "cannot tell" lies outside the range of the ask. */
  readonly "fallback-range": { readonly ask: string; readonly low: string; readonly high: string };
  /** Arithmetic. */
  readonly "divides-by-zero": None;
  readonly "too-large": None;
  readonly "root-of-negative": None;
  readonly "log-of-nonpositive": None;
  readonly "fractional-power-of-negative": None;
  readonly "rounds-to-nothing": None;
  /** Lists. */
  readonly "list-not-whole": { readonly list: string };
  readonly "list-too-long": { readonly list: string; readonly rows: number; readonly most: number };
  readonly "list-empty": None;
  readonly "list-without-rows": None;
  readonly "no-row-above": { readonly list: string };
  readonly "too-much-work": None;
  /** Answers that cannot be used, as typed. */
  readonly "answer/word": {
    readonly answer: string;
    readonly kind: string;
    readonly words: readonly string[];
    readonly near: string | undefined;
  };
  readonly "answer/yes-no": { readonly ask: string; readonly answer: string };
  /** `type` is what is asked for and `is` what the answer is instead, as types are named for a reader. */
  readonly "answer/unit": {
    readonly ask: string;
    readonly answer: string;
    readonly type: string;
    readonly unit: string | undefined;
    readonly is: string;
    readonly example: string;
  };
  readonly "answer/two-ways": { readonly answer: string; readonly whole: string; readonly decimal: string };
  readonly "answer/count": { readonly ask: string; readonly answer: string };
  readonly "answer/range": {
    readonly ask: string;
    readonly answer: string;
    readonly low: string;
    readonly high: string;
  };
  readonly "answer/tolerance": { readonly ask: string; readonly unit: string | undefined };
  /** `near`: the same number with a unit that may be meant. */
  readonly "answer/unreadable": {
    readonly ask: string;
    readonly answer: string;
    readonly example: string;
    readonly near: string | undefined;
  };
  readonly "answer/too-long": { readonly ask: string };
  readonly "answer/not-asked": { readonly ask: string };
}

/** A chart's row by its number as written, from 1, and its cells as written. */
export interface RowFacts {
  readonly row: number;
  readonly cells: string;
}

/** A row by its number as written, from 1; with the line of the book and its cells where they are shown. */
export interface ClashingRow {
  readonly row: number;
  readonly line?: number;
  readonly cells?: string;
}

/** A condition as written, and with its numbers, where those say more. */
export interface Condition {
  readonly condition: string;
  readonly numbers?: string;
}

/** `air < coldest (12 °C < 18 °C)`. */
export const conditionText = ({ condition, numbers }: Condition): string =>
  numbers === undefined ? condition : `${condition} (${numbers})`;

/** What belongs to each way in which a statement of a trace was decided. */
interface DecisionFacts {
  readonly row: RowFacts;
  readonly "at-row": RowFacts;
  readonly "between-rows": { readonly points: readonly RowFacts[] };
  /** The rows that a call of a chart read: one, or the points that its value lies between. */
  readonly "rows-of-chart": { readonly chart: string; readonly points: readonly RowFacts[] };
  readonly "rows-agree": { readonly rows: readonly number[] };
  readonly "rows-possible": { readonly rows: readonly number[] };
  readonly "rows-left": { readonly rows: readonly number[] };
  readonly "no-row-fits": None;
  readonly "rows-both-apply": { readonly rows: readonly [RowFacts, RowFacts] };
  readonly "answers-leave-no-row": { readonly asks: readonly string[] };
  readonly since: Condition;
  /** The conditions of the alternatives above it, none of which holds. */
  readonly otherwise: { readonly not?: readonly Condition[] };
  readonly "not-settled": { readonly condition: string };
  /** The rule of the book underneath. */
  readonly "as-in-book": { readonly book: string | undefined };
  readonly answered: { readonly answer: string };
  readonly "taken-instead": None;
  readonly "taken-for-blank": None;
  readonly "not-answered": None;
  readonly unusable: { readonly reason: Reason };
}

/** A step, caution or stop: `what` is absent where the name is a row id such as `step #2`. */
export interface LineName {
  readonly what?: "step" | "caution" | "stop";
  readonly name: string;
}

/** What belongs to each way in which another answer would turn the job. */
interface TurnFacts {
  readonly becomes: { readonly name: string; readonly word: string };
  readonly "has-no-value": { readonly name: string };
  readonly holds: { readonly line: LineName };
  readonly "no-longer-holds": { readonly line: LineName };
  readonly applies: { readonly line: LineName };
  readonly "no-longer-applies": { readonly line: LineName };
  readonly "cannot-be-told": { readonly line: LineName };
}

/** What belongs to each decision that the tolerances of a job leave open. */
interface DoubtFacts {
  readonly "whether-holds": { readonly line: LineName };
  readonly "whether-applies": { readonly line: LineName };
  /** No words where the value is not one of a kind. */
  readonly "may-be": { readonly name: string; readonly words: readonly string[] };
}

type Union<Facts> = { readonly [Code in keyof Facts]: { readonly code: Code } & Facts[Code] }[keyof Facts];

export type Reason = Union<ReasonFacts>;
export type Decision = Union<DecisionFacts>;
export type Turn = Union<TurnFacts>;
export type Doubt = Union<DoubtFacts>;

/** Of a union of facts, the member with this code. */
export type OfCode<Of extends { readonly code: string }, Code extends Of["code"]> = Extract<
  Of,
  { readonly code: Code }
>;

/** One sentence maker for each code: a new code breaks every table that lacks it. */
export type WordsByCode<Of extends { readonly code: string }> = {
  readonly [Code in Of["code"]]: (facts: OfCode<Of, Code>) => string;
};

/** The sentence of a table for one fact. */
export function wordsOf<Of extends { readonly code: string }>(table: WordsByCode<Of>, fact: Of): string {
  // TypeScript cannot see that the table's entry for a code takes the facts of that very code.
  return (table[fact.code as Of["code"]] as (facts: Of) => string)(fact);
}
