// A text in quotes, cut into plain stretches and the rules inserted in braces. Here only the braces are
// found; the rules between them are read by the grammar once the statement around them is done.

export interface RawInsert {
  /** What is between the braces, and where it begins. */
  readonly source: string;
  readonly offset: number;
  /** Braces and all. */
  readonly start: number;
  readonly end: number;
  readonly closed: boolean;
}

/**
 * `image` with its quotes; `offset` is where the opening quote is. `{{`, `}}` and `''` mean a brace
 * and a double quote mark.
 */
export function cutText(image: string, offset: number): readonly (string | RawInsert)[] {
  const inner = image.slice(1, -1);
  const pieces: (string | RawInsert)[] = [];
  let plain = "";
  for (let i = 0; i < inner.length; i++) {
    const two = inner.slice(i, i + 2);
    if (two === "{{" || two === "}}") {
      plain += two[0];
      i++;
      continue;
    }
    if (two === "''") {
      plain += '"';
      i++;
      continue;
    }
    if (inner[i] !== "{") {
      plain += inner[i];
      continue;
    }
    const close = inner.indexOf("}", i);
    const stop = close < 0 ? inner.length : close;
    if (plain) pieces.push(plain);
    plain = "";
    pieces.push({
      source: inner.slice(i + 1, stop),
      offset: offset + 2 + i,
      start: offset + 1 + i,
      end: offset + 1 + Math.min(stop + 1, inner.length),
      closed: close >= 0,
    });
    i = stop;
  }
  if (plain) pieces.push(plain);
  return pieces;
}
