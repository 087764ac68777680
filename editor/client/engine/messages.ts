// What the pages ask of the engine's worker and what they get back: plain data only.
import type { Span, TextEdit } from "../../../core/span.ts";
import type { CardRecord } from "../../../core/record.ts";
import type {
  Answers,
  AskView,
  ChartView,
  DrawnChart,
  Finding,
  SensitivityView,
  JobView,
  KindView,
  RelevantQuestionsView,
  OutcomeMap,
  PictureShown,
  PictureView,
  Row,
  TraceView,
  UnitSystem,
  WorkedView,
} from "../../../core/view.ts";
import type { Mark, Completion } from "../../../engine/index.ts";
import type { Delta, TextSplice } from "./delta.ts";

/**
 * A job to be worked; `id` stays the same while its answers change, so that work done before can be used
 * again.
 */
export interface JobToWork {
  readonly id: string;
  readonly answers: Answers;
}

export interface Wanted {
  readonly text: string;
  /** The text as it stood when changes were last accepted; equal to `text` when nothing has changed. */
  readonly accepted: string;
  readonly jobs: readonly JobToWork[];
  readonly units: UnitSystem;
  /** The job whose questions and card are on the screen; for it alone `card` is worked. */
  readonly card?: string;
  /** Texts of the books it may depend on; the questions that follow are answered with the same ones. */
  readonly shelf?: readonly string[];
  /**
   * The content hash of the text with the texts it depends on, where the page knows it; the accepted text is
   * the same then. The worker holds books by it, so that a page that goes back to one need not send it again.
   */
  readonly hash?: string;
}

/**
 * Asks for the snapshot of a new version. Versions are numbers that the page gives out, each greater than the
 * last.
 */
export interface UpdateRequest {
  readonly version: number;
  /** The version that the page has a snapshot of; absent where it has none and asks for a whole one. */
  readonly base?: number;
  /** How what is wanted differs from `base`; without one, from nothing. */
  readonly change?: Delta;
}

/** `delta` is compared with the snapshot of `base`, carried over by `carriedOver`. */
export type UpdateReply = { readonly snapshot: Snapshot } | { readonly delta?: Delta };

/** A text as the page names it: by a version that it has sent, and what differs from its text. */
export interface TextRef {
  readonly version: number;
  readonly splice: TextSplice;
}

/** The error's name where a request names a version that the worker does not hold. */
export const missedVersion = "MissedVersion";

/** What is proved of the one job on the screen. */
export interface CardProofs {
  readonly job: string;
  /** Which unanswered asks can still change the card. */
  readonly matters: RelevantQuestionsView;
}

export interface UnderShown {
  readonly name: string;
  readonly edition: number | undefined;
  readonly text: string;
  readonly start: number;
  readonly as: "used" | "amended";
}

/** All that the screens show of one text with its jobs. */
export interface Snapshot {
  readonly text: string;
  readonly accepted: string;
  readonly units: UnitSystem;
  readonly name: string;
  readonly edition: number | undefined;
  readonly title: string;
  readonly rows: readonly Row[];
  readonly kinds: readonly KindView[];
  readonly asks: readonly AskView[];
  readonly worked: readonly WorkedView[];
  readonly pictures: readonly PictureView[];
  readonly findings: readonly Finding[];
  /**
   * Books that it stands on, with their texts: a place beyond the end of `text` lies in one of them. Empty
   * for a book that stands alone.
   */
  readonly under: readonly UnderShown[];
  readonly jobs: Readonly<Record<string, JobView>>;
  readonly card?: CardProofs;
  /** How it stood in the accepted text; absent while nothing has changed. */
  readonly before?: Before;
  /** Milliseconds that the worker took. */
  readonly took: number;
}

export interface Before {
  /** Rules by row id, of rows that now read otherwise. */
  readonly rules: Readonly<Record<string, string>>;
  /** Ids of rows that are new since. */
  readonly added: readonly string[];
  /** Ids of rows that are gone since. */
  readonly gone: readonly string[];
  readonly jobs: Readonly<Record<string, JobView>>;
}

export interface OffersAt {
  readonly at: Span;
  readonly offers: readonly Completion[];
}
interface AboutHere {
  readonly at: Span;
  readonly name: string;
  readonly lines: readonly string[];
}
interface PlacesOf {
  readonly name: string;
  readonly set: Span;
  readonly all: readonly Span[];
}
/**
 * What is renamed: its row, or a word of a kind. `acceptedEdits` give it the same name in the accepted text,
 * where it stands there.
 */
interface RenamedAll {
  readonly edits: readonly TextEdit[];
  readonly acceptedEdits: readonly TextEdit[];
  readonly from: string;
}

/**
 * A draft tried without being kept: the findings that stand in `within`, and what could stand at the caret.
 */
export interface Tried {
  readonly findings: readonly Finding[];
  readonly offers?: OffersAt;
}

/** An edit that a screen makes of the book, in terms of its rows. */
export type StatementEdit =
  | { readonly does: "insert"; readonly after: string | undefined; readonly statement: string }
  | { readonly does: "move"; readonly id: string; readonly after: string }
  | { readonly does: "remove"; readonly id: string }
  | {
      readonly does: "set-cell";
      readonly chart: string;
      readonly row: number;
      readonly column: number;
      readonly text: string;
    }
  | {
      readonly does: "add-row";
      readonly chart: string;
      readonly after: number;
      readonly cells: readonly string[];
    }
  | { readonly does: "remove-row"; readonly chart: string; readonly row: number }
  /** One after the other, each on the book as the one before left it. */
  | { readonly does: "several"; readonly edits: readonly StatementEdit[] };

/** `row` is the row that an inserted statement is now. */
export interface EditReply {
  readonly edits: readonly TextEdit[];
  readonly row?: string;
}

export type Outline = Pick<Snapshot, "text" | "rows" | "findings" | "under">;

/**
 * The calls that cross into the worker. Each names the text it is about, so an answer can never belong to
 * another text. On the way a text becomes a `TextRef`.
 */
export interface JobCalls {
  update(request: UpdateRequest): UpdateReply;
  why(
    text: string,
    job: JobToWork,
    name: string,
    depth: "deciding" | "full",
    units: UnitSystem,
  ): TraceView | undefined;
  /** What would change the job, unsorted. */
  closeCalls(text: string, job: JobToWork): readonly SensitivityView[];
  /** The card as it is kept when a job is signed, and worked again later. */
  cardRecord(text: string, job: JobToWork): CardRecord;
  /** Fetches what answers all but `update`, if it is not there yet. */
  getReady(): void;
  /**
   * What a map or a chart of the card is drawn from; undefined where nothing of it can be drawn yet. It costs
   * many jobs, so it is asked for by itself.
   */
  drawing(text: string, job: JobToWork, picture: PictureShown, units: UnitSystem): WorkedDrawing | undefined;
}

/** The calls of the technician's page. */
export interface JobPageCalls extends JobCalls {
  /** Those of the available texts that the book depends on, in the same order whatever else there is. */
  ground(text: string, available: readonly string[]): readonly string[];
}

/** The calls as a worker serves them that may have to fetch what answers. */
export type Served<Calls> = {
  readonly [Name in keyof Calls]: Calls[Name] extends (...given: infer Given) => infer Answer
    ? (...given: Given) => Answer | Promise<Answer>
    : never;
};

export type WorkedDrawing = { readonly map: OutcomeMap } | { readonly chart: DrawnChart };

/** The calls of the bench. */
export interface EngineCalls extends JobCalls {
  chart(text: string, name: string): ChartView | undefined;
  edit(text: string, edit: StatementEdit): EditReply;
  /** What an edit of the sheet needs to know of a text that the page has no snapshot of yet. */
  outline(text: string): Outline;
  attempt(text: string, within: Span, caret: number | undefined): Tried;
  offers(text: string, offset: number): OffersAt;
  about(text: string, offset: number): AboutHere | undefined;
  places(text: string, offset: number): PlacesOf | undefined;
  rename(
    text: string,
    accepted: string,
    offset: number,
    to: string,
  ): RenamedAll | { readonly refused: string };
  colour(text: string): readonly Mark[];
  /** Of several statements, each for itself. */
  colourEach(statements: readonly string[]): readonly (readonly Mark[])[];
  tidy(text: string): string;
  /** The statement that would replace a row underneath, saying the same; undefined where none can. */
  insteadOf(text: string, id: string): string | undefined;
  workedFrom(text: string, job: JobToWork, name: string, title: string, gives: readonly string[]): string;
}
