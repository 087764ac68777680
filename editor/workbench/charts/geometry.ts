// The geometry of a chart's curve: scales, ticks, paths, gaps and steps, as numbers.
// Drawing is elsewhere.

export interface Point {
  readonly x: number;
  readonly y: number;
}
export interface Reach {
  readonly low: number;
  readonly high: number;
}

/** The least reach that holds all values; a single value gets room on both sides, no value gives 0 to 1. */
export function reachOf(values: Iterable<number>): Reach {
  let low = Infinity,
    high = -Infinity;
  for (const value of values) {
    if (!Number.isFinite(value)) continue;
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  if (low > high) return { low: 0, high: 1 };
  if (low === high) return { low: low - (Math.abs(low) || 1) / 2, high: high + (Math.abs(high) || 1) / 2 };
  return { low, high };
}

/**
 * The reach with a share of its length added on each side; one that begins at or above zero does not go below
 * it.
 */
export function withRoom({ low, high }: Reach, share: number): Reach {
  const room = (high - low) * share;
  return { low: low >= 0 ? Math.max(0, low - room) : low - room, high: high + room };
}

/** 1, 2 or 5 times a power of ten: the nearest such step not below `least`, which is above zero. */
export function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  for (const factor of [1, 2, 5, 10]) if (factor * power >= least * (1 - 1e-9)) return clean(factor * power);
  return clean(10 * power);
}

/** Round numbers within the reach, about `about` of them. */
export function ticks({ low, high }: Reach, about: number): number[] {
  const step = roundStep((high - low) / Math.max(1, about));
  const found: number[] = [];
  for (let n = Math.ceil(low / step - 1e-9); n * step <= high + step * 1e-9; n += 1)
    found.push(clean(n * step));
  return found;
}

/** A value without the dust of binary fractions. */
export const clean = (value: number): number => Number(value.toPrecision(12));

export const snap = (value: number, step: number): number => clean(Math.round(value / step) * step);

/** The number as a person writes it, to at most nine digits. */
export const written = (value: number): string => String(Number(value.toPrecision(9)));

export interface Scale {
  (value: number): number;
  back(place: number): number;
}

/** From values to places on the page; `from` and `to` are the places of the reach's ends. */
export function scale({ low, high }: Reach, from: number, to: number): Scale {
  const forward = (value: number) => from + ((value - low) / (high - low)) * (to - from);
  return Object.assign(forward, {
    back: (place: number) => low + ((place - from) / (to - from)) * (high - low),
  });
}

/** A path through points; "" for none. Places are rounded to a tenth of a unit of the page. */
export function pathThrough(points: readonly Point[], x: Scale, y: Scale): string {
  return points.map((point, i) => `${i === 0 ? "M" : "L"}${tenth(x(point.x))} ${tenth(y(point.y))}`).join("");
}

const tenth = (place: number): number => Math.round(place * 10) / 10;

/** Stretches of x between one piece of a line and the next, wider than a hair. */
export function gapsBetween(pieces: readonly (readonly Point[])[], reach: Reach): Reach[] {
  const hair = (reach.high - reach.low) * 1e-6;
  const ends = pieces
    .filter((piece) => piece.length > 0)
    .map((piece) => reachOfX(piece))
    .sort((a, b) => a.low - b.low);
  const gaps: Reach[] = [];
  let done = ends[0]?.high ?? reach.low;
  for (const { low, high } of ends.slice(1)) {
    if (low - done > hair) gaps.push({ low: done, high: low });
    done = Math.max(done, high);
  }
  return gaps;
}

function reachOfX(piece: readonly Point[]): Reach {
  let low = Infinity,
    high = -Infinity;
  for (const { x } of piece) {
    low = Math.min(low, x);
    high = Math.max(high, x);
  }
  return { low, high };
}

/** Where a step leads from the end of one level piece up or down to the next: x and the two heights. */
export function risers(
  pieces: readonly (readonly Point[])[],
  reach: Reach,
): { x: number; from: number; to: number }[] {
  const hair = (reach.high - reach.low) * 1e-6;
  const level = pieces.filter((piece) => piece.length > 0).toSorted((a, b) => a[0]!.x - b[0]!.x);
  const found: { x: number; from: number; to: number }[] = [];
  for (let i = 1; i < level.length; i += 1) {
    const end = level[i - 1]!.at(-1)!,
      start = level[i]![0]!;
    if (Math.abs(start.x - end.x) <= hair && start.y !== end.y)
      found.push({ x: start.x, from: end.y, to: start.y });
  }
  return found;
}

/**
 * Moves labels apart along one line: each keeps its order and stands at least `apart` from the next, within
 * the reach where it can.
 */
export function spread(places: readonly number[], apart: number, reach: Reach): number[] {
  const order = places.map((_, i) => i).sort((a, b) => places[a]! - places[b]! || a - b);
  const out = [...places];
  let next = -Infinity;
  for (const i of order) {
    out[i] = Math.max(out[i]!, next, reach.low);
    next = out[i]! + apart;
  }
  let before = reach.high;
  for (const i of order.reverse()) {
    out[i] = Math.min(out[i]!, before);
    before = out[i]! - apart;
  }
  return out;
}
