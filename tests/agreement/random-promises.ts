// Random promises: any truth, a limit near the ends of a value in random jobs, and forms that hold by
// themselves.
import { type Fraction, compare, plus, whole } from "../engine/analysis/support/fraction.ts";
import { answering, randomJob } from "./answers.ts";
import { type ExactAmount, exact } from "./exact.ts";
import { meaningOf } from "./meaning.ts";
import { type Maker, amount, half, literal, rounding, truth } from "./random-rules.ts";
import type { Amount, Power, SmallBook, Statement, Truth } from "./syntax.ts";

type Made = Extract<Statement, { is: "promise" }>;

/** Rules, most of which hold in many jobs: a promise that any job breaks shows little. */
export function promises(maker: Maker, book: SmallBook): Made[] {
  const { by, level } = maker;
  const ends = endsOf(maker, book);
  return Array.from({ length: 2 + by.whole(2) }, (): Made => {
    const rule = by.pick<() => Truth>([
      () => truth(maker, 2),
      () => limit(maker, ends),
      () => limit(maker, ends),
      () => limit(maker, ends),
      () => byForm(maker),
      () => ({ is: "either", a: truth(maker, 1), b: limit(maker, ends) }),
    ])();
    const whole_: Truth = by.odds(0.3) ? { is: "either", a: rule, b: { is: "stopped" } } : rule;
    return { is: "promise", rule: whole_, ...(level >= 2 && by.odds(0.25) ? { when: truth(maker, 1) } : {}) };
  });
}

interface Ends {
  readonly power: Power;
  readonly low: Fraction;
  readonly high: Fraction;
}

/** Lowest and highest of each amount in some jobs. */
function endsOf(maker: Maker, book: SmallBook): ReadonlyMap<string, Ends> {
  const ends = new Map<string, Ends>();
  for (let i = 0; i < 30; i++) {
    const meaning = meaningOf(book, exact, answering(book, randomJob(maker.by, book, false), "refused")!);
    for (const { name, power } of maker.amounts) {
      const at = knownAt(meaning.amounts.get(name));
      if (at === undefined) continue;
      const old = ends.get(name);
      ends.set(name, {
        power,
        low: old && compare(old.low, at) < 0 ? old.low : at,
        high: old && compare(old.high, at) > 0 ? old.high : at,
      });
    }
  }
  return ends;
}

const knownAt = (
  held: { readonly known: boolean | undefined; readonly value: ExactAmount } | undefined,
): Fraction | undefined => (held?.known === true ? held.value?.at : undefined);

/** A limit on one value: just where it ended, or a little to one side. */
function limit(maker: Maker, ends: ReadonlyMap<string, Ends>): Truth {
  const { by } = maker;
  const names = [...ends.keys()];
  if (names.length === 0) return truth(maker, 1);
  const name = by.pick(names.length > 3 ? names.slice(-4) : names);
  const { power, low, high } = ends.get(name)!;
  const top = by.odds(0.6);
  const at =
    Math.round((top ? Number(high.top) / Number(high.bottom) : Number(low.top) / Number(low.bottom)) * 4) / 4;
  const shift = by.pick([0, 0, 0.25, 1, 5, -0.25, -1]);
  const value = plus(half(at), half(top ? shift : -shift));
  return {
    is: "compare",
    does: top ? by.pick(["<=", "<=", "<"] as const) : by.pick([">=", ">=", ">"] as const),
    a: { is: "name", name },
    b: { is: "number", value, power },
  };
}

/** Forms that hold, or just do not, whatever the values are. */
function byForm(maker: Maker): Truth {
  const { by, level } = maker;
  const x = amount(maker, 1, 0);
  const y = amount(maker, 1, 0);
  const sum = (a: Amount, b: Amount): Amount => ({ is: "arithmetic", does: "+", a, b });
  const less = (a: Amount, b: Amount): Amount => ({ is: "arithmetic", does: "-", a, b });
  const compareTwo = (does: "<" | "<=" | ">=" | "is", a: Amount, b: Amount): Truth => ({
    is: "compare",
    does,
    a,
    b,
  });
  const largest: Amount = { is: "extreme", does: "largest", a: x, b: y };
  const smallest: Amount = { is: "extreme", does: "smallest", a: x, b: y };
  const forms: (() => Truth)[] = [
    () => compareTwo(">=", largest, x),
    () => compareTwo("<=", less(largest, smallest), literal(by, 1)),
    () => compareTwo("is", sum(largest, smallest), sum(x, y)),
    () => ({ is: "either", a: compareTwo("<=", x, y), b: compareTwo("<", y, x) }),
    () => compareTwo(">=", less(largest, y), { is: "number", value: whole(0n), power: 1 }),
  ];
  if (level >= 2) {
    const step = by.pick([0.5, 2, 5]);
    const up: Amount = { is: "round", way: "up", a: x, step: half(step), power: 1 };
    forms.push(
      () => compareTwo("<=", less(up, x), { is: "number", value: half(step), power: 1 }),
      () => compareTwo("<", less(up, x), { is: "number", value: half(step), power: 1 }),
      () => compareTwo(">=", up, x),
      () => compareTwo("<=", rounding(maker, x, 1), sum(x, literal(by, 1))),
    );
  }
  return by.pick(forms)();
}
