// The engine's public functions; their promises are in the comments beside each.
import type { Span, TextEdit } from "../core/span.ts";
import type { Answers, AskView, ChartView, Finding, JobView, KindView, PictureView, Row, TraceView, UnitSystem, WorkedView } from "../core/view.ts";

export interface Book {
  readonly text: string;
  readonly name: string;
  readonly edition: number | undefined;
  readonly title: string;
  /** Statements in the order of the text. */
  readonly rows: readonly Row[];
  readonly kinds: readonly KindView[];
  readonly asks: readonly AskView[];
  readonly worked: readonly WorkedView[];
  readonly pictures: readonly PictureView[];
  /** All findings of the book, by place. */
  readonly findings: readonly Finding[];
}

/** Reads and checks a book. Given the book as it stood before the edit, only what can have changed is done again. Never throws. */
export declare function readBook(text: string, before?: Book): Book;

export interface Job {
  readonly book: Book;
  readonly answers: Answers;
}

/** Works a job. Given the same job as worked before (an older book, or other answers), only what can have changed is worked again. Never throws. */
export declare function workJob(book: Book, answers: Answers, before?: Job): Job;

/** The job as a person reads it. */
export declare function showJob(job: Job, units?: UnitSystem): JobView;

/** Why a value (figure, chart, ask, dial, list), step, caution or stop came out as it did; `name` may be a row id. Undefined if the book has no such thing. */
export declare function why(job: Job, name: string, depth: "deciding" | "full", units?: UnitSystem): TraceView | undefined;

/** A chart as a grid, with its holes and clashes, and its curve where it is over one number. Undefined if there is no readable chart of that name. */
export declare function chartOf(book: Book, name: string): ChartView | undefined;

/** The text laid out evenly: columns of charts aligned, indents of four, one space around operators. Meaning and comments stay. Idempotent. */
export declare function tidy(text: string): string;

// ── what an editor asks ──

export interface Mark { readonly at: Span; readonly as: "word" | "name" | "set" | "number" | "unit" | "text" | "insert" | "comment" | "bar" | "kindword" | "operator" }
/** Colouring: what each stretch of the text is, in order, without overlap; works on broken text. */
export declare function colour(text: string): readonly Mark[];

export interface Offer { readonly label: string; readonly insert: string; readonly detail: string; readonly as: "value" | "kind" | "kindword" | "unit" | "function" | "word" | "statement" }
/** What could stand at this offset; `at` is the part already typed. */
export declare function offers(book: Book, offset: number): { readonly at: Span; readonly offers: readonly Offer[] };

/** What stands at this offset: title line and details (type, range, basis, because), for a hover. */
export declare function about(book: Book, offset: number): { readonly at: Span; readonly name: string; readonly lines: readonly string[] } | undefined;

/** The name at this offset, where it is set, and every place it stands. */
export declare function places(book: Book, offset: number): { readonly name: string; readonly set: Span; readonly all: readonly Span[] } | undefined;

/** Edits that give the name at this offset another name everywhere, or a sentence why not. */
export declare function rename(book: Book, offset: number, to: string): { readonly edits: readonly TextEdit[] } | { readonly refused: string };

// ── edits by a screen, as edits of the text ──

/** A new statement after the row `afterId` (at the end if undefined). */
export declare function insertStatement(book: Book, afterId: string | undefined, statement: string): readonly TextEdit[];
/** Moves a statement with the comments above it, to stand after `afterId` ("" = to the top). */
export declare function moveStatement(book: Book, id: string, afterId: string): readonly TextEdit[];
export declare function removeStatement(book: Book, id: string): readonly TextEdit[];
/** Sets a chart cell, or adds or removes a row; the chart's columns are lined up again. */
export declare function setCell(book: Book, chart: string, row: number, column: number, text: string): readonly TextEdit[];
export declare function addChartRow(book: Book, chart: string, afterRow: number, cells: readonly string[]): readonly TextEdit[];
export declare function removeChartRow(book: Book, chart: string, row: number): readonly TextEdit[];
/** A worked example made of a job: its answers and the values asked for. */
export declare function workedFrom(job: Job, name: string, title: string, gives: readonly string[]): string;
