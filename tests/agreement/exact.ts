// One job in exact fractions. Each amount carries a bound on what a reckoning in doubles may be off by; a
// comparison or a rounding that such an error, or the slack of the language, could turn is too close to call
// and comes out undefined.
import {
  type Fraction,
  compare,
  floor,
  fraction,
  minus,
  over,
  plus,
  times,
  whole,
} from "../engine/analysis/support/fraction.ts";
import type { Domain } from "./domain.ts";
import type { RoundWay } from "./syntax.ts";

interface Approximate {
  readonly at: Fraction;
  readonly off: number;
}
/** Undefined: too close to call, or resting on what is. */
export type ExactTruth = boolean | undefined;
export type ExactAmount = Approximate | undefined;

/** Relative slack of comparisons and of rounding, as the reference has them, with room on both sides. */
const COMPARED = 1e-9;
const ROUNDED = 1e-10;
const [SURELY_IN, SURELY_OUT] = [0.9, 1.1];
/**
 * What one operation in doubles may be off by, relatively; generous, since units are converted on the way.
 */
const DOUBLE = 4 * Number.EPSILON;

const MANY_BITS = 1n << 80n;

/** Fractions are shortened once they grow long. */
function short(a: Fraction): Fraction {
  if (a.bottom < MANY_BITS) return a;
  let [x, y] = [a.top < 0n ? -a.top : a.top, a.bottom];
  while (y !== 0n) [x, y] = [y, x % y];
  return fraction(a.top / x, a.bottom / x);
}

/** The double nearest to a fraction, good enough for bounds. */
export function asNumber({ top, bottom }: Fraction): number {
  const direct = Number(top) / Number(bottom);
  if (Number.isFinite(direct)) return direct;
  const size = 10n ** 30n;
  return Number((top * size) / bottom) / 1e30;
}

const sized = (at: Fraction, off: number): Approximate => ({
  at: short(at),
  off: off + Math.abs(asNumber(at)) * DOUBLE,
});
const both = (
  a: ExactAmount,
  b: ExactAmount,
  give: (a: Approximate, b: Approximate) => ExactAmount,
): ExactAmount => (a === undefined || b === undefined ? undefined : give(a, b));

/** -1, 0 or 1 as comparisons take it; undefined where it is too close to call. */
function order(a: ExactAmount, b: ExactAmount): -1 | 0 | 1 | undefined {
  if (a === undefined || b === undefined) return undefined;
  const apart = Math.abs(asNumber(minus(a.at, b.at)));
  const size = Math.max(Math.abs(asNumber(a.at)), Math.abs(asNumber(b.at)));
  const off = a.off + b.off;
  if (apart + off <= SURELY_IN * COMPARED * size || (apart === 0 && off === 0)) return 0;
  if (apart - off < SURELY_OUT * COMPARED * size || apart <= off) return undefined;
  return compare(a.at, b.at) < 0 ? -1 : 1;
}

function rounded(a: ExactAmount, way: RoundWay, step: Fraction): ExactAmount {
  if (a === undefined) return undefined;
  const count = over(a.at, step);
  const size = asNumber(step);
  const nearest = floor(plus(count, fraction(1n, 2n)));
  const apart = Math.abs(asNumber(minus(count, whole(nearest))));
  const off = a.off / size + Math.abs(asNumber(count)) * DOUBLE;
  const slack = ROUNDED * Math.max(1, Math.abs(asNumber(count)));
  const multiple = (n: bigint) => sized(times(whole(n), step), 0);
  if (apart + off <= SURELY_IN * slack) return multiple(nearest);
  if (apart - off < SURELY_OUT * slack) return undefined;
  const below = floor(count);
  if (way !== "near") return multiple(way === "up" ? below + 1n : below);
  const half = Math.abs(asNumber(minus(minus(count, whole(below)), fraction(1n, 2n))));
  if (half !== 0 && half <= off + SURELY_OUT * ROUNDED * Math.max(1, size)) return undefined;
  // Halves go away from zero; within the slack they still do.
  if (half === 0) return multiple(count.top < 0n ? below : below + 1n);
  return multiple(nearest);
}

function all(parts: readonly ExactTruth[]): ExactTruth {
  if (parts.some((one) => one === false)) return false;
  return parts.some((one) => one === undefined) ? undefined : true;
}
const negated = (a: ExactTruth): ExactTruth => (a === undefined ? undefined : !a);

const sameAmount = (a: ExactAmount, b: ExactAmount): ExactAmount =>
  a !== undefined && b !== undefined && compare(a.at, b.at) === 0
    ? { at: a.at, off: Math.max(a.off, b.off) }
    : undefined;

function zero(a: ExactAmount): ExactTruth {
  if (a === undefined) return undefined;
  if (a.at.top === 0n && a.off === 0) return true;
  return Math.abs(asNumber(a.at)) > a.off ? false : undefined;
}

export const exact: Domain<ExactTruth, ExactAmount> = {
  yes: true,
  no: false,
  and: (...parts) => all(parts),
  or: (...parts) => negated(all(parts.map(negated))),
  not: negated,
  pickTruth: (when, yes, no) => (when === undefined ? (yes === no ? yes : undefined) : when ? yes : no),
  number: (value) => sized(value, 0),
  word: (at) => ({ at: whole(BigInt(at)), off: 0 }),
  add: (a, b) => both(a, b, (x, y) => sized(plus(x.at, y.at), x.off + y.off)),
  subtract: (a, b) => both(a, b, (x, y) => sized(minus(x.at, y.at), x.off + y.off)),
  multiply: (a, b) =>
    both(a, b, (x, y) => {
      const [sx, sy] = [Math.abs(asNumber(x.at)), Math.abs(asNumber(y.at))];
      return sized(times(x.at, y.at), x.off * (sy + y.off) + y.off * sx);
    }),
  divide: (a, b) =>
    both(a, b, (x, y) => {
      if (y.at.top === 0n) return { at: whole(0n), off: 0 };
      const size = Math.abs(asNumber(y.at));
      if (size <= 2 * y.off) return undefined;
      const at = over(x.at, y.at);
      return sized(at, (x.off + Math.abs(asNumber(at)) * y.off) / (size - y.off));
    }),
  isZero: zero,
  below: (a, b) => {
    const is = order(a, b);
    return is === undefined ? undefined : is < 0;
  },
  same: (a, b) => {
    const is = order(a, b);
    return is === undefined ? undefined : is === 0;
  },
  extreme: (does, a, b) =>
    both(a, b, (x, y) => ({
      at: compare(x.at, y.at) >= 0 === (does === "largest") ? x.at : y.at,
      off: Math.max(x.off, y.off),
    })),
  round: rounded,
  pick: (when, yes, no) => (when === undefined ? sameAmount(yes, no) : when ? yes : no),
};
