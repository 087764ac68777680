// What the engine says, in the language of the page. Reasons and decisions arrive as facts beside their
// English sentences: English shows the sentence, another language has a sentence for each code.
import type { Decision, LineName, Reason, Turn } from "../../../core/reason.ts";
import { wordsOf } from "../../../core/reason.ts";
import type { SensitivityView, Shown, TraceStep } from "../../../core/view.ts";
import { engineWordsOf } from "./words.ts";
import type { Say } from "./words.ts";

/** Why a value can never be known, or an answer not be used. `text` is the engine's sentence. */
export function reasonWords(reason: Reason | undefined, text: string, say: Say): string {
  const words = engineWordsOf(say);
  return words === undefined || reason === undefined ? text : wordsOf(words.reasons, reason);
}

/** What decided a step of a trace; "" where nothing did alone. */
export function decidedWords(step: Pick<TraceStep, "decided" | "decidedBy">, say: Say): string {
  const words = engineWordsOf(say);
  if (words === undefined) return step.decided;
  return step.decidedBy.map((one: Decision) => wordsOf(words.decisions, one)).join("; ");
}

/** What a value that is not known waits for. `text` is the engine's sentence. */
const waitsWords = (asks: readonly string[], text: string, say: Say): string =>
  engineWordsOf(say)?.waitsFor(asks) ?? text;

/** A value's text; for one that is not known, what it waits for or why it cannot be. */
export function shownText(value: Shown, say: Say): string {
  switch (value.state) {
    case "known":
      return value.value === true ? say("ask.yes") : value.value === false ? say("ask.no") : value.text;
    case "unknown":
      return waitsWords(value.waitsFor ?? [], value.text, say);
    case "impossible":
      return reasonWords(value.cause, value.reason ?? value.text, say);
  }
}

/** The value of a step of a trace. */
export function traceValue(step: TraceStep, say: Say): string {
  if (step.holds !== undefined) return say(step.holds ? "ask.yes" : "ask.no");
  if (step.cause !== undefined) return reasonWords(step.cause, step.value, say);
  return step.waitsFor === undefined ? step.value : waitsWords(step.waitsFor, step.value, say);
}

/** `step lay-up`, with its first word in the language of the page. */
const lineName = ({ what, name }: LineName, say: Say): string =>
  what === undefined ? name : `${say(`does.${what}`)} ${name}`;

/** "method becomes wet-layup", "step lay-up applies": what a close call turns. */
export function turnWords(turn: Turn, say: Say): string {
  switch (turn.code) {
    case "becomes":
      return say("flip.becomes", { name: turn.name, word: turn.word });
    case "has-no-value":
      return say("flip.no-value", { name: turn.name });
    case "holds":
      return say("flip.holds", { what: lineName(turn.line, say) });
    case "no-longer-holds":
      return say("flip.holds-not", { what: lineName(turn.line, say) });
    case "applies":
      return say("flip.applies", { what: lineName(turn.line, say) });
    case "no-longer-applies":
      return say("flip.applies-not", { what: lineName(turn.line, say) });
    case "cannot-be-told":
      return say("flip.cannot-be-told", { what: lineName(turn.line, say) });
  }
}

/** A close call in one sentence. */
export function flipWords(flip: SensitivityView, say: Say): string {
  const facts = {
    turn: turnWords(flip.first, say),
    count: flip.turned.length - 1,
    changes: flip.changes.map(({ ask, to }) => say("flip.is", { ask, to })).join(` ${say("flip.and")} `),
    now: flip.changes.map(({ now }) => say("flip.now", { now })).join(", "),
  };
  return say(flip.turned.length > 1 ? "flip.when-more" : "flip.when", facts);
}
