// The one sentence with which an answer to "why?" begins, for the person at the panel.
import { capitalise } from "../../../core/capitalise.ts";
import type { TraceStep } from "../../../core/view.ts";
import { type Decision, conditionText } from "../../../core/reason.ts";
import { decidedWords, traceValue } from "../words/engine-words.ts";
import { english } from "../words/words.ts";
import type { Say } from "../words/words.ts";

/** What a line gives, in a few words, and the text of the step, caution or stop that it speaks of. */
export function whyGives(
  step: TraceStep,
  say: Say = english,
): { readonly short: string; readonly text?: string } {
  switch (step.does) {
    case "step":
    case "caution":
      return cardGives(step, "why.on-card", "why.not-on-card", say);
    case "stop":
      return cardGives(step, "why.holds", "why.holds-not", say);
    case "answer":
    case "taken":
    case "unanswered":
    case "dial":
    case "figure":
    case "chart":
    case "list":
    case "promise":
      return { short: traceValue(step, say) };
  }
}

/** A step or caution is on the card or not; a stop holds or not. */
function cardGives(
  step: TraceStep,
  yes: "why.on-card" | "why.holds",
  no: "why.not-on-card" | "why.holds-not",
  say: Say,
): { readonly short: string; readonly text?: string } {
  const text = step.line?.text;
  switch (step.line?.applies) {
    case "yes":
      return { short: say(yes), text };
    case "no":
      return { short: say(no), text };
    case "waits":
      return { short: say("why.not-settled"), text };
    case "has no answer":
      return { short: say("why.cannot-settle"), text };
    case undefined:
      return { short: traceValue(step, say) };
  }
}

/** "75 mm, because 6 mm of panel at 1:12, up to the next 5 mm." Always one sentence with a full stop. */
export function whySentence(step: TraceStep, say: Say = english): string {
  const reason = whyReason(step, say);
  const { short, text } = whyGives(step, say);
  return close(joined([text === undefined ? valueWords(step, say) : capitalise(short), reason]));
}

/**
 * The sentence without the value that it explains: "because 6 mm of panel at 1:12"; "" where there is nothing
 * to add.
 */
export function whyReason(step: TraceStep, say: Say = english): string {
  switch (step.does) {
    case "step":
    case "caution":
    case "stop":
      return conditionWords(step, say);
    case "answer":
      return step.state === "known" ? say("why.as-answered") : "";
    case "taken":
      if (step.state !== "known") return "";
      return step.because
        ? say("why.taken-because", { because: run(step.because) })
        : say(step.decidedBy[0]?.code === "taken-for-blank" ? "why.taken-blank" : "why.taken");
    case "unanswered":
      return "";
    case "dial":
      return step.because ? say("why.house-because", { because: run(step.because) }) : say("why.house");
    case "figure":
    case "chart":
    case "list":
    case "promise":
      return step.state === "known" ? ruleReason(step, say) : "";
  }
}

/** Whether the reason that the book gives is already in the sentence, and need not be said again. */
export function becauseIsSaid(step: TraceStep): boolean {
  return step.because !== undefined && whyReason(step).endsWith(run(step.because));
}

function ruleReason(step: TraceStep, say: Say): string {
  // The reason that a book gives is mostly that of the case it names first; where another one was taken it
  // would mislead.
  const first = step.decidedBy[0];
  if (first?.code === "otherwise")
    return first.not === undefined || first.not.length === 0
      ? say("why.otherwise")
      : say("why.not-so", { what: first.not.map(conditionText).join("; ") });
  if (step.because && first?.code === "since")
    return say("why.decided-because", { decided: decidedWords(step, say), because: run(step.because) });
  if (step.because) return say("why.because-of", { because: run(step.because) });
  if (first !== undefined) return decidedClause(first, decidedWords(step, say), say);
  return step.filled === "" || step.filled === step.value ? "" : say("why.from", { filled: step.filled });
}

/** A value as it stands; what is not known, or cannot be, is said to be so. */
function valueWords(step: TraceStep, say: Say): string {
  const value = traceValue(step, say);
  switch (step.state) {
    case "known":
      return value;
    case "unknown":
      return /^\p{Ll}/u.test(value) ? say("why.not-known", { value }) : value;
    case "impossible":
      return /^\p{Ll}/u.test(value) ? say("why.no-value", { value }) : value;
  }
}

/**
 * Why a step, caution or stop applies or not is its condition; its `because` tells why the book has it at
 * all.
 */
function conditionWords(step: TraceStep, say: Say): string {
  if (step.state !== "known" || step.line === undefined) return "";
  const { condition } = step.line;
  const holds = step.line.applies === "yes";
  if (condition === undefined) {
    if (step.rests.length === 0) return holds ? say("why.always") : "";
    return holds ? say("why.called") : say("why.not-called");
  }
  if (/^[\p{L}\d-]+$/u.test(condition)) return say(holds ? "why.is-yes" : "why.is-no", { name: condition });
  const numbers = /\d/.test(step.filled) ? ` (${step.filled})` : "";
  return say(holds ? "why.since" : "why.not-so", { what: `${condition}${numbers}` });
}

/** What decided, made to follow a value: "by row 3", "since rows 2, 4 agree", "between rows 1 and 2". */
function decidedClause(first: Decision, words: string, say: Say): string {
  switch (first.code) {
    case "row":
    case "rows-of-chart":
    case "answers-leave-no-row":
    case "as-in-book":
    case "answered":
    case "taken-for-blank":
    case "taken-instead":
    case "unusable":
      return say("why.by", { decided: words });
    case "rows-agree":
    case "rows-left":
      return say("why.since", { what: words });
    case "at-row":
    case "between-rows":
    case "rows-possible":
    case "no-row-fits":
    case "rows-both-apply":
    case "since":
    case "otherwise":
    case "not-settled":
    case "not-answered":
      return words;
  }
}

/**
 * Made to run on inside a sentence: no capital unless the word is all capitals or holds a digit, no full
 * stop.
 */
function run(text: string): string {
  const trimmed = text.trim().replace(/\.$/, "");
  const first = /^\p{L}+/u.exec(trimmed)?.[0] ?? "";
  const plain = first.length === 1 || first.slice(1) === first.slice(1).toLowerCase();
  return plain ? trimmed.slice(0, 1).toLowerCase() + trimmed.slice(1) : trimmed;
}

/** A part that ends in a comma of its own gets no second one. */
const joined = (parts: readonly string[]): string =>
  parts
    .filter((part) => part !== "")
    .map((part, i, all) => (i < all.length - 1 ? part.replace(/[,;]\s*$/, "") : part))
    .join(", ");

const close = (sentence: string): string => (/[.!?]$/.test(sentence) ? sentence : `${sentence}.`);
