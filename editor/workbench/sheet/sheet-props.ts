// What the sheet is given: the book as last read, the jobs beside it, and what can be done from it.
import type { Span } from "../../../core/span.ts";
import type { Finding, Row } from "../../../core/view.ts";
import type { Snapshot, Tried } from "../../client/engine/messages.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";
import type { Place } from "../store/document.ts";
import type { LayerImpact } from "./layer-impact.ts";
import type { RequestColours } from "./use-token-colours.ts";

/** A statement being written. */
export interface StatementDraft {
  /** The row above it; undefined at the end of the book. */
  readonly after: string | undefined;
  /** Its first text. */
  readonly text: string;
  /** Where in its first text the cursor begins; at the end if left out. */
  readonly caret?: number;
}

/** One answer typed into a job's cell; "" clears it. */
export interface AnswerEdit {
  readonly job: string;
  readonly ask: string;
  readonly text: string;
}

export interface SheetActions {
  choose(place: Place): void;
  setRule(row: string, typed: string): void;
  setName(row: string, typed: string): void;
  setBasis(row: string, typed: string): void;
  setAnswers(answers: readonly AnswerEdit[]): void;
  /** Ends the statement being written; undefined drops it. */
  endDraft(typed: string | undefined): void;
  pasteStatements(after: string, text: string): void;
  shift(row: string, by: -1 | 1): void;
  remove(row: string): void;
  /** Gives a row underneath another rule here. */
  amend(row: string, typed: string): void;
  /** Opens a whole statement that replaces a row underneath. */
  amendWhole(row: string): void;
  /** Tries a draft in place of a stretch of the text. Results count from the start of the draft. */
  tryDraft(at: Span, within: Span, draft: string, caret: number): Promise<Tried | undefined>;
  tryAmend(row: Row, draft: string, caret: number): Promise<Tried | undefined>;
  repair(finding: Finding): void;
  openChart(name: string): void;
  openWhy(): void;
  openJob(id: string): void;
  addJob(): void;
  /** Shows the jobs that an own line of a layer changes. */
  showImpact(row: string): void;
  /** The row that is pointed at, so that a trace can light its lines up. */
  pointAt(row: string | undefined): void;
  notify(says: string): void;
  requestColours: RequestColours;
}

export interface SheetProps {
  readonly snapshot: Snapshot;
  readonly jobs: readonly JobTag[];
  /** Rows that the filter and the search leave, in the book's order. */
  readonly rows: readonly Row[];
  readonly chosen?: Place;
  /** Row that a trace points at. */
  readonly lit?: string;
  readonly readOnly: boolean;
  /** Counts up when the sheet must take the focus at the chosen place. */
  readonly focusCall: number;
  /** Counts up when the rule of the chosen row must be opened to be amended. */
  readonly amendCall: number;
  readonly draft?: StatementDraft;
  /** What each own line of a layer changes, by row. */
  readonly impacts: ReadonlyMap<string, LayerImpact>;
  readonly actions: SheetActions;
}
