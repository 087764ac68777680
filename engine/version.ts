// The version of the engine, as a signed card keeps it: whoever works the card again later can tell whether
// the same engine did.

/**
 * Raised whenever the same book and answers give another card; `tests/rulesets/cards.test.ts` insists on it.
 */
export const engineVersion = "0.3.0";
