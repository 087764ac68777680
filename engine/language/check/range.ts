// The range of an ask or a dial, in SI.

export interface Range {
  readonly low: number;
  readonly high: number;
}

/** Whether a value lies outside a range by more than rounding may have made of it. */
export const isBeyond = (value: number, { low, high }: Range): boolean =>
  value < low * (low < 0 ? 1 + 1e-9 : 1 - 1e-9) - 1e-300 ||
  value > high * (high < 0 ? 1 - 1e-9 : 1 + 1e-9) + 1e-300;
