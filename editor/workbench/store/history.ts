// Undo and redo over the whole desk (text, jobs laid alongside, accepted text), the same for both faces of
// the book. Quick typing in one place is one step back.
import type { Document, Splice, Step, History } from "../../client/storage/stored-work.ts";

export const noHistory: History = { done: [], undone: [] };
/** Typing that pauses for longer than this, in milliseconds, begins a new step. */
export const pause = 900;
const longest = 500;

/** The history after `before` became `after`; unchanged if they are alike. */
export function record(
  history: History,
  before: Document,
  after: Document,
  when: number,
  group?: string,
): History {
  const step = stepBetween(before, after, when, group);
  if (!step) return history;
  const last = history.done.at(-1);
  const joined = last && joins(last, step) ? join(last, step) : undefined;
  const done = joined ? [...history.done.slice(0, -1), joined] : [...history.done, step];
  return { done: done.slice(-longest), undone: [] };
}

export function undo(history: History, document: Document): { history: History; desk: Document } | undefined {
  const step = history.done.at(-1);
  if (!step) return undefined;
  return {
    desk: backwards(document, step),
    history: { done: history.done.slice(0, -1), undone: [...history.undone, step] },
  };
}

export function redo(history: History, document: Document): { history: History; desk: Document } | undefined {
  const step = history.undone.at(-1);
  if (!step) return undefined;
  return {
    desk: forwards(document, step),
    history: { done: [...history.done, { ...step, group: undefined }], undone: history.undone.slice(0, -1) },
  };
}

function stepBetween(
  before: Document,
  after: Document,
  when: number,
  group: string | undefined,
): Step | undefined {
  const text = before.text === after.text ? undefined : spliceBetween(before.text, after.text);
  const accepted =
    before.accepted === after.accepted ? undefined : { was: before.accepted, is: after.accepted };
  const jobs = before.jobs === after.jobs ? undefined : { was: before.jobs, is: after.jobs };
  return text || accepted || jobs ? { text, accepted, jobs, group, when } : undefined;
}

function joins(last: Step, step: Step): boolean {
  if (!step.group || last.group !== step.group || step.when - last.when > pause) return false;
  if (last.accepted || step.accepted) return false;
  if (!last.text || !step.text) return !last.text && !step.text;
  // Typing on, or rubbing out, where the last step ended.
  const end = last.text.at + last.text.inserted.length;
  return (
    (step.text.at >= last.text.at && step.text.at + step.text.removed.length <= end) || step.text.at === end
  );
}

function join(last: Step, step: Step): Step {
  const jobs = last.jobs && step.jobs ? { was: last.jobs.was, is: step.jobs.is } : undefined;
  if (!last.text || !step.text) return { ...step, jobs };
  const offset = step.text.at - last.text.at;
  const inserted =
    last.text.inserted.slice(0, offset) +
    step.text.inserted +
    last.text.inserted.slice(offset + step.text.removed.length);
  return { ...step, jobs, text: { at: last.text.at, removed: last.text.removed, inserted } };
}

const backwards = (document: Document, step: Step): Document => ({
  text: step.text
    ? put(document.text, step.text.at, step.text.inserted.length, step.text.removed)
    : document.text,
  accepted: step.accepted ? step.accepted.was : document.accepted,
  jobs: step.jobs ? step.jobs.was : document.jobs,
});
const forwards = (document: Document, step: Step): Document => ({
  text: step.text
    ? put(document.text, step.text.at, step.text.removed.length, step.text.inserted)
    : document.text,
  accepted: step.accepted ? step.accepted.is : document.accepted,
  jobs: step.jobs ? step.jobs.is : document.jobs,
});
const put = (text: string, at: number, length: number, insert: string): string =>
  text.slice(0, at) + insert + text.slice(at + length);

function spliceBetween(before: string, after: string): Splice {
  const most = Math.min(before.length, after.length);
  let head = 0;
  while (head < most && before.charCodeAt(head) === after.charCodeAt(head)) head += 1;
  let tail = 0;
  while (
    tail < most - head &&
    before.charCodeAt(before.length - 1 - tail) === after.charCodeAt(after.length - 1 - tail)
  )
    tail += 1;
  return {
    at: head,
    removed: before.slice(head, before.length - tail),
    inserted: after.slice(head, after.length - tail),
  };
}
