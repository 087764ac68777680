// A kind of finding: its code, how much it weighs, and the sentence made of its facts. Facts are made
// elsewhere; words are made only here. What the reference says of it, with the smallest book that causes it,
// stands in pages/.
import type { Severity } from "../../../../core/view.ts";

export type Facts = Readonly<Record<string, any>>;

export interface FindingKind {
  readonly code: string;
  readonly weight: Severity;
  readonly says: (facts: Facts) => string;
}

export const list = (words: readonly string[], most = 8): string =>
  words.length <= most
    ? words.join(", ")
    : `${words.slice(0, most).join(", ")} and ${words.length - most} more`;

export const meant = (near: unknown): string => (typeof near === "string" ? ` Did you mean ${near}?` : "");
