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
  return close([text === undefined ? valueWords(step) : capital(short), reason].filter((part) => part !== "").join(", "));
}

/** The sentence without the value that it explains: "because 6 mm of panel at 1:12"; "" where there is nothing to add. */
export function whyReason(step: TraceStep): string {
  switch (step.does) {
    case "step":
    case "caution":
    case "stop":
      return conditionWords(step);
    case "answer":
      return step.state === "known" ? "as answered" : "";
    case "taken":
      if (step.state !== "known") return "";
      return step.because ? `taken because ${run(step.because)}` : "taken because it could not be told";
    case "unanswered":
      return "";
    case "dial":
      return step.because ? `set by the house: ${run(step.because)}` : "set by the house";
    case "figure":
    case "chart":
    case "list":
    case "promise":
      return step.state === "known" ? ruleReason(step) : "";
  }
}

/** Whether the reason that the book gives is already in the sentence, and need not be said again. */
export function becauseIsSaid(step: TraceStep): boolean {
  return step.because !== undefined && whyReason(step).endsWith(run(step.because));
}

function ruleReason(step: TraceStep): string {
  // The reason that a book gives is mostly that of the case it names first; where another one was taken it would mislead.
  if (step.decided.startsWith("otherwise")) return "since no other case of its rule applies";
  if (step.because && step.decided.startsWith("since ")) return `${step.decided}, because ${run(step.because)}`;
  if (step.because) return `because ${run(step.because)}`;
  if (step.decided !== "") return decidedWords(step.decided);
  return step.filled === "" || step.filled === step.value ? "" : `from ${step.filled}`;
}

/** A value as it stands; what is not known, or cannot be, is said to be so. */
function valueWords(step: TraceStep): string {
  switch (step.state) {
    case "known": return step.value;
    case "unknown": return /^\p{Ll}/u.test(step.value) ? `Not known yet: ${step.value}` : step.value;
    case "impossible": return /^\p{Ll}/u.test(step.value) ? `No value: ${step.value}` : step.value;
  }
}

/** Why a step, caution or stop applies or not is its condition; its `because` tells why the book has it at all. */
function conditionWords(step: TraceStep): string {
  const holds = step.value.startsWith("yes");
  const condition = step.rule.replace(/^when /, "");
  if (step.state !== "known" || condition === "") return "";
  if (condition === "always") {
    if (step.rests.length === 0) return holds ? "as always" : "";
    return holds ? "since a step calls for it" : "since no step calls for it";
  }
  if (/^[\p{L}\d-]+$/u.test(condition)) return `since ${condition} is ${holds ? "yes" : "no"}`;
  const numbers = /\d/.test(step.filled) ? ` (${step.filled})` : "";
  return holds ? `since ${condition}${numbers}` : `since this is not so: ${condition}${numbers}`;
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

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

const close = (sentence: string): string => (/[.!?]$/.test(sentence) ? sentence : `${sentence}.`);
