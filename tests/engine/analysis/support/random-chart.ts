// Random charts over one to four conditions, with every form of band, and what they mean by brute force: each
// row is tried at every end, just beside each end, and between. Written apart from the program's own boxes.
import type { Chance } from "../../../support/chance.ts";

interface Band {
  readonly low: number;
  readonly lowIn: boolean;
  readonly high: number;
  readonly highIn: boolean;
}
export type Cell = "any" | Band | readonly number[];

export interface Condition {
  readonly name: string;
  /** Words, or the ends of the range and the unit that they are in. */
  readonly words?: readonly string[];
  readonly low: number;
  readonly high: number;
  readonly unit: string;
}

export interface RandomChart {
  readonly text: string;
  readonly conditions: readonly Condition[];
  readonly rows: readonly (readonly Cell[])[];
}

/** In the unit of the ask. Two ends are one within a relative 1e-9. */
const near = (a: number, b: number): boolean =>
  Number.isFinite(b) && Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));

export function fits(cell: Cell, x: number): boolean {
  if (cell === "any") return true;
  if (Array.isArray(cell)) return (cell as readonly number[]).includes(x);
  const band = cell as Band;
  const above = near(x, band.low) ? band.lowIn : x > band.low;
  const under = near(x, band.high) ? band.highIn : x < band.high;
  return above && under;
}

export const rowsAt = (chart: RandomChart, job: readonly number[]): number[] =>
  chart.rows.flatMap((row, r) => (row.every((cell, c) => fits(cell, job[c]!)) ? [r] : []));

export function randomChart(
  by: Chance,
  options: { readonly conditions?: number; readonly rows?: number } = {},
): RandomChart {
  const conditions = Array.from({ length: options.conditions ?? 1 + by.whole(4) }, (_, i): Condition => {
    const name = `asked-${"abcdefgh"[i]}`;
    if (by.odds(0.3))
      return {
        name,
        words: Array.from({ length: 2 + by.whole(3) }, (_, w) => `word-${"abcdefgh"[i]}${w}`),
        low: 0,
        high: 0,
        unit: "",
      };
    if (by.odds(0.15)) return { name, words: ["no", "yes"], low: 0, high: 0, unit: "" };
    const unit = by.pick(["mm", "inch", "°C", "%", "g", ""]);
    return { name, low: unit === "°C" ? -10 : 0, high: by.pick([10, 40]), unit };
  });
  const ends = conditions.map(({ low, high }) => [
    low,
    low + (high - low) / 4,
    low + (high - low) / 2,
    low + ((high - low) * 3) / 4,
    high,
  ]);
  const cell = (c: number): Cell => {
    const { words } = conditions[c]!;
    if (by.odds(0.2)) return "any";
    if (words !== undefined) {
      const some = words.map((_, w) => w).filter(() => by.odds(0.5));
      return some.length === 0 ? [by.whole(words.length)] : some;
    }
    const [i, j] = [by.whole(5), by.whole(5)].sort((a, b) => a - b) as [number, number];
    if (i === j)
      return by.odds(0.3)
        ? { low: ends[c]![i]!, lowIn: true, high: ends[c]![i]!, highIn: true }
        : by.odds(0.5)
          ? { low: -Infinity, lowIn: true, high: ends[c]![Math.max(1, i)]!, highIn: by.odds(0.5) }
          : { low: ends[c]![Math.min(3, i)]!, lowIn: by.odds(0.5), high: Infinity, highIn: true };
    return { low: ends[c]![i]!, lowIn: by.odds(0.6), high: ends[c]![j]!, highIn: by.odds(0.4) };
  };
  let rows: Cell[][];
  if (by.odds(0.5)) {
    // A chart cut out of the whole, so that many have no hole or one only; at times a row is lost or an end
    // is moved.
    rows = [conditions.map((): Cell => "any")];
    for (let n = 0; n < (options.rows ?? 7); n++) rows = split(by, conditions, ends, rows);
    if (by.odds(0.3) && rows.length > 1) rows.splice(by.whole(rows.length), 1);
    if (by.odds(0.3)) {
      const row = by.pick(rows);
      const c = by.whole(row.length);
      if (typeof row[c] === "object" && !Array.isArray(row[c]))
        row[c] = { ...(row[c] as Band), lowIn: by.odds(0.5), highIn: by.odds(0.5) };
    }
  } else
    rows = Array.from({ length: 1 + by.whole(options.rows ?? 7) }, () => conditions.map((_, c) => cell(c)));
  return { conditions, rows, text: written(by, conditions, rows) };
}

function split(
  by: Chance,
  conditions: readonly Condition[],
  ends: readonly (readonly number[])[],
  rows: readonly Cell[][],
): Cell[][] {
  const r = by.whole(rows.length);
  const c = by.whole(conditions.length);
  const row = rows[r]!;
  const { words } = conditions[c]!;
  const own = row[c]!;
  const put = (cell: Cell) => row.map((old, i) => (i === c ? cell : old));
  if (words !== undefined) {
    const some = own === "any" ? words.map((_, w) => w) : (own as readonly number[]);
    if (some.length < 2) return [...rows];
    const at = 1 + by.whole(some.length - 1);
    return [...rows.slice(0, r), put(some.slice(0, at)), put(some.slice(at)), ...rows.slice(r + 1)];
  }
  const band = own === "any" ? { low: -Infinity, lowIn: true, high: Infinity, highIn: true } : (own as Band);
  const inside = ends[c]!.slice(1, 4).filter((end) => end > band.low && end < band.high);
  if (inside.length === 0) return [...rows];
  const at = by.pick(inside);
  const lower = by.odds(0.5);
  return [
    ...rows.slice(0, r),
    put({ ...band, high: at, highIn: lower }),
    put({ ...band, low: at, lowIn: !lower }),
    ...rows.slice(r + 1),
  ];
}

function written(by: Chance, conditions: readonly Condition[], rows: readonly (readonly Cell[])[]): string {
  const kinds = conditions.filter((one) => one.words !== undefined && one.words[0] !== "no");
  return [
    ...kinds.map(
      (one) =>
        `kind kind-of-${one.name}` +
        `\n${one.words!.map((word) => `    ${word} "What ${word} means"`).join("\n")}`,
    ),
    ...conditions.map(
      (one) =>
        `${
          one.words === undefined
            ? `ask ${one.name} in ${one.unit || "count"}, ${one.low} to ${one.high}`
            : one.words[0] === "no"
              ? `ask ${one.name} of yes-no`
              : `ask ${one.name} of kind-of-${one.name}`
        }\n    "What is ${one.name}?"`,
    ),
    `chart chosen by ${conditions.map((one) => one.name).join(", ")} gives number`,
    `    ${[...conditions.map((one) => one.name), "chosen"].join(" | ")}`,
    ...rows.map(
      (row, r) =>
        `    ${[...row.map((cell, c) => cellText(by, cell, conditions[c]!)), String(r + 1)].join(" | ")}`,
    ),
    "    from practice",
  ].join("\n");
}

function cellText(by: Chance, cell: Cell, { words, unit }: Condition): string {
  if (cell === "any") return "any";
  if (Array.isArray(cell)) return (cell as readonly number[]).map((word) => words![word]).join(", ");
  const { low, lowIn, high, highIn } = cell as Band;
  // The same length now and then in another unit: the ends must meet all the same.
  const end = (x: number) =>
    unit === "inch" && by.odds(0.4)
      ? `${Number((x * 25.4).toFixed(6))} mm`
      : unit === "mm" && by.odds(0.2)
        ? `${Number((x / 10).toFixed(6))} cm`
        : unit === ""
          ? String(x)
          : `${x} ${unit}`;
  if (low === high) return end(low);
  if (low === -Infinity && high === Infinity) return "any";
  if (low === -Infinity) return `${highIn ? "up to" : "under"} ${end(high)}`;
  if (high === Infinity) return lowIn ? `${end(low)} and over` : `over ${end(low)}`;
  return `${lowIn ? "" : "over "}${end(low)} to ${highIn ? "" : "under "}${end(high)}`;
}

/** Every end, a little beside it, and between, for each condition; counts are whole. */
export function gridOf(chart: RandomChart): readonly (readonly number[])[] {
  return chart.conditions.map((one, c) => {
    if (one.words !== undefined) return one.words.map((_, w) => w);
    const ends = new Set([one.low, one.high]);
    for (const row of chart.rows) {
      const cell = row[c]!;
      if (typeof cell === "object" && !Array.isArray(cell))
        for (const end of [(cell as Band).low, (cell as Band).high]) if (Number.isFinite(end)) ends.add(end);
    }
    const order = [...ends].sort((a, b) => a - b);
    const all = order.flatMap((end, i) => [
      end,
      end - 1e-7 * Math.max(1, Math.abs(end)),
      end + 1e-7 * Math.max(1, Math.abs(end)),
      i + 1 < order.length ? (end + order[i + 1]!) / 2 : end,
    ]);
    return [...new Set(all)].filter((x) => x >= one.low && x <= one.high).sort((a, b) => a - b);
  });
}

/** Every combination of the numbers given for each condition. */
export function* combinations(grid: readonly (readonly number[])[]): Generator<readonly number[]> {
  const at = grid.map(() => 0);
  if (grid.some((numbers) => numbers.length === 0)) return;
  for (;;) {
    yield at.map((i, c) => grid[c]![i]!);
    let c = grid.length - 1;
    while (c >= 0 && ++at[c]! >= grid[c]!.length) at[c--] = 0;
    if (c < 0) return;
  }
}

export const answer = ({ words, unit }: Condition, x: number): string =>
  words !== undefined ? words[x]! : unit === "" ? String(x) : `${x} ${unit}`;
