// By what two names of people count as one.

/** The same however it is typed: case, width and spaces do not count. */
export const nameKeyOf = (name: string): string =>
  name.normalize("NFKC").trim().toLowerCase().replace(/\s+/g, " ");
