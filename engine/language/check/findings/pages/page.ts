// What the reference says of a finding. Kept apart from the sentences, so that no screen loads it.

export interface FindingPage {
  /** What to do about it. */
  readonly mend: string;
  /** The smallest book that causes exactly this; made where it would be too long to read. */
  readonly smallest: string | (() => string);
  /** Texts of the books that the smallest book depends on. */
  readonly books?: readonly string[];
}
