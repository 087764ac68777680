// The order of close calls: those at which the work stops first, and among them the nearest first.
import type { SensitivityView } from "../../core/view.ts";

/**
 * Stops first, then chosen words and lines; the nearest first within each. Another word counts as farther
 * than any measure.
 */
export function closeCallsInOrder(flips: readonly SensitivityView[]): readonly SensitivityView[] {
  return flips
    .map((flip, place) => ({ flip, place, rank: rankOf(flip), far: distanceOf(flip) }))
    .sort((a, b) => a.rank - b.rank || a.far - b.far || a.place - b.place)
    .map((one) => one.flip);
}

/** What begins to stop the work is worth more than what no longer does. */
function rankOf(flip: SensitivityView): number {
  const stops = flip.turned.filter((turn) => "line" in turn && turn.line.what === "stop");
  if (stops.some((turn) => turn.code === "holds")) return 0;
  return stops.length > 0 ? 1 : 2;
}

/** How far the answers move, as a part of the larger of the two; for several, their sum. */
export function distanceOf(flip: SensitivityView): number {
  return flip.changes.reduce((sum, { now, to }) => {
    const [from, at] = [numberIn(now), numberIn(to)];
    if (from === undefined || at === undefined) return sum + 10;
    return sum + (from === at ? 0 : Math.abs(at - from) / Math.max(Math.abs(from), Math.abs(at)));
  }, 0);
}

/** The first number as the engine writes it: `142 mm`, `1 3/8 inch`. */
function numberIn(text: string): number | undefined {
  const found = /^(-?\d+(?:\.\d+)?)(?:\s+(\d+)\/(\d+))?(?:\/(\d+))?/.exec(text);
  if (!found) return undefined;
  const [, whole, over, under, whole2] = found;
  if (whole2 !== undefined) return Number(whole) / Number(whole2);
  return Number(whole) + (over !== undefined && under !== undefined ? Number(over) / Number(under) : 0);
}
