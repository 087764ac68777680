// Exact fractions, to hold the spans against: every double is one, and nothing is lost in working with them.

export interface Fraction {
  readonly top: bigint;
  /** Above nought. */
  readonly bottom: bigint;
}

/** The very number that a double is. */
export function exactly(x: number): Fraction {
  if (!Number.isFinite(x)) throw new Error(`${x} is no fraction`);
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, x);
  const bits = view.getBigInt64(0);
  const power = Number((bits >> 52n) & 0x7ffn);
  const digits = (bits & 0xfffffffffffffn) | (power === 0 ? 0n : 1n << 52n);
  const shift = (power === 0 ? 1 : power) - 1075;
  const signed = bits < 0n ? -digits : digits;
  return shift >= 0 ? fraction(signed << BigInt(shift), 1n) : fraction(signed, 1n << BigInt(-shift));
}

export function fraction(top: bigint, bottom: bigint): Fraction {
  if (bottom === 0n) throw new Error("a fraction over nought");
  // Not reduced: no chain here is long enough for that to pay.
  return bottom < 0n ? { top: -top, bottom: -bottom } : { top, bottom };
}

export const plus = (a: Fraction, b: Fraction): Fraction =>
  fraction(a.top * b.bottom + b.top * a.bottom, a.bottom * b.bottom);
export const minus = (a: Fraction, b: Fraction): Fraction =>
  fraction(a.top * b.bottom - b.top * a.bottom, a.bottom * b.bottom);
export const times = (a: Fraction, b: Fraction): Fraction => fraction(a.top * b.top, a.bottom * b.bottom);
export const over = (a: Fraction, b: Fraction): Fraction => fraction(a.top * b.bottom, a.bottom * b.top);
export const abs = (a: Fraction): Fraction => (a.top < 0n ? { top: -a.top, bottom: a.bottom } : a);

/** Below nought, nought, or above: how a stands to b. */
export const compare = (a: Fraction, b: Fraction): number => {
  const x = a.top * b.bottom - b.top * a.bottom;
  return x < 0n ? -1 : x > 0n ? 1 : 0;
};

export function toThe(a: Fraction, power: number): Fraction {
  const n = BigInt(Math.abs(power));
  return power >= 0 ? fraction(a.top ** n, a.bottom ** n) : fraction(a.bottom ** n, a.top ** n);
}

export const floor = (a: Fraction): bigint => {
  const whole = a.top / a.bottom;
  return a.top < 0n && whole * a.bottom !== a.top ? whole - 1n : whole;
};
export const whole = (n: bigint): Fraction => ({ top: n, bottom: 1n });
export const larger = (a: Fraction, b: Fraction): Fraction => (compare(a, b) >= 0 ? a : b);
