// A tree without the places it was read from, for comparing what two texts mean.

/**
 * The same plain data with every `at` and `opAt` taken out; `low` and `high` that are one node stay one
 * value.
 */
export function withoutPlaces(data: unknown): unknown {
  if (Array.isArray(data)) return data.map(withoutPlaces);
  if (typeof data !== "object" || data === null) return data;
  return Object.fromEntries(
    Object.entries(data).flatMap(([key, value]) =>
      key === "at" || key === "opAt" || key === "ruleAt" || value === undefined
        ? []
        : [[key, withoutPlaces(value)]],
    ),
  );
}
