// A kind of finding: its code, how much it weighs, the sentence made of its facts, and the smallest book that
// causes it, which the reference shows and a test runs. Facts are made elsewhere; words are made only here.
import type { Weight } from "../../../core/view.ts";

export type Facts = Readonly<Record<string, any>>;

export interface FindingKind {
  readonly code: string;
  readonly weight: Weight;
  readonly says: (facts: Facts) => string;
  /** What to do about it, for the reference. */
  readonly mend: string;
  /** The smallest book that causes exactly this; made where it would be too long to read. */
  readonly smallest: string | (() => string);
}

export const list = (words: readonly string[], most = 8): string =>
  words.length <= most ? words.join(", ") : `${words.slice(0, most).join(", ")} and ${words.length - most} more`;

export const meant = (near: unknown): string => (typeof near === "string" ? ` Did you mean ${near}?` : "");
