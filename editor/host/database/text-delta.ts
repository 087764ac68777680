// A version of a text as the change of the one before it: most saves are a few letters, and all of them are
// kept.

export interface Splice {
  readonly at: number;
  readonly removed: number;
  readonly inserted: string;
}

/** The one place in which `after` differs from `before`. */
export function spliceBetween(before: string, after: string): Splice {
  const most = Math.min(before.length, after.length);
  let head = 0;
  while (head < most && before.charCodeAt(head) === after.charCodeAt(head)) head += 1;
  let tail = 0;
  while (
    tail < most - head &&
    before.charCodeAt(before.length - 1 - tail) === after.charCodeAt(after.length - 1 - tail)
  )
    tail += 1;
  return { at: head, removed: before.length - tail - head, inserted: after.slice(head, after.length - tail) };
}

export const withSplice = (text: string, { at, removed, inserted }: Splice): string =>
  text.slice(0, at) + inserted + text.slice(at + removed);
