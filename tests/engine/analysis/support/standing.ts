// Runs a book's standing to its end, or for as many boxes as it is given.
import type { GoalView, VerificationView } from "../../../../core/view.ts";
import { evaluationOf } from "../../../../engine/api/book.ts";
import { stateOf } from "../../../../engine/program/eval/frame.ts";
import { type Book, readBook, showJob, verificationOf, workJob } from "../../../../engine/index.ts";

export function standing(book: Book, most = 200_000): VerificationView {
  const proof = verificationOf(book);
  for (let spent = 0; spent < most && !proof.advance(2000); spent += 2000);
  return proof.view();
}

export const promises = (book: Book, most?: number): readonly GoalView[] =>
  standing(book, most).goals.filter((goal) => goal.sort === "promise");

/** The book, without any finding that would keep it from being worked. */
export function sound(text: string): Book {
  const book = readBook(text);
  const wrong = book.findings.filter((finding) => finding.weight === "error");
  if (wrong.length > 0) throw new Error(`${wrong.map((finding) => finding.says).join("\n")}\n${text}`);
  return book;
}

/**
 * Whether a job breaks a promise, told by the values alone: it comes out no, or can have no value though
 * nothing stops the job. What waits for an answer breaks nothing.
 */
export function brokenBy(book: Book, answers: Readonly<Record<string, string>>, id: string): boolean {
  const job = workJob(book, answers);
  const view = showJob(job);
  if (view.broken.some((one) => one.id === id)) return true;
  const { plan, frame } = evaluationOf(job);
  const { when } = plan.promises.find((block) => block.id === id)!;
  return view.state !== "stopped" && stateOf(frame, when) === "impossible";
}
