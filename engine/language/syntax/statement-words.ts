// The words that statements begin with, and the bases that `from` may name.
export const STATEMENT_WORDS = [
  "book",
  "part",
  "kind",
  "ask",
  "dial",
  "figure",
  "formula",
  "chart",
  "list",
  "step",
  "caution",
  "stop",
  "refer",
  "promise",
  "picture",
  "worked",
  "use",
  "drop",
  "instead",
] as const;

/** Lines of the card: what a technician does, minds, or is kept from. */
export const isLine = (word: string): boolean => word === "step" || word === "caution" || word === "stop";

export type StatementWord = Exclude<(typeof STATEMENT_WORDS)[number], "instead">;

/** What `instead` may come before. */
export const REPLACED = [
  "kind",
  "ask",
  "dial",
  "figure",
  "formula",
  "chart",
  "list",
  "step",
  "caution",
  "stop",
  "refer",
  "worked",
] as const;

/** What a rule may rest on: `from practice`, `from standard "…"`. */
export const BASES: ReadonlySet<string> = new Set([
  "practice",
  "standard",
  "house",
  "label",
  "test",
  "memory",
]);
