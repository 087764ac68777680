// Changes to the answers of a job.
import type { Answers } from "../../core/view.ts";

/** The answers with one more; no text, or an empty one, takes the answer back. */
export function withAnswer(answers: Answers, ask: string, text: string | undefined): Answers {
  const rest = Object.fromEntries(Object.entries(answers).filter(([name]) => name !== ask));
  return text === undefined || text === "" ? rest : { ...rest, [ask]: text };
}
