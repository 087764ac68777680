// The name of a book with its edition, and the books that it amends behind it.
import type { Say } from "../ui/words/words.ts";

export interface UnderNamed {
  readonly name: string;
  readonly edition: number | undefined;
}

/** ", on road-panels, edition 1" behind the name of a layer; "" for a book that stands alone. */
export const stackOn = (under: readonly UnderNamed[] | undefined, say: Say): string =>
  (under ?? []).map((one) => say("card.on-book", { book: editionText(one, say) })).join("");

export const editionText = ({ name, edition }: UnderNamed, say: Say): string =>
  edition === undefined ? name : say("card.comma-edition", { title: name, edition });
