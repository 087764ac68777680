// The marks that drawings are made of, in millimetres on paper, x to the right and y down. What is drawn is
// decided in numbers, apart from how a screen puts it on: so it can be measured by a test as a person would
// measure the sheet.
import { textWidth } from "./text-size.ts";

export type Point = readonly [x: number, y: number];

/** How a line is drawn: weights go from the outline down to the hairline of a dimension. */
export type Ink = "outline" | "inner" | "hair" | "dashed" | "centre" | "dimension" | "accent" | "none";
/** What fills a shape; each can be told from the others in grey. */
export type Fill =
  | "none"
  | "paper"
  | "panel"
  | "ply"
  | "ply-other"
  | "core"
  | "patch"
  | "resin"
  | "filler"
  | "hardener"
  | "total"
  | "work"
  | "wait"
  | "longest"
  | "stopped"
  | "arrow"
  | "void"
  | `tone-${number}`;

/** Numbers that belong to a mark, for whoever measures or tests it: they stand in `data-` attributes. */
export type Data = Readonly<Record<string, string | number>>;

export interface LineMark {
  readonly is: "line";
  readonly points: readonly Point[];
  readonly closed: boolean;
  readonly ink: Ink;
  readonly fill: Fill;
  readonly data?: Data;
}
export interface OvalMark {
  readonly is: "oval";
  readonly x: number;
  readonly y: number;
  readonly rx: number;
  readonly ry: number;
  readonly ink: Ink;
  readonly fill: Fill;
  readonly data?: Data;
}
export interface TextMark {
  readonly is: "text";
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly anchor: "start" | "middle" | "end";
  readonly strong?: boolean;
  readonly quiet?: boolean;
  readonly accent?: boolean;
  readonly data?: Data;
  /** Laid on hatching: a halo of paper keeps it legible. */
  readonly halo?: boolean;
}
export type Mark = LineMark | OvalMark | TextMark;

export interface Drawn {
  /** Millimetres on paper. */
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
  /** Under the drawing: its scale, and what is not known yet. */
  readonly notes: readonly string[];
  /** All that it shows in words, every number among them. */
  readonly describes: readonly string[];
}

export const line = (points: readonly Point[], ink: Ink = "hair", data?: Data): LineMark => ({
  is: "line",
  points,
  closed: false,
  ink,
  fill: "none",
  ...(data ? { data } : {}),
});
export const area = (points: readonly Point[], fill: Fill, ink: Ink = "outline", data?: Data): LineMark => ({
  is: "line",
  points,
  closed: true,
  ink,
  fill,
  ...(data ? { data } : {}),
});
/** At left, top, width and height. */
export const box = (
  [left, top, width, height]: readonly [number, number, number, number],
  fill: Fill,
  ink: Ink = "outline",
  data?: Data,
): LineMark =>
  area(
    [
      [left, top],
      [left + width, top],
      [left + width, top + height],
      [left, top + height],
    ],
    fill,
    ink,
    data,
  );
export const oval = (
  [x, y]: Point,
  [rx, ry]: Point,
  fill: Fill,
  ink: Ink = "outline",
  data?: Data,
): OvalMark => ({ is: "oval", x, y, rx, ry, fill, ink, ...(data ? { data } : {}) });
export const text = (
  [x, y]: Point,
  says: string,
  size: number,
  anchor: TextMark["anchor"] = "start",
  more: Partial<Pick<TextMark, "strong" | "quiet" | "accent" | "halo" | "data">> = {},
): TextMark => ({ is: "text", x, y, text: says, size, anchor, ...more });

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The room that a text takes: capital height above its foot, and what hangs below. */
export function boxOf({ x, y, text: says, size, anchor, strong }: TextMark): Box {
  const width = textWidth(says, size, strong);
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, top: y - 0.74 * size, right: left + width, bottom: y + 0.2 * size };
}

export const overlaps = (a: Box, b: Box): boolean =>
  a.left < b.right - 1e-6 && b.left < a.right - 1e-6 && a.top < b.bottom - 1e-6 && b.top < a.bottom - 1e-6;

/**
 * A slender arrow head with its point at `at`, seen from the direction (dx, dy) of length one that it points
 * in.
 */
function arrow([x, y]: Point, [dx, dy]: Point, length = 1.9, half = 0.38): LineMark {
  return area(
    [
      [x, y],
      [x - dx * length - dy * half, y - dy * length + dx * half],
      [x - dx * length + dy * half, y - dy * length - dx * half],
    ],
    "arrow",
    "none",
  );
}

/**
 * A line between two arrow points, the arrows outside where there is no room for them within. `along` is the
 * axis.
 */
export function dimensionLine(
  from: number,
  to: number,
  across: number,
  along: "x" | "y",
  data?: Data,
): readonly Mark[] {
  const [low, high] = from < to ? [from, to] : [to, from];
  const put = (at: number): Point => (along === "x" ? [at, across] : [across, at]);
  const way = (by: number): Point => (along === "x" ? [by, 0] : [0, by]);
  if (high - low >= 5.5)
    return [
      line([put(low), put(high)], "dimension", data),
      arrow(put(low), way(-1)),
      arrow(put(high), way(1)),
    ];
  return [
    line([put(low - 3.4), put(high + 3.4)], "dimension", data),
    arrow(put(low), way(1)),
    arrow(put(high), way(-1)),
  ];
}

/** Shows that a part goes on beyond where it is cut off: a straight line with one kink. */
export function breakLine(x: number, top: number, bottom: number, over = 1.4): readonly Point[] {
  const middle = (top + bottom) / 2;
  const kink = Math.min(2.2, (bottom - top) / 3);
  return [
    [x, top - over],
    [x, middle - kink],
    [x - 1.3, middle - kink / 3],
    [x + 1.3, middle + kink / 3],
    [x, middle + kink],
    [x, bottom + over],
  ];
}

/** Rounded for the page: a thousandth of a millimetre is far below a printed dot. */
export const mm = (at: number): number => Math.round(at * 1000) / 1000 + 0;
