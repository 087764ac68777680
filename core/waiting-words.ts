// The asks that something waits for, in one line: those of which one is enough are said together.

/** `air; one of maker-thickness, measured-thickness`. */
export function namesOf(asks: readonly string[], oneOf: readonly (readonly string[])[] = []): string {
  const grouped = new Set(oneOf.flat());
  return [
    ...asks.filter((ask) => !grouped.has(ask)),
    ...oneOf.map((group) => `one of ${group.join(", ")}`),
  ].join(oneOf.length > 0 ? "; " : ", ");
}
