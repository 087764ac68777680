// The units in which small books ask for a length.
import { type Fraction, fraction, whole } from "../engine/analysis/support/fraction.ts";

/** Millimetres in each. */
export const MM_IN: Readonly<Record<string, Fraction>> = {
  mm: whole(1n),
  cm: whole(10n),
  m: whole(1000n),
  inch: fraction(254n, 10n),
};
