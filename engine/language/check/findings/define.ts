// A kind of finding: its code, how serious it is, and the sentence made of its facts. Facts are made where
// the fault is found, sentences only here. What the reference says of it, with the smallest book that causes
// it, is in pages/.
import type { Severity } from "../../../../core/view.ts";

export type Facts = Readonly<Record<string, unknown>>;

export interface FindingKind {
  readonly code: string;
  readonly weight: Severity;
  readonly says: (facts: Facts) => string;
}

/** A fact that is a list of words. */
export const wordsOf = (fact: unknown): readonly string[] => (Array.isArray(fact) ? fact.map(String) : []);

export const list = (fact: unknown, most = 8): string => {
  const words = wordsOf(fact);
  return words.length <= most
    ? words.join(", ")
    : `${words.slice(0, most).join(", ")} and ${words.length - most} more`;
};

/** `a figure`, `an ask`. */
export const withArticle = (noun: unknown): string => `${/^[aeiou]/.test(String(noun)) ? "an" : "a"} ${noun}`;

export const meant = (near: unknown): string => (typeof near === "string" ? ` Did you mean ${near}?` : "");
