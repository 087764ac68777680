// The edition that a book's first line names, read and written without the book being understood.

const head = /^(book[ \t]+[a-z][a-z0-9-]*)(,[ \t]*edition[ \t]+(\d+))?/m;

/** Undefined where the first line names none. */
export function editionIn(text: string): number | undefined {
  const said = head.exec(text)?.[3];
  return said === undefined ? undefined : Number(said);
}

/** The same text as this edition; unchanged where it does not begin as a book does. */
export const withEdition = (text: string, number: number): string =>
  text.replace(head, `$1, edition ${number}`);

/** The number of the next sealing: the text's own where it is above the last one, else one more than that. */
export const nextNumber = (text: string, last: number | undefined): number =>
  Math.max(editionIn(text) ?? 1, (last ?? 0) + 1);
