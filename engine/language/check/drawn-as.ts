// Where a measurement is taken, for the small drawing beside its question: `drawn as thickness`.
import { LENGTH, sameDimension } from "../../../core/dimension.ts";
import { type Type, typeName } from "../../../core/type.ts";
import type { Word } from "../syntax/tree.ts";
import { nearest } from "./did-you-mean.ts";
import { type CheckContext, fault } from "./scope.ts";

/** The places that can be shown, and what is measured there. */
export const DRAWN: Readonly<Record<string, "length" | "temperature" | "any">> = {
  thickness: "length",
  depth: "length",
  run: "length",
  "hole-long": "length",
  "hole-short": "length",
  "edge-distance": "length",
  gap: "length",
  temperature: "temperature",
  none: "any",
};

/** The place named, if there is such a one and what is asked can be measured there. */
export function checkDrawn(context: CheckContext, word: Word, ask: string, type: Type): string | undefined {
  const wants = Object.hasOwn(DRAWN, word.text) ? DRAWN[word.text] : undefined;
  if (wants === undefined) {
    const near = nearest(word.text, Object.keys(DRAWN));
    fault(
      context,
      "ask/drawn",
      word.at,
      { word: word.text, words: Object.keys(DRAWN), near },
      near ? [{ says: `Write ${near}`, edits: [{ at: word.at, text: near }] }] : [],
    );
    return undefined;
  }
  const fits =
    type.is === "anything" ||
    wants === "any" ||
    (wants === "temperature"
      ? type.is === "temperature"
      : type.is === "quantity" && sameDimension(type.dimension, LENGTH));
  if (!fits)
    fault(context, "ask/drawn-as", word.at, {
      word: word.text,
      wants: wants === "length" ? "a length" : "a temperature",
      name: ask,
      has: typeName(type),
    });
  return fits ? word.text : undefined;
}
