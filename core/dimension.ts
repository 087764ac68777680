// What a quantity measures, as powers of six base dimensions. Six is what the trade needs: no
// electric or luminous units, and money is one more beside the physical ones so that EUR/h is a rate.

/** Powers of length, mass, time, temperature apart, amount of substance, money. */
export type Dimension = readonly [number, number, number, number, number, number];

export const ONE: Dimension = [0, 0, 0, 0, 0, 0];
export const LENGTH: Dimension = [1, 0, 0, 0, 0, 0];
export const MASS: Dimension = [0, 1, 0, 0, 0, 0];
export const TIME: Dimension = [0, 0, 1, 0, 0, 0];
export const WARMTH: Dimension = [0, 0, 0, 1, 0, 0];
export const AMOUNT: Dimension = [0, 0, 0, 0, 1, 0];
export const MONEY: Dimension = [0, 0, 0, 0, 0, 1];
export const AREA: Dimension = [2, 0, 0, 0, 0, 0];
export const VOLUME: Dimension = [3, 0, 0, 0, 0, 0];

export const times = (a: Dimension, b: Dimension): Dimension => combine(a, b, 1);
export const over = (a: Dimension, b: Dimension): Dimension => combine(a, b, -1);

/** Powers are rounded to a millionth so that a root of a square is the dimension it came from. */
export const toThe = (a: Dimension, power: number): Dimension =>
  a.map((p) => Math.round(p * power * 1e6) / 1e6) as unknown as Dimension;

export const sameDimension = (a: Dimension, b: Dimension): boolean => a.every((p, i) => p === b[i]);

export const isPlain = (a: Dimension): boolean => sameDimension(a, ONE);

export const dimensionKey = (a: Dimension): string => a.join(",");

/** "length", "mass per area", "mass · length / time2": what a person calls it. */
export function dimensionName(a: Dimension): string {
  const known = NAMES.get(dimensionKey(a));
  if (known !== undefined) return known;
  const part = (sign: 1 | -1) =>
    a.flatMap((p, i) => (p * sign > 0 ? [BASES[i]! + (p * sign === 1 ? "" : String(p * sign))] : []));
  const [up, down] = [part(1), part(-1)];
  return [up.join(" · ") || "1", ...down].join(" / ");
}

const BASES = ["length", "mass", "time", "temperature apart", "amount", "money"] as const;

const NAMES = new Map<string, string>(
  (
    [
      [ONE, "plain number"],
      [LENGTH, "length"],
      [AREA, "area"],
      [VOLUME, "volume"],
      [MASS, "mass"],
      [TIME, "time"],
      [WARMTH, "temperature apart"],
      [AMOUNT, "amount of substance"],
      [MONEY, "money"],
      [[-3, 1, 0, 0, 0, 0], "density"],
      [[-2, 1, 0, 0, 0, 0], "mass per area"],
      [[-1, 1, 0, 0, 0, 0], "mass per length"],
      [[0, 0, -1, 0, 0, 0], "rate"],
      [[1, 0, -1, 0, 0, 0], "speed"],
      [[0, 1, -1, 0, 0, 0], "mass per time"],
      [[3, 0, -1, 0, 0, 0], "volume per time"],
      [[-1, 0, 0, 0, 0, 0], "per length"],
      [[-2, 0, 0, 0, 0, 0], "per area"],
      [[1, 1, -2, 0, 0, 0], "force"],
      [[-1, 1, -2, 0, 0, 0], "pressure"],
      [[2, 1, -2, 0, 0, 0], "energy"],
      [[2, 1, -3, 0, 0, 0], "power"],
      [[2, 1, -2, 0, -1, 0], "energy per amount"],
      [[0, 0, -1, 0, 0, 1], "money per time"],
      [[0, -1, 0, 0, 0, 1], "money per mass"],
      [[-3, 0, 0, 0, 0, 1], "money per volume"],
      [[-2, 0, 0, 0, 0, 1], "money per area"],
      [[0, 0, 1, -1, 0, 0], "time per temperature apart"],
      [[0, 0, -1, 1, 0, 0], "temperature apart per time"],
      [[-2, 0, 1, 0, 0, 0], "time per area"],
      [[0, 0, 0, -1, 0, 0], "per temperature apart"],
    ] as [Dimension, string][]
  ).map(([dimension, name]) => [dimensionKey(dimension), name]),
);

function combine(a: Dimension, b: Dimension, sign: 1 | -1): Dimension {
  return [
    a[0] + sign * b[0],
    a[1] + sign * b[1],
    a[2] + sign * b[2],
    a[3] + sign * b[3],
    a[4] + sign * b[4],
    a[5] + sign * b[5],
  ];
}
