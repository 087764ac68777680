// What the reference says of a finding. It stands apart from the sentences, so that no screen carries it.

export interface FindingPage {
  /** What to do about it. */
  readonly mend: string;
  /** The smallest book that causes exactly this; made where it would be too long to read. */
  readonly smallest: string | (() => string);
  /** Texts at hand that the smallest book stands on. */
  readonly shelf?: readonly string[];
}
