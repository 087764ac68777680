// Random small books, at three levels of difficulty: 1 arithmetic, comparisons and words; 2 charts,
// roundings, stops, what is known; 3 lists, formulas, keys, products, chains of roundings and lines between
// points.
import { type Fraction, fraction, whole } from "../engine/analysis/support/fraction.ts";
import { type Chance, chance } from "../support/chance.ts";
import { chartWithClash, chartWithHole, keyChart, lineChart, wholeChart } from "./random-charts.ts";
import { promises } from "./random-promises.ts";
import {
  type Level,
  type Maker,
  amount,
  choose,
  half,
  literal,
  rounding,
  truth,
  word,
} from "./random-rules.ts";
import type { Amount, Ask, Kind, List, Power, SmallBook, Sort, Statement } from "./syntax.ts";

/** What a book may have in it beside the usual: each is the subject of a section. */
export interface Wants {
  readonly clash?: boolean;
  readonly emptied?: boolean;
  readonly outside?: boolean;
  readonly slack?: boolean;
}

const WORDS = [
  ["mat", "cloth", "tape"],
  ["dry", "damp", "wet", "soaked"],
  ["red", "blue"],
];

export function randomSmall(seed: number, level: Level, wants: Wants = {}): SmallBook {
  const by = chance(seed * 4 + level);
  const kinds = WORDS.slice(0, 1 + by.whole(2)).map((words, i): Kind => ({ name: `sort-${i}`, words }));
  const maker: Maker = {
    by,
    level,
    kinds,
    amounts: [],
    words: [],
    truths: [],
    asks: [],
    formulas: [],
    lists: [],
    kept: [],
  };
  const statements: Statement[] = [];
  for (let i = 0; i < 2 + by.whole(3); i++) statements.push(ask(maker, `ask-${i}`, i === 0, wants));
  if (by.odds(0.4)) statements.push(dial(maker));
  for (let i = 0; i < 2 + by.whole(3); i++) statements.push(...valued(maker, i, wants));
  if (wants.clash) statements.push(clash(maker));
  if (wants.slack) statements.push(...beside(maker));
  statements.push(...lines(maker));
  return { kinds, statements: [...statements, ...promises(maker, { kinds, statements })] };
}

/** What an ask adds to the names that rules below may use. */
function joins(maker: Maker, { name, answered }: Ask): void {
  switch (answered.is) {
    case "kind":
      maker.words.push({ name, kind: answered.kind });
      break;
    case "truth":
      maker.truths.push(name);
      break;
    case "count":
      maker.amounts.push({ name, power: 0 });
      break;
    case "length":
      maker.amounts.push({ name, power: 1 });
      break;
  }
  maker.asks.push(name);
}

function ask(maker: Maker, name: string, length: boolean, wants: Wants): Ask {
  const { by } = maker;
  const answered = length
    ? lengthAsked(by)
    : by.pick<() => Ask["answered"]>([
        () => lengthAsked(by),
        () => lengthAsked(by),
        () => ({ is: "kind", kind: by.pick(maker.kinds) }),
        () => ({ is: "truth" }),
        () => ({ is: "count", low: whole(BigInt(by.whole(2))), high: whole(BigInt(3 + by.whole(4))) }),
      ])();
  const made: Ask = { is: "ask", name, answered };
  const takes = maker.level >= 2 && by.odds(0.4) ? taken(maker, made, wants) : undefined;
  joins(maker, made);
  return takes === undefined ? made : { ...made, take: takes };
}

const lengthAsked = (by: Chance): Ask["answered"] =>
  by.odds(0.15)
    ? { is: "length", unit: "inch", low: whole(0n), high: whole(BigInt(by.pick([1, 2]))) }
    : {
        is: "length",
        unit: "mm",
        low: whole(BigInt(by.pick([0, 1, 2]))),
        high: whole(BigInt(by.pick([10, 25, 40]))),
      };

/** What is taken where one cannot tell: within the range of the ask, unless a rule may lead `outside`. */
function taken(maker: Maker, { answered }: Ask, wants: Wants): NonNullable<Ask["take"]> {
  const { by } = maker;
  switch (answered.is) {
    case "kind":
      return { amount: word(maker, answered.kind, 1) };
    case "truth":
      return {
        truth:
          maker.amounts.length > 0 && by.odds(0.4) ? truth(maker, 0) : { is: "truth", value: by.odds(0.5) },
      };
    case "count":
      return { amount: { is: "number", value: answered.high, power: 0 } };
    case "length": {
      if (wants.outside && maker.amounts.some((one) => one.power === 1))
        return { amount: amount(maker, 1, 1) };
      if (answered.unit === "inch") return { amount: { is: "number", value: half(12.5), power: 1 } };
      const inside: Amount = { is: "number", value: answered.high, power: 1 };
      if (by.odds(0.5)) return { amount: inside };
      return { amount: choose(maker, () => ({ is: "number", value: half(2 + by.whole(8)), power: 1 })) };
    }
  }
}

function dial(maker: Maker): Statement {
  const power = maker.by.pick([0, 1] as const);
  const value = half(maker.by.pick([1.5, 2, 3, 7.5]));
  maker.amounts.push({ name: "dial-0", power });
  return { is: "dial", name: "dial-0", value, power };
}

function valued(maker: Maker, i: number, wants: Wants): Statement[] {
  const { by, level } = maker;
  const forms = [() => figure(maker, i), () => figure(maker, i), () => decided(maker, i)];
  if (level >= 2)
    forms.push(
      () => chart(maker, i),
      () => chart(maker, i),
      () => figure(maker, i),
      () => hole(maker, i),
    );
  if (level >= 3)
    forms.push(
      () => list(maker, i),
      () => key(maker, i, wants),
      () => line(maker, i),
      () => formula(maker, i),
    );
  return by.pick(forms)();
}

function figure(maker: Maker, i: number): Statement[] {
  const { by, level } = maker;
  const name = `figure-${i}`;
  if (by.odds(0.2)) {
    const kind = by.pick(maker.kinds);
    const rule = choose(maker, () => word(maker, kind, 0));
    maker.words.push({ name, kind });
    return [{ is: "figure", name, sort: { kind }, rule }];
  }
  const power = by.pick(level === 3 ? ([0, 1, 1, 2] as const) : ([0, 1, 1, 1] as const));
  const rule = by.odds(0.3)
    ? choose(maker, () => amount(maker, power, 1))
    : amount(maker, power, 1 + by.whole(2));
  maker.amounts.push({ name, power });
  return [{ is: "figure", name, sort: { power }, rule }];
}

function decided(maker: Maker, i: number): Statement[] {
  const rule = truth(maker, 2);
  maker.truths.push(`decided-${i}`);
  return [{ is: "decided", name: `decided-${i}`, rule }];
}

function chart(maker: Maker, i: number): Statement[] {
  const { by } = maker;
  const kind = by.odds(0.3) ? by.pick(maker.kinds) : undefined;
  const gives: Sort = kind ? { kind } : { power: by.pick([0, 1, 1] as const) };
  const made = wholeChart(maker, `chart-${i}`, gives);
  if ("kind" in gives) maker.words.push({ name: made.name, kind: gives.kind });
  else maker.amounts.push({ name: made.name, power: gives.power });
  return [made];
}

/** A figure, and a chart over it that does not take all of its values. */
function hole(maker: Maker, i: number): Statement[] {
  const before: Statement = {
    is: "figure",
    name: `shaped-${i}`,
    sort: { power: 1 },
    rule: amount(maker, 1, 1),
  };
  const made = chartWithHole(maker, `chart-${i}`, { name: before.name, power: 1 });
  maker.amounts.push({ name: before.name, power: 1 }, { name: made.name, power: 1 });
  return [before, made];
}

/** The same with two rows that fit some of its values. */
function clash(maker: Maker): Statement {
  const over = maker.by.pick(maker.amounts.filter((one) => one.power === 1));
  const made = chartWithClash(maker, "clashing", over);
  maker.amounts.push({ name: made.name, power: 1 });
  return made;
}

/** A little more than an answer, by less than comparisons see, and that rounded up. */
function beside(maker: Maker): Statement[] {
  const more: Fraction = fraction(10_000_000_005n, 10_000_000_000n);
  const rule: Amount = {
    is: "arithmetic",
    does: "*",
    a: { is: "name", name: "ask-0" },
    b: { is: "number", value: more, power: 0 },
  };
  const step = half(maker.by.pick([0.5, 1, 5]));
  maker.amounts.push({ name: "more", power: 1 }, { name: "more-up", power: 1 });
  return [
    { is: "figure", name: "more", sort: { power: 1 }, rule },
    {
      is: "figure",
      name: "more-up",
      sort: { power: 1 },
      rule: {
        is: "round",
        way: maker.by.pick(["up", "up", "near"] as const),
        a: { is: "name", name: "more" },
        step,
        power: 1,
      },
    },
  ];
}

function key(maker: Maker, i: number, wants: Wants): Statement[] {
  const kind = maker.by.pick(maker.kinds);
  const made = keyChart(maker, `key-${i}`, kind, wants.emptied ?? false);
  if (made === undefined) return [];
  maker.kept.push({ name: made.name, kind });
  return [made];
}

function line(maker: Maker, i: number): Statement[] {
  const power = maker.by.pick([0, 1] as const);
  const made = lineChart(maker, `line-${i}`, power);
  maker.amounts.push({ name: made.name, power });
  return [made];
}

function formula(maker: Maker, i: number): Statement[] {
  const takes = [
    { name: "p", power: 1 as Power },
    { name: "q", power: maker.by.pick([0, 1] as const) as Power },
  ];
  const own: Maker = {
    ...maker,
    amounts: takes,
    words: [],
    truths: [],
    asks: [],
    formulas: [],
    lists: [],
    kept: [],
  };
  const rule = amount(own, 1, 2);
  maker.formulas.push({ name: `sum-${i}`, takes, power: 1 });
  const made: Statement = { is: "formula", name: `sum-${i}`, takes, rule };
  return [made, ...figure(maker, i)];
}

/** Rows of one or two columns, as many as an ask says or as a rounding gives. */
function list(maker: Maker, i: number): Statement[] {
  const { by } = maker;
  const name = `rows-${i}`;
  const { count, most } = counted(maker);
  const base = amount(maker, 1, 0);
  const product = (a: Amount, b: Amount): Amount => ({ is: "arithmetic", does: "*", a, b });
  const across: Amount = {
    is: "arithmetic",
    does: by.pick(["+", "-"] as const),
    a: base,
    b: product({ is: "counter" }, literal(by, 1)),
  };
  const step: Amount = {
    is: "arithmetic",
    does: "+",
    a: { is: "above", column: "so-far" },
    b: { is: "name", name: "across" },
  };
  const running: Amount = {
    is: "choose",
    cases: [
      {
        when: {
          is: "compare",
          does: "is",
          a: { is: "counter" },
          b: { is: "number", value: whole(1n), power: 0 },
        },
        value: { is: "name", name: "across" },
      },
    ],
    otherwise: by.odds(0.5) ? step : rounding(maker, step, 1),
  };
  const columns: List["columns"] = [
    { name: "across", power: 1, rule: by.odds(0.3) ? rounding(maker, across, 1) : across },
    ...(by.odds(0.6) ? [{ name: "so-far", power: 1 as Power, rule: running }] : []),
  ];
  const made: List = { is: "list", name, count, most, columns };
  maker.lists.push({ name, columns });
  const column = by.pick(columns).name;
  const what = by.pick(["sum", "sum", "largest", "smallest", "last"] as const);
  maker.amounts.push({ name: `total-${i}`, power: 1 });
  return [
    made,
    {
      is: "figure",
      name: `total-${i}`,
      sort: { power: 1 },
      rule: { is: "gather", what, list: name, column },
    },
  ];
}

function counted(maker: Maker): { readonly count: Amount; readonly most: number } {
  const { by } = maker;
  const length = maker.amounts.find((one) => one.name === "ask-0");
  if (length !== undefined && by.odds(0.5)) {
    const share: Amount = {
      is: "arithmetic",
      does: "/",
      a: { is: "name", name: "ask-0" },
      b: { is: "number", value: whole(12n), power: 1 },
    };
    return {
      count: { is: "round", way: by.pick(["up", "down"] as const), a: share, step: whole(1n), power: 0 },
      most: 5,
    };
  }
  return { count: { is: "number", value: whole(BigInt(1 + by.whole(4))), power: 0 }, most: 4 };
}

function lines(maker: Maker): Statement[] {
  const { by, level } = maker;
  const made: Statement[] = [];
  const shows = () => (by.odds(0.5) ? { shows: by.pick(maker.amounts).name } : {});
  for (let i = 0; i < 1 + by.whole(2); i++)
    made.push({ is: "step", name: `work-${i}`, when: truth(maker, 1), ...shows() });
  if (level >= 2 && by.odds(0.5)) made.push({ is: "caution", name: "mind", when: truth(maker, 1) });
  for (let i = 0; i < by.whole(3); i++) made.push({ is: "stop", name: `halt-${i}`, when: truth(maker, 1) });
  return made;
}
