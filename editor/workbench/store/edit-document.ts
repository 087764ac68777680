// Every change of the document goes through `change`, so that undo and keeping miss nothing. An edit names
// the text that it was made against, and is moved along with what changed since.
import type { StoreApi } from "zustand/vanilla";
import type { TextEdit } from "../../../core/span.ts";
import { applyEdits } from "../../../core/span.ts";
import type { EditReply, StatementEdit } from "../../client/engine/messages.ts";
import type { Document, History, JobTag } from "../../client/storage/stored-work.ts";
import type { Answer, TextChange, WorkbenchState } from "./document-state.ts";
import { editsNow, withAnswers, withChange } from "./document-state.ts";
import { record, redo, undo } from "./history.ts";
import type { DocumentView } from "./show-document.ts";

export interface DocumentEditor {
  setText(text: string, group?: string): void;
  /** Text, accepted text and jobs in one step. */
  setDesk(desk: Document): void;
  /**
   * Edits of the text, made against `madeIn` (the present text where it is left out). False where they were
   * not made, because the same place was changed since.
   */
  edit(edits: readonly TextEdit[], madeIn?: string): boolean;
  /**
   * Asks the engine for the edits of a statement edit and makes them; `row` is the row that an inserted
   * statement is now. Undefined where the engine had none.
   */
  statement(edit: StatementEdit): Promise<Pick<EditReply, "row"> | undefined>;
  setJobs(jobs: readonly JobTag[], group?: string): void;
  setAnswers(answers: readonly Answer[]): void;
  /** The first jobs of a book just opened; no step of the history. */
  layFirst(jobs: readonly JobTag[]): void;
  accept(): void;
  /** Puts the text back to how it was when last accepted. */
  putBack(): void;
  undo(): void;
  redo(): void;
}

export interface EditWith {
  readonly ask: DocumentView["ask"];
  /** The document has changed. */
  readonly changed: () => void;
  readonly tell: (says: string, weight?: "plain" | "trouble") => void;
}

export function editDocument(store: StoreApi<WorkbenchState>, given: EditWith): DocumentEditor {
  const { ask, tell } = given;
  const { change, travel, since } = changing(store, given);
  const desk = (): Document => store.getState().desk;
  return {
    setText: (text, group) => change({ ...desk(), text }, group),
    setDesk: (next) => change(next),
    edit: (edits, madeIn = desk().text) => {
      if (edits.some((edit) => edit.at.end > madeIn.length)) {
        tell("That stands in a book underneath. To change it here, write instead and the statement anew.");
        return true;
      }
      const { text } = desk();
      const now = editsNow(edits, madeIn, text, since());
      if (now !== undefined && now.length > 0) change({ ...desk(), text: applyEdits(text, now) });
      return now !== undefined;
    },
    statement: async (edit) => {
      const { text } = desk();
      const reply = await ask((to) => to.edit(text, edit));
      if (reply === undefined || reply.edits.length === 0 || desk().text !== text) return undefined;
      change({ ...desk(), text: applyEdits(text, reply.edits) });
      return reply;
    },
    setJobs: (jobs, group) => change({ ...desk(), jobs }, group),
    setAnswers: (answers) => {
      const jobs = withAnswers(desk().jobs, answers);
      if (jobs !== desk().jobs) change({ ...desk(), jobs });
    },
    layFirst: (jobs) => {
      store.setState({ desk: { ...desk(), jobs }, bare: false });
      given.changed();
    },
    accept: () => change({ ...desk(), accepted: desk().text }),
    putBack: () => change({ ...desk(), text: desk().accepted }),
    undo: () => travel(undo(store.getState().history, desk())),
    redo: () => travel(redo(store.getState().history, desk())),
  };
}

/** The one way in which a document changes, and the changes of its text since the snapshot that is shown. */
function changing(store: StoreApi<WorkbenchState>, { changed, tell }: EditWith) {
  let changes: readonly TextChange[] = [];
  store.subscribe(({ key, desk, snapshot }, before) => {
    if (key !== before.key) changes = [];
    else changes = withChange(changes, before.desk.text, desk.text);
    if (snapshot === before.snapshot || snapshot === undefined) return;
    const from = changes.findLastIndex((one) => one.before === snapshot.text);
    if (from >= 0 || snapshot.text === desk.text) changes = from < 0 ? [] : changes.slice(from);
  });
  return {
    since: () => changes,
    change: (desk: Document, group?: string): void => {
      const { mine, history, desk: old } = store.getState();
      if (!mine) {
        tell("This book is being edited in another tab. Use it here first.", "trouble");
        return;
      }
      const next = record(history, old, desk, Date.now(), group);
      if (next === history) return;
      store.setState({ desk, history: next });
      changed();
    },
    travel: (to: { history: History; desk: Document } | undefined): void => {
      if (!to || !store.getState().mine) return;
      store.setState(to);
      changed();
    },
  };
}
