// Random charts: whole ones cut out of everything, ones with holes over a figure, ones whose rows clash,
// keys, and lines.
import type { Chance } from "../support/chance.ts";
import { type Maker, amount, band, half, literal } from "./random-rules.ts";
import type { Amount, Band, Cell, Chart, Condition, Kind, Line, Power, Sort } from "./syntax.ts";

/** What a chart may be looked up by. */
function condition(maker: Maker): Condition {
  const { by } = maker;
  const forms: (() => Condition)[] = [
    () => {
      const one = by.pick(maker.amounts);
      return { name: one.name, sort: { power: one.power } };
    },
  ];
  if (maker.words.length > 0)
    forms.push(() => {
      const one = by.pick(maker.words);
      return { name: one.name, sort: { kind: one.kind } };
    });
  if (maker.truths.length > 0) forms.push(() => ({ name: by.pick(maker.truths), sort: "truth" }));
  return by.pick(forms)();
}

function conditions(maker: Maker, most: number): Condition[] {
  const found: Condition[] = [];
  for (let i = 0; i < 1 + maker.by.whole(most); i++) {
    const one = condition(maker);
    if (!found.some((other) => other.name === one.name)) found.push(one);
  }
  return found;
}

const wordsOf = (sort: Condition["sort"]): number =>
  sort === "truth" ? 2 : "kind" in sort ? sort.kind.words.length : 0;
const powerOf = (sort: Condition["sort"]): Power => (sort !== "truth" && "power" in sort ? sort.power : 0);
const CUTS: Readonly<Record<Power, readonly number[]>> = {
  0: [1, 2, 4, 8],
  1: [2, 3, 5, 8, 12.5, 20, 30],
  2: [10, 40, 100, 400],
};

/** Rows that share everything out among them: one row is cut in two, again and again. */
function sharedOut(by: Chance, over: readonly Condition[], times: number): Cell[][] {
  let rows: Cell[][] = [over.map((): Cell => ({ is: "any" }))];
  for (let i = 0; i < times; i++) {
    const r = by.whole(rows.length);
    const c = by.whole(over.length);
    const cut = twoOf(by, rows[r]![c]!, over[c]!);
    if (cut === undefined) continue;
    rows = rows.flatMap((row, at) =>
      at === r ? cut.map((cell) => row.map((old, j) => (j === c ? cell : old))) : [row],
    );
  }
  return rows;
}

function twoOf(by: Chance, cell: Cell, { sort }: Condition): readonly [Cell, Cell] | undefined {
  const count = wordsOf(sort);
  if (count > 0) {
    const words = cell.is === "words" ? cell.words : Array.from({ length: count }, (_, at) => at);
    if (words.length < 2) return undefined;
    const at = 1 + by.whole(words.length - 1);
    return [
      { is: "words", words: words.slice(0, at) },
      { is: "words", words: words.slice(at) },
    ];
  }
  const own: Band = cell.is === "band" ? cell.band : {};
  const ends = [own.low, own.high].flatMap((end) =>
    end === undefined ? [] : [Number(end.value.top) / Number(end.value.bottom)],
  );
  const inside = CUTS[powerOf(sort)].filter(
    (x) => (own.low === undefined || x > ends[0]!) && (own.high === undefined || x < ends.at(-1)!),
  );
  if (inside.length === 0) return undefined;
  const value = half(by.pick(inside));
  const included = by.odds(0.5);
  return [
    { is: "band", band: { ...own, high: { value, included } } },
    { is: "band", band: { ...own, low: { value, included: !included } } },
  ];
}

const given = (sort: Sort): { readonly power: Power } | { readonly kind: Kind } => sort;

function values(maker: Maker, gives: Sort, rows: readonly (readonly Cell[])[]): Chart["rows"] {
  const { by } = maker;
  const value = (): Amount => {
    if ("kind" in gives) return { is: "word", kind: gives.kind, at: by.whole(gives.kind.words.length) };
    return by.odds(0.75) ? literal(by, gives.power) : amount(maker, gives.power, 1);
  };
  return rows.map((cells) => ({ cells, value: value() }));
}

/** A chart that reads one row and has one for every job. */
export function wholeChart(maker: Maker, name: string, gives: Sort): Chart {
  const { by } = maker;
  const over = conditions(maker, 2);
  let rows = sharedOut(by, over, 1 + by.whole(4));
  const first = by.odds(0.35);
  // Where the first row wins, rows may lie over others; the last takes what is left.
  if (first)
    rows = [
      ...rows.slice(0, -1).map((row) => row.map((cell): Cell => (by.odds(0.2) ? { is: "any" } : cell))),
      over.map((): Cell => ({ is: "any" })),
    ];
  return {
    is: "chart",
    name,
    by: over,
    gives: given(gives),
    mode: first ? "first" : "one",
    rows: values(maker, gives, rows),
    whole: true,
  };
}

/** A chart over one figure that leaves some of its values without a row; its rows all give something else. */
export function chartWithHole(
  maker: Maker,
  name: string,
  over: { readonly name: string; readonly power: Power },
): Chart {
  const { by } = maker;
  const condition_: Condition = { name: over.name, sort: { power: over.power } };
  const rows = sharedOut(by, [condition_], 3 + by.whole(2));
  rows.splice(by.whole(rows.length), 1);
  const gives: Sort = { power: 1 };
  const row = (cells: readonly Cell[], r: number) => ({
    cells,
    value: { is: "number", value: half(2 + 3 * r), power: 1 } as const,
  });
  return { is: "chart", name, by: [condition_], gives, mode: "one", rows: rows.map(row), whole: false };
}

/** A chart over one figure in which two rows fit some of its values, and say different things. */
export function chartWithClash(
  maker: Maker,
  name: string,
  over: { readonly name: string; readonly power: Power },
): Chart {
  const { by } = maker;
  const at = by.pick(CUTS[over.power]);
  const under = half(at + (over.power === 2 ? 5 : 1));
  const row = (one: Band, y: number) => ({
    cells: [{ is: "band", band: one } as const],
    value: { is: "number", value: half(y), power: 1 } as const,
  });
  const rows = [
    row({ high: { value: under, included: false } }, 24),
    row({ low: { value: half(at), included: true } }, 8),
  ];
  return {
    is: "chart",
    name,
    by: [{ name: over.name, sort: { power: over.power } }],
    gives: { power: 1 },
    mode: "one",
    rows,
    whole: true,
  };
}

/** A key: rows with words, some of which fit much. Unless it may be `emptied`, one row of it always fits. */
export function keyChart(maker: Maker, name: string, kind: Kind, emptied: boolean): Chart | undefined {
  const { by } = maker;
  const over = conditions(maker, 3);
  const cell = (one: Condition): Cell => {
    if (by.odds(0.3)) return { is: "any" };
    const count = wordsOf(one.sort);
    if (count === 0) return { is: "band", band: band(by, powerOf(one.sort)) };
    return { is: "words", words: [by.whole(count)] };
  };
  const rows = Array.from({ length: 2 + by.whole(3) }, () => over.map(cell));
  if (!emptied) rows.push(over.map((): Cell => ({ is: "any" })));
  return {
    is: "chart",
    name,
    by: over,
    gives: { kind },
    mode: "keep",
    rows: values(maker, { kind }, rows),
    whole: true,
  };
}

/** Points over an amount, read straight between them. */
export function lineChart(maker: Maker, name: string, power: Power): Line {
  const { by } = maker;
  const over = by.pick(maker.amounts.filter((one) => one.power < 2));
  const count = 2 + by.whole(3);
  const from = by.pick([0, 1, 2]);
  const wide = by.pick([2, 4, 10]);
  const points = Array.from({ length: count }, (_, i) => ({
    x: half(from + i * wide),
    y: half(1 + by.whole(40) / 2 + i / 4),
  }));
  return {
    is: "between",
    name,
    by: { name: over.name, sort: { power: over.power } },
    gives: { power },
    points,
    hold: by.odds(0.7),
  };
}
