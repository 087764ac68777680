// How numbers are compared and rounded everywhere in the program. All readings of a plan
// use these few functions, so that no two of them can disagree about an edge.

/** Two values this close, relatively, are one value: a typed 1/8 inch and a typed 3.175 mm. */
export const CLOSE = 1e-9;

/**
 * A number this close to a multiple is that multiple when it is rounded. A tenth of the slack of comparisons,
 * so that "rounded up" is never below what was rounded, as comparisons see it.
 */
export const ROUND_CLOSE = 1e-10;

/** Whether two finite numbers are equal within a relative 1e-9. Zero is close to zero only. */
export const nearly = (a: number, b: number): boolean =>
  a === b || Math.abs(a - b) <= CLOSE * Math.max(Math.abs(a), Math.abs(b));

export const below = (a: number, b: number): boolean => a < b && !nearly(a, b);
export const atMost = (a: number, b: number): boolean => a <= b || nearly(a, b);

export type RoundWay = "up" | "down" | "near";

/**
 * `value` moved to a multiple of `step` (> 0). A value within a relative 1e-10 of a multiple is that
 * multiple, so that 0.1 + 0.2 rounded up to 0.1 is 0.3 and not 0.4. Halves of `near` go away from zero.
 */
export function roundTo(value: number, step: number, way: RoundWay): number {
  const count = value / step;
  const whole = Math.round(count);
  if (Math.abs(count - whole) <= ROUND_CLOSE * Math.max(1, Math.abs(count))) return whole * step;
  switch (way) {
    case "up":
      return Math.ceil(count) * step;
    case "down":
      return Math.floor(count) * step;
    case "near":
      return Math.sign(count) * Math.floor(Math.abs(count) + 0.5 + ROUND_CLOSE) * step;
  }
}

/** The next double above, for finite numbers: band ends that exclude their value are moved by one. */
export function nextUp(x: number): number {
  if (!Number.isFinite(x)) return x;
  if (x === 0) return Number.MIN_VALUE;
  VIEW.setFloat64(0, x);
  VIEW.setBigInt64(0, VIEW.getBigInt64(0) + (x > 0 ? 1n : -1n));
  return VIEW.getFloat64(0);
}

export const nextDown = (x: number): number => -nextUp(-x);

const VIEW = new DataView(new ArrayBuffer(8));

/**
 * A number for a person. A number that was written short (up to six significant digits) is shown as it was;
 * any other with four, which is what a shop can weigh or measure. No trailing noughts, no exponent between
 * 0.00001 and 1e15. `-0` reads `0`.
 */
export function writeNumber(x: number): string {
  if (x === 0) return "0";
  const size = Math.abs(x);
  const digits = nearly(x, Number(x.toPrecision(6))) ? 6 : 4;
  if (size >= 1e15 || size < 1e-5) return String(Number(x.toPrecision(digits)));
  return trim(x.toFixed(Math.min(12, Math.max(0, digits - 1 - Math.floor(Math.log10(size))))));
}

const trim = (text: string): string => (text.includes(".") ? text.replace(/\.?0+$/, "") : text);
