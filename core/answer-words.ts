// How an answer of a job is written in a sentence or a list: also one that is left blank.

/** `typed` as a technician types it: nothing where an ask is left blank, "unknown" where one cannot tell. */
export function answerInWords(typed: string): string {
  const text = typed.trim();
  if (text === "") return "not answered";
  return text === "unknown" ? "cannot tell" : text;
}
