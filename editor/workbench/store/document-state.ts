// The workbench's state: one book's text with its jobs, what is selected, and what changed since the text was
// accepted. Here are its shapes and the pure steps from one state to the next.
import type { Span, TextEdit } from "../../../core/span.ts";
import type { Answers, UnitSystem } from "../../../core/view.ts";
import type { Snapshot, Wanted } from "../../client/engine/messages.ts";
import type { KeptBook } from "../../client/storage/browser-storage.ts";
import type { Document, History, JobTag } from "../../client/storage/stored-work.ts";
import { noHistory } from "./history.ts";

/** A place in the sheet: a row, and one of its three own columns or a job's. */
export interface Place {
  readonly row: string;
  readonly column: "name" | "rule" | "basis" | { readonly job: string };
}

export interface WorkbenchState {
  /** Under which the book is kept; "" before one is open. */
  readonly key: string;
  readonly desk: Document;
  readonly history: History;
  readonly units: UnitSystem;
  readonly snapshot?: Snapshot;
  readonly chosen?: Place;
  /** The working-out has not answered for a while. */
  readonly slow: boolean;
  readonly kept: "kept" | "keeping" | "not kept";
  /** False while another tab writes this book. */
  readonly mine: boolean;
  readonly notices: readonly Notice[];
  readonly books: readonly { readonly key: string; readonly title: string; readonly at: number }[];
  /** A book just opened for the first time: its first jobs are still to be added. */
  readonly bare: boolean;
  /**
   * Texts of the books that this one may depend on; absent until they are fetched, for a book that names no
   * other.
   */
  readonly shelf?: readonly string[];
}

export interface Notice {
  readonly id: number;
  readonly weight: "plain" | "trouble";
  readonly says: string;
}

export const initialState: WorkbenchState = {
  key: "",
  desk: { text: "", accepted: "", jobs: [] },
  history: noHistory,
  units: "book",
  slow: false,
  kept: "kept",
  mine: true,
  notices: [],
  books: [],
  bare: false,
};

export interface Answer {
  readonly job: string;
  readonly ask: string;
  readonly text: string;
}

/** What the screens show of this state; `card` is the job whose card is on the screen. */
export const wantedOf = ({ desk, units, shelf }: WorkbenchState, card: string | undefined): Wanted => ({
  text: desk.text,
  accepted: desk.accepted,
  jobs: desk.jobs.map(({ id, answers }) => ({ id, answers })),
  units,
  ...(card === undefined ? {} : { card }),
  ...(shelf === undefined ? {} : { shelf }),
});

export const bookToKeep = (state: WorkbenchState, at: number): KeptBook => ({
  key: state.key,
  title: state.snapshot?.title || state.key,
  ...state.desk,
  units: state.units,
  history: state.history,
  at,
});

/** A plain notice gives way to the next one; trouble stays until it is closed. */
export const withNotice = (notices: readonly Notice[], notice: Notice): readonly Notice[] => [
  ...notices.filter((one) => one.weight === "trouble").slice(-2),
  notice,
];

/** The very same jobs where no answer differs. An empty answer takes the answer away. */
export function withAnswers(jobs: readonly JobTag[], answers: readonly Answer[]): readonly JobTag[] {
  const made = jobs.map((one) => {
    const given = answers.filter(
      ({ job, ask, text }) => job === one.id && (one.answers[ask] ?? "") !== text.trim(),
    );
    return given.length === 0
      ? one
      : { ...one, answers: given.reduce((so, { ask, text }) => withAnswer(so, ask, text), one.answers) };
  });
  return made.some((job, place) => job !== jobs[place]) ? made : jobs;
}

function withAnswer(answers: Answers, ask: string, text: string): Answers {
  const rest = Object.fromEntries(Object.entries(answers).filter(([name]) => name !== ask));
  return text.trim() === "" ? rest : { ...answers, [ask]: text.trim() };
}

/**
 * One change of the text: all places of the text before it at which it may have been made (a letter typed
 * beside its like may be either of the two), and by how much it made the text longer.
 */
export interface TextChange {
  readonly before: string;
  readonly within: Span;
  readonly by: number;
}

/** An edit against a text older than this many changes is not made. */
const mostChanges = 200;

export const withChange = (
  changes: readonly TextChange[],
  before: string,
  after: string,
): readonly TextChange[] =>
  before === after ? changes : [...changes, changeBetween(before, after)].slice(-mostChanges);

function changeBetween(before: string, after: string): TextChange {
  const most = Math.min(before.length, after.length);
  let head = 0;
  while (head < most && before.charCodeAt(head) === after.charCodeAt(head)) head += 1;
  let tail = 0;
  while (
    tail < most &&
    before.charCodeAt(before.length - 1 - tail) === after.charCodeAt(after.length - 1 - tail)
  )
    tail += 1;
  return {
    before,
    within: { start: Math.min(head, most - tail), end: before.length - Math.min(tail, most - head) },
    by: after.length - before.length,
  };
}

/**
 * Edits made against an older text, moved along with what changed since; `text` is the present one. Undefined
 * where the same place was changed, or where the older text is not known any more.
 */
export function editsNow(
  edits: readonly TextEdit[],
  madeIn: string,
  text: string,
  changes: readonly TextChange[],
): readonly TextEdit[] | undefined {
  if (madeIn === text) return edits;
  const from = changes.findLastIndex((one) => one.before === madeIn);
  if (from < 0) return undefined;
  let moved = edits;
  for (const change of changes.slice(from)) {
    const next = moved.flatMap((edit) => movedEdit(edit, change) ?? []);
    if (next.length < moved.length) return undefined;
    moved = next;
  }
  return moved;
}

function movedEdit({ at, text }: TextEdit, { within, by }: TextChange): TextEdit | undefined {
  if (at.end < within.start) return { at, text };
  if (at.start > within.end) return { at: { start: at.start + by, end: at.end + by }, text };
  // What replaces all of the later change takes its place.
  return at.start < at.end && at.start <= within.start && within.end <= at.end
    ? { at: { start: at.start, end: at.end + by }, text }
    : undefined;
}
