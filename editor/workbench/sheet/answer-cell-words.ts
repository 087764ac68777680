// What can be typed whole as an answer, and the hint of an empty field.
import type { AskView } from "../../../core/view.ts";
import type { Offer } from "./offer-list.tsx";

/** The words of the kind, yes and no, and always that it is not known. */
export function wordsOf(ask: AskView | undefined): readonly Offer[] {
  const unknown = { word: "unknown", means: ask?.ifUnknown ? `takes ${ask.ifUnknown.take}` : "cannot tell" };
  if (!ask) return [];
  switch (ask.answer.is) {
    case "quantity":
      return [unknown];
    case "kind":
      return [...ask.answer.words, unknown];
    case "yes-no":
      return [{ word: "yes", means: "" }, { word: "no", means: "" }, unknown];
  }
}

/** Words that contain what is typed; all of them where a whole word is typed. */
export function fittingWords(words: readonly Offer[], draft: string): readonly Offer[] {
  const typed = draft.trim();
  if (words.some((one) => one.word === typed)) return words;
  return words.filter((one) => one.word.toLowerCase().includes(typed.toLowerCase()));
}

/** What Enter keeps: the word chosen by the keys, the only word that fits, or the text as typed. */
export function pickedAnswer(ask: AskView | undefined, draft: string, chosen: number): string {
  const words = wordsOf(ask);
  const offers = fittingWords(words, draft);
  const byKeys = offers[chosen]?.word;
  if (byKeys !== undefined) return byKeys;
  const whole = words.some((one) => one.word === draft.trim());
  const only = !whole && draft.trim() !== "" && offers.length === 1 && ask?.answer.is !== "quantity";
  return only ? (offers[0]?.word ?? draft) : draft;
}

export function answerHint(ask: AskView | undefined): string {
  if (!ask) return "";
  switch (ask.answer.is) {
    case "quantity":
      return ask.answer.unit === "" ? "4" : `… ${ask.answer.unit}`;
    case "kind":
      return "a word";
    case "yes-no":
      return "yes or no";
  }
}
