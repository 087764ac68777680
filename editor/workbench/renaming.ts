// A new name for something of the book: in the text, in the accepted text, and in the answers of the jobs
// laid alongside.
import { applyEdits } from "../../core/span.ts";
import type { TextEdit } from "../../core/span.ts";
import type { Snapshot } from "../client/engine/messages.ts";
import type { WorkbenchStore } from "./store/document.ts";
import type { Document, JobTag } from "../client/storage/stored-work.ts";

/**
 * The desk with the new name, and the edits of the text alone; or a sentence why not. Nothing is changed yet.
 */
export async function renamedDocument(
  store: WorkbenchStore,
  offset: number,
  to: string,
): Promise<{ readonly desk: Document; readonly edits: readonly TextEdit[] } | { readonly refused: string }> {
  const { desk: document, snapshot } = store.state();
  const found = await store.ask((engine) => engine.rename(document.text, document.accepted, offset, to));
  if (!found) return { refused: "The working-out did not answer. Try again." };
  if ("refused" in found) return found;
  const text = applyEdits(document.text, found.edits);
  return {
    edits: found.edits,
    desk: {
      text,
      accepted: applyEdits(document.accepted, found.acceptedEdits),
      jobs: document.jobs.map((job) => renamedAnswers(job, found.from, to, snapshot)),
    },
  };
}

/** Answers are held by the ask's name, and may be words of a kind. */
function renamedAnswers(job: JobTag, from: string, to: string, snapshot: Snapshot | undefined): JobTag {
  const ofKind = new Set(
    (snapshot?.asks ?? [])
      .filter((ask) => ask.answer.is === "kind" && ask.answer.words.some((one) => one.word === from))
      .map((ask) => ask.name),
  );
  const isAsk = (snapshot?.asks ?? []).some((ask) => ask.name === from);
  const answers = Object.entries(job.answers).map(
    ([ask, answer]) =>
      [isAsk && ask === from ? to : ask, ofKind.has(ask) && answer === from ? to : answer] as const,
  );
  return answers.every(([ask, answer]) => job.answers[ask] === answer)
    ? job
    : { ...job, answers: Object.fromEntries(answers) };
}
