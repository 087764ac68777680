// The page of a curve's drawing: its size, its edges, and the scales that lead onto it.
import type { Curve } from "./curve-words.ts";
import type { Reach, Scale } from "./geometry.ts";

/** In px. */
export const HEIGHT = 360;
/** Room around the curve, in px, for axes and labels. */
export const EDGE = { left: 76, right: 26, top: 34, bottom: 66 };

export interface Place {
  readonly curve: Curve;
  readonly x: Scale;
  readonly y: Scale;
  readonly xReach: Reach;
  readonly yReach: Reach;
  readonly width: number;
}

/** About the width of a letter of the drawing, in px. */
export const LETTER = 6.6;

/** Whether the line goes up on the whole: the free side of it is then upper left and lower right. */
export function rises(curve: Curve): boolean {
  const points = curve.line.flat();
  const first = points[0],
    last = points.at(-1);
  return first !== undefined && last !== undefined && last.y > first.y;
}
