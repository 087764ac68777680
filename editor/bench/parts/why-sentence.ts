// The one sentence with which an answer to "why?" begins, for the person at the panel.
import type { TraceStep } from "../../../core/view.ts";

/** What a line gives, in a few words, and the text of the step, caution or stop that it speaks of. */
export function whyGives(step: TraceStep): { readonly short: string; readonly text?: string } {
  switch (step.does) {
    case "step":
    case "caution":
      return cardGives(step, "on the card", "not on the card");
    case "stop":
      return cardGives(step, "holds", "does not hold");
    case "answer":
    case "taken":
    case "unanswered":
    case "dial":
    case "figure":
    case "chart":
    case "list":
    case "promise":
      return { short: step.value };
  }
}

/** The engine writes `yes: the text`; a reader is told what that comes to. */
function cardGives(step: TraceStep, yes: string, no: string): { readonly short: string; readonly text?: string } {
  const [, holds, text] = /^(yes|no|waits|has no answer): (.*)$/s.exec(step.value) ?? [];
  switch (holds) {
    case "yes": return { short: yes, text };
    case "no": return { short: no, text };
    case "waits": return { short: "not settled yet", text };
    case "has no answer": return { short: "cannot be settled", text };
    default: return { short: step.value };
  }
}

/** "75 mm, because 6 mm of panel at 1:12, up to the next 5 mm." Always one sentence with a full stop. */
export function whySentence(step: TraceStep): string {
  const reason = whyReason(step);
  const { short, text } = whyGives(step);
  // A value keeps the spelling of the book; our own words begin the sentence with a capital.
  const first = text === undefined ? short : short.slice(0, 1).toUpperCase() + short.slice(1);
  return close(reason === "" ? first : `${first}, ${reason}`);
}

/** The sentence without the value that it explains: "because 6 mm of panel at 1:12"; "" where there is nothing to add. */
export function whyReason(step: TraceStep): string {
  switch (step.state) {
    case "unknown":
      // The value already says what it waits for.
      return "";
    case "impossible":
      return step.decided === "" ? "" : decidedWords(step.decided);
    case "known":
      return knownReason(step);
  }
}

function knownReason(step: TraceStep): string {
  switch (step.does) {
    case "answer":
      return "as answered";
    case "taken":
      return step.because ? `taken because ${run(step.because)}` : "taken because it could not be told";
    case "unanswered":
      return "";
    case "dial":
      return step.because ? `set by the house: ${run(step.because)}` : "set by the house";
    case "figure":
    case "chart":
    case "list":
    case "step":
    case "caution":
    case "stop":
    case "promise":
      if (step.because) return `because ${run(step.because)}`;
      if (step.decided !== "") return decidedWords(step.decided);
      if (step.rule === "always") return "as always";
      return step.filled === "" || step.filled === step.value ? "" : `from ${step.filled}`;
  }
}

function decidedWords(decided: string): string {
  if (/^(since|because|as|by|from|at|between|otherwise|no|not|none|still)\b/.test(decided)) return decided;
  return decided.startsWith("rows ") ? `since ${decided}` : `by ${decided}`;
}

/** Made to run on inside a sentence: no capital unless the word is all capitals or holds a digit, no full stop. */
function run(text: string): string {
  const trimmed = text.trim().replace(/\.$/, "");
  const first = /^\p{L}+/u.exec(trimmed)?.[0] ?? "";
  const plain = first.length === 1 || first.slice(1) === first.slice(1).toLowerCase();
  return plain ? trimmed.slice(0, 1).toLowerCase() + trimmed.slice(1) : trimmed;
}

const close = (sentence: string): string => (/[.!?]$/.test(sentence) ? sentence : `${sentence}.`);
