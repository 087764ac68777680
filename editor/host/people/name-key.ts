// By what two names of people count as one.

/** The same however it is typed: case, width and spaces do not count. */
export const nameKeyOf = (name: string): string =>
  name.normalize("NFKC").trim().toLowerCase().replace(/\s+/g, " ");

/** Letters that look alike come from different alphabets; a name is written in one. */
export const isMixed = (name: string): boolean =>
  [/\p{Script=Latin}/u, /\p{Script=Cyrillic}/u, /\p{Script=Greek}/u].filter((script) => script.test(name))
    .length > 1;
