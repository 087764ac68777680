// What a small book means, over any domain: every value, line and promise of it, from what its asks are
// answered with.
import { type Fraction, times, whole } from "../engine/analysis/support/fraction.ts";
import { MM_IN } from "./length-units.ts";
import type { Domain, Value } from "./domain.ts";
import { type Logic, logicOf } from "./logic.ts";
import { chartOf, cellFits, betweenOf, keptOf, type Kept } from "./charts.ts";
import { gathered, type Rows } from "./lists.ts";
import type { Amount, Ask, Band, SmallBook, Statement, Truth } from "./syntax.ts";

export type Answer<B, N> = ({ readonly amount: Value<B, N> } | { readonly truth: Value<B, B> }) & {
  /** The answer cannot be used: it is out of range, or no answer to this ask. */
  readonly unusable?: true;
};

/** Whether an alternative, a row or a line counts in the job. */
export interface Reach<B> {
  readonly key: string;
  readonly reached: B;
}

export interface Meaning<B, N> {
  readonly amounts: ReadonlyMap<string, Value<B, N>>;
  readonly truths: ReadonlyMap<string, Value<B, B>>;
  /** Conditions of steps, cautions and stops, by `step NAME`. */
  readonly lines: ReadonlyMap<string, Value<B, B>>;
  readonly promises: readonly Value<B, B>[];
  readonly stopped: Value<B, B>;
  readonly reach: readonly Reach<B>[];
}

/** What is in force where a rule is worked out. */
export interface Scope<B, N> {
  readonly on: Domain<B, N>;
  readonly logic: Logic<B, N>;
  readonly amounts: ReadonlyMap<string, Value<B, N>>;
  readonly truths: ReadonlyMap<string, Value<B, B>>;
  readonly kept: ReadonlyMap<string, Kept<B, N>>;
  readonly rows: ReadonlyMap<string, Rows<B, N>>;
  readonly formulas: ReadonlyMap<string, Extract<Statement, { is: "formula" }>>;
  /** Asks whose answer cannot be used. */
  readonly unusable: ReadonlySet<string>;
  readonly stopped?: Value<B, B>;
  readonly counter?: Value<B, N>;
  readonly above?: ReadonlyMap<string, Value<B, N>>;
}

/** `answer` gives what an ask is answered with; `fallback` is what its `if unknown take` comes to. */
export type Answering<B, N> = (name: string, fallback: Answer<B, N> | undefined) => Answer<B, N>;

/** What an ask's `if unknown take` comes to: nothing that can be, where it lies outside the ask's range. */
function takenBy<B, N>({ take, answered }: Ask, scope: Scope<B, N>): Answer<B, N> | undefined {
  if (take === undefined) return undefined;
  if ("truth" in take) return { truth: truthOf(take.truth, scope) };
  const amount = amountOf(take.amount, scope);
  if (answered.is !== "length" && answered.is !== "count") return { amount };
  const { on, logic } = scope;
  const unit = answered.is === "length" ? MM_IN[answered.unit]! : whole(1n);
  const end = (value: Fraction) => on.number(times(value, unit));
  const outside = on.or(
    on.below(amount.value, end(answered.low)),
    on.below(end(answered.high), amount.value),
  );
  return { amount: logic.strict([amount], amount.value, outside) };
}

/** `keep` is handed every value as it is made, so that a domain can give it a name. */
export function meaningOf<B, N>(
  book: SmallBook,
  on: Domain<B, N>,
  answer: Answering<B, N>,
  keep?: Naming<B, N>,
): Meaning<B, N> {
  const amounts = new Map<string, Value<B, N>>();
  const truths = new Map<string, Value<B, B>>();
  const kept = new Map<string, Kept<B, N>>();
  const rows = new Map<string, Rows<B, N>>();
  const formulas = new Map(
    book.statements.flatMap((one) => (one.is === "formula" ? [[one.name, one] as const] : [])),
  );
  const reach: Reach<B>[] = [];
  const unusable = new Set<string>();
  const base: Scope<B, N> = {
    on,
    logic: logicOf(on),
    amounts,
    truths,
    kept,
    rows,
    formulas,
    unusable,
  };
  const named = (one: Value<B, N>) => keep?.amount(one) ?? one;
  const held = (one: Value<B, B>) => keep?.truth(one) ?? one;
  for (const one of book.statements) {
    switch (one.is) {
      case "ask": {
        const given = answer(one.name, takenBy(one, base));
        if (given.unusable) unusable.add(one.name);
        if ("amount" in given) amounts.set(one.name, named(given.amount));
        else truths.set(one.name, held(given.truth));
        break;
      }
      case "dial":
        amounts.set(one.name, base.logic.sure(on.number(one.value)));
        break;
      case "figure":
        amounts.set(one.name, named(figureOf(one.name, one.rule, base, reach)));
        break;
      case "decided":
        truths.set(one.name, held(truthOf(one.rule, base)));
        break;
      case "between":
        amounts.set(one.name, named(betweenOf(one, base)));
        break;
      case "list":
        rows.set(one.name, gathered(one, base, named));
        break;
      case "chart": {
        if (one.mode === "keep") kept.set(one.name, keptOf(one, base));
        else amounts.set(one.name, named(chartOf(one, base, reach)));
        break;
      }
      case "formula":
      case "step":
      case "caution":
      case "stop":
      case "promise":
        break;
    }
  }
  return { amounts, truths, reach, ...linesOf(book, base, held, reach) };
}

export interface Naming<B, N> {
  readonly amount: (one: Value<B, N>) => Value<B, N>;
  readonly truth: (one: Value<B, B>) => Value<B, B>;
}

type Judged<B, N> = Pick<Meaning<B, N>, "lines" | "promises" | "stopped">;

/** Stops first, since a promise may look at whether the job is stopped. */
function linesOf<B, N>(
  book: SmallBook,
  base: Scope<B, N>,
  held: (one: Value<B, B>) => Value<B, B>,
  reach: Reach<B>[],
): Judged<B, N> {
  const { on, logic } = base;
  const lines = new Map<string, Value<B, B>>();
  let stopped: Value<B, B> = logic.sure(on.no);
  for (const one of book.statements) {
    if (one.is !== "step" && one.is !== "caution" && one.is !== "stop") continue;
    const when = held(truthOf(one.when, base));
    lines.set(`${one.is} ${one.name}`, when);
    reach.push({ key: `${one.is} ${one.name}`, reached: logic.isYes(when) });
    if (one.is === "stop") stopped = logic.either(stopped, when);
  }
  const scope = { ...base, stopped };
  const promises = book.statements.flatMap((one): Value<B, B>[] => {
    if (one.is !== "promise") return [];
    const rule = truthOf(one.rule, scope);
    return [held(one.when === undefined ? rule : logic.either(logic.not(truthOf(one.when, scope)), rule))];
  });
  return { lines, promises, stopped };
}

/** A figure notes which of its alternatives counts. */
function figureOf<B, N>(name: string, rule: Amount, scope: Scope<B, N>, reach: Reach<B>[]): Value<B, N> {
  const { on, logic } = scope;
  if (rule.is === "choose") {
    let before = on.yes;
    rule.cases.forEach((one, i) => {
      const when = truthOf(one.when, scope);
      reach.push({ key: `${name}/${i}`, reached: on.and(before, logic.isYes(when)) });
      before = on.and(before, logic.isNo(when));
    });
    reach.push({ key: `${name}/otherwise`, reached: before });
  }
  return amountOf(rule, scope);
}

export function amountOf<B, N>(rule: Amount, scope: Scope<B, N>): Value<B, N> {
  const { on, logic } = scope;
  const of = (one: Amount) => amountOf(one, scope);
  switch (rule.is) {
    case "number":
      return logic.sure(on.number(rule.value));
    case "word":
      return logic.sure(on.word(rule.at));
    case "name":
      return found(scope.amounts, rule.name);
    case "counter":
      return scope.counter!;
    case "above":
      return found(scope.above!, rule.column);
    case "arithmetic":
      return arithmetic(rule, of(rule.a), of(rule.b), scope);
    case "extreme": {
      const [a, b] = [of(rule.a), of(rule.b)];
      return logic.strict([a, b], on.extreme(rule.does, a.value, b.value), on.no);
    }
    case "abs": {
      const a = of(rule.a);
      const zero = on.number(whole(0n));
      return logic.strict([a], on.pick(on.below(a.value, zero), on.subtract(zero, a.value), a.value), on.no);
    }
    case "round": {
      const a = of(rule.a);
      return logic.strict([a], on.round(a.value, rule.way, rule.step), on.no);
    }
    case "choose":
      return rule.cases.reduceRight(
        (rest, one) => logic.choose(truthOf(one.when, scope), of(one.value), rest),
        of(rule.otherwise),
      );
    case "call": {
      const formula = scope.formulas.get(rule.formula)!;
      const amounts = new Map([
        ...scope.amounts,
        ...formula.takes.map((one, i) => [one.name, of(rule.given[i]!)] as const),
      ]);
      return amountOf(formula.rule, { ...scope, amounts });
    }
    case "gather": {
      const rows = found(scope.rows, rule.list);
      return rule.what === "count" ? rows.count : found(rows.columns, rule.column)[rule.what];
    }
    case "kept": {
      const kept = found(scope.kept, rule.chart);
      return rule.what === "count" ? kept.count : kept.first;
    }
  }
}

function arithmetic<B, N>(
  rule: Extract<Amount, { is: "arithmetic" }>,
  a: Value<B, N>,
  b: Value<B, N>,
  { on, logic }: Scope<B, N>,
): Value<B, N> {
  switch (rule.does) {
    case "+":
      return logic.strict([a, b], on.add(a.value, b.value), on.no);
    case "-":
      return logic.strict([a, b], on.subtract(a.value, b.value), on.no);
    case "*":
      return logic.strict([a, b], on.multiply(a.value, b.value), on.no);
    case "/":
      return logic.strict([a, b], on.divide(a.value, b.value), on.isZero(b.value));
  }
}

function truthOf<B, N>(rule: Truth, scope: Scope<B, N>): Value<B, B> {
  const { on, logic } = scope;
  switch (rule.is) {
    case "truth":
      return logic.sure(rule.value ? on.yes : on.no);
    case "name":
      return found(scope.truths, rule.name);
    case "compare": {
      const [a, b] = [amountOf(rule.a, scope), amountOf(rule.b, scope)];
      return logic.strict([a, b], compared(rule.does, a.value, b.value, on), on.no);
    }
    case "band": {
      const of = amountOf(rule.of, scope);
      return logic.strict([of], inBand(rule.band, of.value, on), on.no);
    }
    case "words": {
      const of = amountOf(rule.of, scope);
      return logic.strict([of], cellFits({ is: "words", words: rule.words }, of, on), on.no);
    }
    case "both":
      return logic.both(truthOf(rule.a, scope), truthOf(rule.b, scope));
    case "either":
      return logic.either(truthOf(rule.a, scope), truthOf(rule.b, scope));
    case "not":
      return logic.not(truthOf(rule.a, scope));
    case "known": {
      if (scope.unusable.has(rule.name)) {
        return { known: on.no, impossible: on.yes, value: on.no };
      }
      return logic.sure((scope.amounts.get(rule.name) ?? found(scope.truths, rule.name)).known);
    }
    case "among":
      return found(scope.kept, rule.chart).among(rule.at);
    case "stopped":
      return scope.stopped!;
  }
}

function compared<B, N>(does: Extract<Truth, { is: "compare" }>["does"], a: N, b: N, on: Domain<B, N>): B {
  switch (does) {
    case "<":
      return on.below(a, b);
    case "<=":
      return on.not(on.below(b, a));
    case ">":
      return on.below(b, a);
    case ">=":
      return on.not(on.below(a, b));
    case "is":
      return on.same(a, b);
    case "is not":
      return on.not(on.same(a, b));
  }
}

export function inBand<B, N>({ low, high }: Band, x: N, on: Domain<B, N>): B {
  const above =
    low === undefined
      ? on.yes
      : low.included
        ? on.not(on.below(x, on.number(low.value)))
        : on.below(on.number(low.value), x);
  const under =
    high === undefined
      ? on.yes
      : high.included
        ? on.not(on.below(on.number(high.value), x))
        : on.below(x, on.number(high.value));
  return on.and(above, under);
}

export function found<T>(map: ReadonlyMap<string, T>, name: string): T {
  const one = map.get(name);
  if (one === undefined) throw new Error(`The book has no ${name} above the rule that uses it.`);
  return one;
}
