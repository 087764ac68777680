// The version of the engine, as a signed card keeps it: whoever works the card again later can tell whether
// the same engine did.

/** Raised whenever the same book and the same answers could give another card. */
export const engineVersion = "0.1.0";
