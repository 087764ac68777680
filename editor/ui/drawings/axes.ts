// Axes of a map or a chart: a frame with ticks, round numbers and what is measured along them, and places for
// values in SI.
import type { DrawnAxis } from "../../../core/view.ts";
import { type Mark, boxOf, line, mm, oval, overlaps, text } from "./marks.ts";
import type { TextMark } from "./marks.ts";
import type { Sheet } from "./paper.ts";
import { cropped, textWidth, wrapped } from "./text-size.ts";

export interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly foot: number;
  x(si: number): number;
  y(si: number): number;
  /** Where what is written below the frame ends. */
  readonly bottom: number;
}

export function axes(
  marks: Mark[],
  across: DrawnAxis,
  up: DrawnAxis,
  { width, size }: Sheet,
  high: number,
): Frame {
  const small = size * 0.95;
  const upWide = Math.min(width * 0.25, Math.max(0, ...up.ticks.map((tick) => textWidth(tick.text, small))));
  const title = wrapped(up.title, small, width - 2, 2);
  const [left, right, top] = [upWide + 4, width - 4, title.length * small * 1.3 + 2.5];
  const foot = top + high;
  const place =
    (axis: DrawnAxis, from: number, to: number) =>
    (si: number): number =>
      from +
      ((Math.min(Math.max(si, axis.low), axis.high) - axis.low) / (axis.high - axis.low || 1)) * (to - from);
  const [x, y] = [place(across, left, right), place(up, foot, top)];
  title.forEach((says, i) =>
    marks.push(text([0, small * (1 + 1.3 * i)], says, small, "start", { quiet: true })),
  );
  marks.push(
    ...written(
      across.ticks.map((tick) => ({ at: x(tick.si), text: tick.text })),
      (at, says) =>
        text(
          [
            Math.min(Math.max(at, textWidth(says, small) / 2), width - textWidth(says, small) / 2),
            foot + 2 + small,
          ],
          says,
          small,
          "middle",
        ),
      (at) =>
        line(
          [
            [at, foot],
            [at, foot + 1.4],
          ],
          "inner",
        ),
    ),
  );
  marks.push(
    ...written(
      up.ticks.map((tick) => ({ at: y(tick.si), text: tick.text })),
      (at, says) => text([left - 2, at + small * 0.35], cropped(says, small, upWide), small, "end"),
      (at) =>
        line(
          [
            [left - 1.4, at],
            [left, at],
          ],
          "inner",
        ),
    ),
  );
  const below = wrapped(across.title, small, width - left, 2);
  below.forEach((says, i) =>
    marks.push(text([left, foot + 3 + small * (2.3 + 1.3 * i)], says, small, "start", { quiet: true })),
  );
  return { left, right, top, foot, x, y, bottom: foot + 3 + small * (1.4 + 1.3 * below.length) };
}

/** The point of the job itself. */
export const jobPoint = (x: number, y: number): readonly Mark[] => [
  oval([x, y], [1.7, 1.7], "paper", "accent", { job: 1, x: mm(x), y: mm(y) }),
  oval([x, y], [0.5, 0.5], "arrow", "accent"),
];

/** Ticks with their numbers, those left out that would touch the one before. */
function written(
  ticks: readonly { readonly at: number; readonly text: string }[],
  label: (at: number, says: string) => TextMark,
  tick: (at: number) => Mark,
): readonly Mark[] {
  const kept: TextMark[] = [];
  return ticks.flatMap((one) => {
    const made = label(one.at, one.text);
    const [a, b] = [boxOf(made), kept.length > 0 ? boxOf(kept.at(-1)!) : undefined];
    if (b && overlaps({ ...a, left: a.left - 1, right: a.right + 1 }, b)) return [tick(one.at)];
    kept.push(made);
    return [tick(one.at), made];
  });
}
