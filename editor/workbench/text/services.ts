// What the text face asks of whoever knows the language. Each function mirrors one
// of the engine's, and is asynchronous because the engine works away from the page.
//
// An offset counts in the text last handed to `onEdit` (or given as `text`): whoever
// answers must have read that text first.
import type { Span, TextEdit } from "../../../core/span.ts";

export type MarkAs =
  | "word"
  | "name"
  | "set"
  | "number"
  | "unit"
  | "text"
  | "insert"
  | "comment"
  | "bar"
  | "kindword"
  | "operator";

/** What a stretch of the text is, for its drawing. */
export interface Mark {
  readonly at: Span;
  readonly as: MarkAs;
}

/** Something that could stand at the cursor. */
export interface Offer {
  readonly label: string;
  readonly insert: string;
  readonly detail: string;
  readonly as: "value" | "kind" | "kindword" | "unit" | "function" | "word" | "statement";
}

interface Offered {
  /** The part already typed, which an offer takes the place of. */
  readonly at: Span;
  readonly offers: readonly Offer[];
}

export interface About {
  readonly at: Span;
  readonly name: string;
  readonly lines: readonly string[];
}

export interface Places {
  readonly name: string;
  readonly set: Span;
  readonly all: readonly Span[];
}

export type Renamed = { readonly edits: readonly TextEdit[] } | { readonly refused: string };

export interface TextServices {
  /** Marks of any piece of a book that begins at a statement; in order, without overlap. */
  colour(text: string): Promise<readonly Mark[]>;
  offers(offset: number): Promise<Offered>;
  about(offset: number): Promise<About | undefined>;
  places(offset: number): Promise<Places | undefined>;
  rename(offset: number, to: string): Promise<Renamed>;
}
