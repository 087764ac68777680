// What the meaning of a book is worked out in: exact fractions for one job, or formulas for all jobs at once.
// `B` is a truth, `N` an amount or a word's place. All operations give something for any arguments.
import type { Fraction } from "../engine/analysis/support/fraction.ts";
import type { RoundWay } from "./syntax.ts";

export interface Domain<B, N> {
  readonly yes: B;
  readonly no: B;
  readonly and: (...parts: readonly B[]) => B;
  readonly or: (...parts: readonly B[]) => B;
  readonly not: (a: B) => B;
  readonly pickTruth: (when: B, yes: B, no: B) => B;
  readonly number: (value: Fraction) => N;
  readonly word: (at: number) => N;
  readonly add: (a: N, b: N) => N;
  readonly subtract: (a: N, b: N) => N;
  readonly multiply: (a: N, b: N) => N;
  /** Anything where `b` is zero. */
  readonly divide: (a: N, b: N) => N;
  readonly isZero: (a: N) => B;
  /** Below, and not as good as equal. */
  readonly below: (a: N, b: N) => B;
  /** Equal, as comparisons take it. */
  readonly same: (a: N, b: N) => B;
  /** The larger or the smaller of two, however close they are. */
  readonly extreme: (does: "largest" | "smallest", a: N, b: N) => N;
  readonly round: (a: N, way: RoundWay, step: Fraction) => N;
  readonly pick: (when: B, yes: N, no: N) => N;
}

/** A value as the language has it: known, impossible, or neither, which is unknown. */
export interface Value<B, V> {
  readonly known: B;
  readonly impossible: B;
  /** Counts only where it is known. */
  readonly value: V;
}
