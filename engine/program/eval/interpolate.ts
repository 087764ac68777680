// Interpolation between the points of a chart: along straight lines, or along a curve that never overshoots
// its points. The curve is M. Steffen, "A simple method for monotonic interpolation in one dimension",
// Astronomy and Astrophysics 239 (1990) 443-450: a cubic for each stretch whose slopes keep it monotone
// wherever the points are. Over two numbers the chart is interpolated along the second first, then along the
// first.
import { CLOSE, nearly } from "../../../core/number.ts";
import type { InterpolationTable } from "../plan/op.ts";
import { type Frame, IMPOSSIBLE, UNKNOWN, isKnown } from "./frame.ts";

export function interpolate(
  frame: Frame,
  table: InterpolationTable,
  picked: number,
  register: number,
): number {
  const { num } = frame;
  const { axes } = table;
  const [first, second] = [num[axes[0]!]!, axes.length > 1 ? num[axes[1]!]! : 0];
  const which = picked >= 0 ? num[picked]! : 0;
  if (first !== first || second !== second || which !== which) return open(frame, table, picked, register);
  const { xs, ys, values } = table.groups[which]!;
  const x = fitTo(xs, first, table.hold);
  const y = axes.length > 1 ? fitTo(ys, second, table.hold) : 0;
  if (x !== x || y !== y) return off(frame, table, register);
  if (scratch.length < values.length) scratch = new Float64Array(2 * values.length);
  for (let i = 0; i < values.length; i++) {
    const value = num[values[i]!]!;
    if (value !== value) {
      frame.state[register] = frame.state[values[i]!]!;
      frame.cause[register] = frame.cause[values[i]!]!;
      return Number.NaN;
    }
    scratch[i] = value;
  }
  const line = table.curve ? curveAt : straightAt;
  const width = ys.length;
  if (width === 1) return line(xs, scratch, x);
  const along = Array.from(xs, (_, i) => line(ys, scratch.subarray(i * width, (i + 1) * width), y));
  return line(xs, along, x);
}

/** The values of one group, read from their registers. One chart is interpolated at a time. */
let scratch = new Float64Array(64);

/** The written rows of the points that a known value was interpolated between, for the trace. */
export function pointsUsed({ num }: Frame, table: InterpolationTable, picked: number): readonly number[] {
  const { xs, ys, written } = table.groups[picked >= 0 ? num[picked]! : 0]!;
  const x = fitTo(xs, num[table.axes[0]!]!, table.hold);
  const y = table.axes.length > 1 ? fitTo(ys, num[table.axes[1]!]!, table.hold) : 0;
  return neighbours(xs, x).flatMap((i) =>
    ys.length === 1 ? [written[i]!] : neighbours(ys, y).map((j) => written[i * ys.length + j]!),
  );
}

/**
 * A number that is interpolated over, or the group, has no value: the first of them says whether the chart
 * waits or is impossible.
 */
function open(frame: Frame, table: InterpolationTable, picked: number, register: number): number {
  for (const axis of [...table.axes, ...(picked >= 0 ? [picked] : [])]) {
    if (isKnown(frame, axis)) continue;
    frame.state[register] = frame.state[axis] === IMPOSSIBLE ? IMPOSSIBLE : UNKNOWN;
    frame.cause[register] = frame.cause[axis]!;
    break;
  }
  return Number.NaN;
}

/** The number itself, an end if it is at it or ends are held, or NaN when it lies outside. */
function fitTo(points: Float64Array, x: number, hold: boolean): number {
  const first = points[0]!;
  const last = points[points.length - 1]!;
  if (x < first) return hold || nearly(x, first) ? first : Number.NaN;
  if (x > last) return hold || nearly(x, last) ? last : Number.NaN;
  return x;
}

function off(frame: Frame, table: InterpolationTable, register: number): number {
  frame.state[register] = IMPOSSIBLE;
  frame.cause[register] = register;
  frame.reasons.set(register, { code: "off-chart", chart: table.name });
  return Number.NaN;
}

/** The stretch in which x lies. */
function stretchOf(points: ArrayLike<number>, x: number): number {
  let low = 0;
  let high = points.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (points[middle]! <= x) low = middle;
    else high = middle - 1;
  }
  return low;
}

const neighbours = (points: Float64Array, x: number): readonly number[] => {
  const i = stretchOf(points, x);
  if (points.length === 1 || Math.abs(x - points[i]!) <= CLOSE * Math.abs(x)) return [i];
  return Math.abs(x - points[i + 1]!) <= CLOSE * Math.abs(x) ? [i + 1] : [i, i + 1];
};

/** Straight lines between the points; exact at each of them. Points rise. */
export function straightAt(xs: ArrayLike<number>, ys: ArrayLike<number>, x: number): number {
  if (xs.length === 1) return ys[0]!;
  const i = stretchOf(xs, x);
  const share = (x - xs[i]!) / (xs[i + 1]! - xs[i]!);
  return share === 1 ? ys[i + 1]! : ys[i]! + (ys[i + 1]! - ys[i]!) * share;
}

/** Steffen's cubic between the points; exact at each, and never beyond its two neighbours. Points rise. */
export function curveAt(xs: ArrayLike<number>, ys: ArrayLike<number>, x: number): number {
  if (xs.length < 3) return straightAt(xs, ys, x);
  const i = stretchOf(xs, x);
  const h = xs[i + 1]! - xs[i]!;
  const s = (ys[i + 1]! - ys[i]!) / h;
  const [left, right] = [slopeAt(xs, ys, i), slopeAt(xs, ys, i + 1)];
  const t = x - xs[i]!;
  return (
    (((left + right - 2 * s) / (h * h)) * t + (3 * s - 2 * left - right) / h) * t * t + left * t + ys[i]!
  );
}

function slopeAt(xs: ArrayLike<number>, ys: ArrayLike<number>, i: number): number {
  const last = xs.length - 1;
  const h = (j: number) => xs[j + 1]! - xs[j]!;
  const s = (j: number) => (ys[j + 1]! - ys[j]!) / h(j);
  if (i === 0 || i === last) {
    // At an end: the parabola through the three points there, held to twice the slope of the end stretch.
    const [near, next] = i === 0 ? [0, 1] : [last - 1, last - 2];
    const p = s(near) * (1 + h(near) / (h(near) + h(next))) - s(next) * (h(near) / (h(near) + h(next)));
    if (p * s(near) <= 0) return 0;
    return Math.abs(p) > 2 * Math.abs(s(near)) ? 2 * s(near) : p;
  }
  const [before, after] = [s(i - 1), s(i)];
  const p = (before * h(i) + after * h(i - 1)) / (h(i - 1) + h(i));
  return (
    (Math.sign(before) + Math.sign(after)) * Math.min(Math.abs(before), Math.abs(after), 0.5 * Math.abs(p))
  );
}
