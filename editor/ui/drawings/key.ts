// The key under a drawing: what each hatching stands for.
import { type Fill, type Mark, box, text } from "./marks.ts";
import type { Sheet } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

/** A row of small fields with what they stand for; gives where it ends below. */
export function keyOf(
  marks: Mark[],
  entries: readonly (readonly [Fill, string])[],
  top: number,
  { width, size }: Sheet,
): number {
  const field = 7,
    gap = 5;
  let x = 3,
    y = top;
  for (const [fill, says] of entries) {
    const label = cropped(says, size, width - field - 10);
    const wide = field + 1.6 + textWidth(label, size);
    if (x > 3 && x + wide > width - 1) {
      x = 3;
      y += size * 1.7;
    }
    marks.push(
      box([x, y, field, size], fill, "inner"),
      text([x + field + 1.6, y + size * 0.86], label, size),
    );
    x += wide + gap;
  }
  return y + size * 1.2;
}
