// Random rules, made for what they are to give: an amount of a power, a word of a kind, or a truth.
import { type Fraction, fraction, whole } from "../engine/analysis/support/fraction.ts";
import type { Chance } from "../support/chance.ts";
import type { Amount, Band, Kind, Order, Power, RoundWay, Truth } from "./syntax.ts";

export type Level = 1 | 2 | 3;

/** What rules below may use, and how much they may do. */
export interface Maker {
  readonly by: Chance;
  readonly level: Level;
  readonly kinds: readonly Kind[];
  readonly amounts: { readonly name: string; readonly power: Power }[];
  readonly words: { readonly name: string; readonly kind: Kind }[];
  readonly truths: string[];
  /** Names that can be unknown, for `is known`. */
  readonly asks: string[];
  readonly formulas: {
    readonly name: string;
    readonly takes: readonly { readonly name: string; readonly power: Power }[];
    readonly power: Power;
  }[];
  readonly lists: {
    readonly name: string;
    readonly columns: readonly { readonly name: string; readonly power: Power }[];
  }[];
  readonly kept: { readonly name: string; readonly kind: Kind }[];
}

const GRID: Readonly<Record<Power, readonly number[]>> = {
  0: [0.5, 1, 1.5, 2, 3, 4],
  1: [0.5, 1, 2, 3, 5, 8, 10, 12.5, 20, 25],
  2: [4, 10, 25, 40, 100, 150],
};

export const half = (x: number): Fraction => fraction(BigInt(Math.round(x * 4)), 4n);
export const literal = (by: Chance, power: Power): Amount => ({
  is: "number",
  value: half(by.pick(GRID[power])),
  power,
});
const name = (of: string): Amount => ({ is: "name", name: of });
const plain = (x: number): Amount => ({ is: "number", value: half(x), power: 0 });

export function amount(maker: Maker, power: Power, depth: number): Amount {
  const { by, level } = maker;
  const own = maker.amounts.filter((one) => one.power === power);
  if (depth === 0 || by.odds(0.15))
    return own.length > 0 && by.odds(0.85) ? name(by.pick(own).name) : literal(by, power);
  const less = (of: Power = power): Amount => amount(maker, of, depth - 1);
  const arithmetic = (does: "+" | "-" | "*" | "/", a: Amount, b: Amount): Amount => ({
    is: "arithmetic",
    does,
    a,
    b,
  });
  const forms: (() => Amount)[] = [
    () => arithmetic("+", less(), less()),
    () => arithmetic("-", less(), less()),
    () => arithmetic("*", plain(by.pick([0.5, 1.5, 2, 3])), less()),
    () => arithmetic("/", less(), plain(by.pick([2, 4]))),
    () => ({ is: "extreme", does: by.pick(["largest", "smallest"] as const), a: less(), b: less() }),
    () => choose(maker, () => less()),
  ];
  if (level >= 2)
    forms.push(
      () => rounding(maker, less(), power),
      () => rounding(maker, less(), power),
      () => ({ is: "abs", a: less() }),
    );
  if (level >= 3) forms.push(...hardForms(maker, power, less));
  return by.pick(forms)();
}

function hardForms(maker: Maker, power: Power, less: (of?: Power) => Amount): (() => Amount)[] {
  const { by } = maker;
  const forms: (() => Amount)[] = [() => rounding(maker, rounding(maker, less(), power), power)];
  if (power === 2) forms.push(() => ({ is: "arithmetic", does: "*", a: less(1), b: less(1) }));
  if (power === 1) {
    forms.push(() => ({ is: "arithmetic", does: "*", a: rounding(maker, less(0), 0), b: less(1) }));
    forms.push(() => ({
      is: "arithmetic",
      does: "/",
      a: less(2),
      b: { is: "arithmetic", does: "+", a: less(1), b: literal(by, 1) },
    }));
  }
  if (power === 0) forms.push(() => ({ is: "arithmetic", does: "/", a: less(1), b: less(1) }));
  const formulas = maker.formulas.filter((one) => one.power === power);
  if (formulas.length > 0)
    forms.push(() => {
      const one = by.pick(formulas);
      return { is: "call", formula: one.name, given: one.takes.map((each) => less(each.power)) };
    });
  const lists = maker.lists.filter((one) => one.columns.some((column) => column.power === power));
  if (lists.length > 0) {
    forms.push(() => {
      const list = by.pick(lists);
      const column = by.pick(list.columns.filter((one) => one.power === power));
      return {
        is: "gather",
        what: by.pick(["sum", "sum", "largest", "smallest", "first", "last"] as const),
        list: list.name,
        column: column.name,
      };
    });
  }
  return forms;
}

export function rounding(maker: Maker, a: Amount, power: Power): Amount {
  const way: RoundWay = maker.by.pick(["up", "up", "down", "near"] as const);
  const step = maker.by.pick(power === 0 ? [0.5, 1, 2] : power === 1 ? [0.5, 1, 2, 5, 10] : [10, 25]);
  return { is: "round", way, a, step: half(step), power };
}

export function choose(maker: Maker, value: () => Amount): Amount {
  const cases = Array.from({ length: 1 + maker.by.whole(2) }, () => ({
    when: truth(maker, 1),
    value: value(),
  }));
  return { is: "choose", cases, otherwise: value() };
}

export function word(maker: Maker, kind: Kind, depth: number): Amount {
  const { by } = maker;
  const own = maker.words.filter((one) => one.kind === kind);
  if (depth > 0 && by.odds(0.6)) return choose(maker, () => word(maker, kind, depth - 1));
  const kept = maker.kept.filter((one) => one.kind === kind);
  if (kept.length > 0 && by.odds(0.4)) return { is: "kept", what: "first", chart: by.pick(kept).name };
  return own.length > 0 && by.odds(0.7)
    ? name(by.pick(own).name)
    : { is: "word", kind, at: by.whole(kind.words.length) };
}

const ORDERS: readonly Order[] = ["<", "<=", ">", ">=", "<", "<=", ">", ">=", "is", "is not"];

export function truth(maker: Maker, depth: number): Truth {
  const { by, level } = maker;
  if (depth > 0 && by.odds(0.35)) {
    const less = () => truth(maker, depth - 1);
    return by.pick<() => Truth>([
      () => ({ is: "both", a: less(), b: less() }),
      () => ({ is: "either", a: less(), b: less() }),
      () => ({ is: "not", a: less() }),
    ])();
  }
  const power = by.pick(level === 3 ? ([0, 1, 1, 1, 2] as const) : ([0, 1, 1, 1] as const));
  const some = () => amount(maker, power, by.whole(2));
  const forms: (() => Truth)[] = [
    () => ({ is: "compare", does: by.pick(ORDERS), a: some(), b: literal(by, power) }),
    () => ({ is: "compare", does: by.pick(ORDERS), a: some(), b: some() }),
  ];
  if (maker.truths.length > 0) forms.push(() => ({ is: "name", name: by.pick(maker.truths) }));
  if (maker.words.length > 0)
    forms.push(
      () => wordTruth(maker),
      () => wordTruth(maker),
    );
  if (level >= 2) {
    forms.push(() => ({ is: "band", of: some(), band: band(by, power), power }));
    if (maker.asks.length > 0) forms.push(() => ({ is: "known", name: by.pick(maker.asks) }));
  }
  if (maker.kept.length > 0) {
    forms.push(() => {
      const kept = by.pick(maker.kept);
      if (by.odds(0.5))
        return { is: "among", chart: kept.name, kind: kept.kind, at: by.whole(kept.kind.words.length) };
      return {
        is: "compare",
        does: by.pick(ORDERS),
        a: { is: "kept", what: "count", chart: kept.name },
        b: { is: "number", value: whole(BigInt(1 + by.whole(3))), power: 0 },
      };
    });
  }
  return by.pick(forms)();
}

function wordTruth({ by, words, level }: Maker): Truth {
  const one = by.pick(words);
  const some = one.kind.words.map((_, at) => at).filter(() => by.odds(level >= 2 ? 0.5 : 0.3));
  return {
    is: "words",
    of: name(one.name),
    kind: one.kind,
    words: some.length === 0 ? [by.whole(one.kind.words.length)] : some,
  };
}

export function band(by: Chance, power: Power): Band {
  const [a, b] = [by.pick(GRID[power]), by.pick(GRID[power])].sort((x, y) => x - y) as [number, number];
  const low = { value: half(a), included: by.odds(0.6) };
  const high = { value: half(a === b ? b + 2 : b), included: by.odds(0.4) };
  return by.pick<Band>([{ low, high }, { low }, { high }, { low, high }]);
}
