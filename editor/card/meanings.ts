// What the words of a book's kinds mean, by the name of the value: a technician reads the meaning, not only
// the word.
import { createContext, useContext } from "react";
import type { KindView, Piece, Row } from "../../core/view.ts";

/** The meaning of a word that a value has; "" for what is no word, and where the book says nothing. */
export type Meaning = (name: string, word: string) => string;

export const MeaningContext = createContext<Meaning>(() => "");
export const useMeaning = (): Meaning => useContext(MeaningContext);

export function meaningsOf(rows: readonly Row[], kinds: readonly KindView[]): Meaning {
  const words = new Map(
    kinds.map((kind) => [kind.name, new Map(kind.words.map(({ word, means }) => [word, means]))]),
  );
  const kindOf = new Map(
    rows.flatMap((row) =>
      row.name !== undefined && row.type.startsWith("one of ")
        ? [[row.name, row.type.slice("one of ".length)] as const]
        : [],
    ),
  );
  return (name, word) => words.get(kindOf.get(name) ?? "")?.get(word) ?? "";
}

/** Words of kinds in a text with their meanings, each once. */
export function meant(
  pieces: readonly Piece[],
  meaning: Meaning,
): readonly { readonly word: string; readonly means: string }[] {
  const found = new Map<string, string>();
  for (const piece of pieces) {
    if (typeof piece === "string" || piece.name === undefined || piece.state !== "known") continue;
    const means = meaning(piece.name, piece.text);
    // What only says the word again tells nobody anything.
    if (means !== "" && plain(means) !== plain(piece.text)) found.set(piece.text, means);
  }
  return [...found].map(([word, means]) => ({ word, means }));
}

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\d]+/gu, " ")
    .trim();
