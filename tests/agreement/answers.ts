// Jobs as answers typed by a technician: random ones, and ones read back exactly as they are printed.
import { MM_IN } from "./length-units.ts";
import { type Fraction, compare, fraction, plus, times, whole } from "../engine/analysis/support/fraction.ts";
import type { Chance } from "../support/chance.ts";
import type { Value } from "./domain.ts";
import { type ExactAmount, type ExactTruth, exact } from "./exact.ts";
import type { Answer, Answering } from "./meaning.ts";
import { decimal } from "./print.ts";
import { type Ask, type SmallBook, asksOf } from "./syntax.ts";

export type Typed = Readonly<Record<string, string>>;

/** `12`, `-12.5`, `3/8`, `1 3/8`. */
function number(text: string): Fraction | undefined {
  const mixed = /^(-?)(?:(\d+) )?(\d+)\/(\d+)$/.exec(text);
  if (mixed !== null) {
    const [, sign, full, top, bottom] = mixed;
    if (BigInt(bottom!) === 0n) return undefined;
    const size = plus(whole(BigInt(full ?? 0)), fraction(BigInt(top!), BigInt(bottom!)));
    return sign ? times(size, whole(-1n)) : size;
  }
  const plain = /^(-?)(\d+)(?:\.(\d+))?$/.exec(text);
  if (plain === null) return undefined;
  const [, sign, digits, after = ""] = plain;
  return fraction(BigInt(`${sign}${digits}${after}`), 10n ** BigInt(after.length));
}

/**
 * What an answer says, in mm for a length, the word's place for a kind; undefined where it says nothing
 * readable.
 */
function readAnswer(ask: Ask, typed: string): Fraction | boolean | undefined {
  const { answered } = ask;
  if (answered.is === "truth") return typed === "yes" ? true : typed === "no" ? false : undefined;
  if (answered.is === "kind") {
    const at = answered.kind.words.indexOf(typed);
    return at < 0 ? undefined : whole(BigInt(at));
  }
  if (answered.is === "count") {
    const value = number(typed);
    return value?.bottom === 1n ? value : undefined;
  }
  const cut = typed.lastIndexOf(" ");
  const unit = MM_IN[typed.slice(cut + 1)];
  const value = unit && number(typed.slice(0, cut));
  return value && times(value, unit!);
}

/** Whether an answer is one that the ask takes. */
function fits(ask: Ask, value: Fraction | boolean): boolean {
  const { answered } = ask;
  if (typeof value === "boolean") return answered.is === "truth";
  if (answered.is === "truth" || answered.is === "kind") return answered.is === "kind";
  const unit = answered.is === "length" ? MM_IN[answered.unit]! : whole(1n);
  return compare(value, times(answered.low, unit)) >= 0 && compare(value, times(answered.high, unit)) <= 0;
}

type Given = Answer<ExactTruth, ExactAmount>;

/**
 * Answers as the evaluator takes them. Where an answer cannot be read, or is one that the ask does not take,
 * undefined; or, if that is allowed, a value that cannot be.
 */
export function answering(
  book: SmallBook,
  typed: Typed,
  unusable: "refused" | "allowed",
): Answering<ExactTruth, ExactAmount> | undefined {
  const values = new Map<string, Given | "blank" | "cannot tell">();
  const asks = asksOf(book);
  if (Object.keys(typed).some((name) => !asks.some((ask) => ask.name === name))) return undefined;
  for (const ask of asks) {
    const text = typed[ask.name]?.trim() ?? "";
    if (text === "") {
      values.set(ask.name, "blank");
      continue;
    }
    if (text === "unknown") {
      values.set(ask.name, "cannot tell");
      continue;
    }
    const value = readAnswer(ask, text);
    if (value === undefined || !fits(ask, value)) {
      if (unusable === "refused") return undefined;
      values.set(ask.name, noAnswer(ask));
      continue;
    }
    values.set(
      ask.name,
      typeof value === "boolean" ? { truth: known(value) } : { amount: known(exact.number(value)) },
    );
  }
  return (name, fallback) => {
    const given = values.get(name)!;
    if (given === "cannot tell" && fallback !== undefined) return fallback;
    if (given !== "blank" && given !== "cannot tell") return given;
    return asks.find((ask) => ask.name === name)!.answered.is === "truth"
      ? { truth: open(false) }
      : { amount: open(exact.number(whole(0n))) };
  };
}

const noAnswer = ({ answered }: Ask): Given =>
  answered.is === "truth"
    ? { truth: { ...open(false), impossible: true }, unusable: true }
    : { amount: { ...open(exact.number(whole(0n))), impossible: true }, unusable: true };

const known = <V>(value: V): Value<ExactTruth, V> => ({ known: true, impossible: false, value });
const open = <V>(value: V): Value<ExactTruth, V> => ({ known: false, impossible: false, value });

/** How an ask's value is typed. A fraction without a short decimal is cut behind the seventeenth digit. */
export function typedAs(ask: Ask, value: Fraction | boolean): string {
  if (typeof value === "boolean") return value ? "yes" : "no";
  const { answered } = ask;
  if (answered.is === "kind") return answered.kind.words[Number(value.top / value.bottom)]!;
  if (answered.is === "count" || answered.is === "truth") return decimal(value);
  const unit = MM_IN[answered.unit]!;
  const size = 10n ** 15n;
  const own = fraction(value.top * unit.bottom, value.bottom * unit.top);
  return `${decimal(fraction((own.top * size) / own.bottom, size))} ${answered.unit}`;
}

/** A random job. `partly`: some asks are left blank, some answered that one cannot tell. */
export function randomJob(by: Chance, book: SmallBook, partly: boolean): Typed {
  const typed: Record<string, string> = {};
  for (const ask of asksOf(book)) {
    if (partly && by.odds(0.25)) continue;
    if (partly && by.odds(0.25)) {
      typed[ask.name] = "unknown";
      continue;
    }
    typed[ask.name] = randomAnswer(by, ask);
  }
  return typed;
}

/** The same with one or two answers that cannot be used. */
export function unusableJob(by: Chance, book: SmallBook): Typed {
  const typed = { ...randomJob(by, book, by.odds(0.5)) };
  const asks = asksOf(book);
  for (let i = 0; i < 1 + by.whole(2); i++) {
    const { name, answered } = by.pick(asks);
    typed[name] =
      answered.is === "length" ? by.pick(["400 mm", "40 kg", "-3 mm", "about"]) : by.pick(["900", "perhaps"]);
  }
  return typed;
}

function randomAnswer(by: Chance, { answered }: Ask): string {
  switch (answered.is) {
    case "truth":
      return by.pick(["yes", "no"]);
    case "kind":
      return by.pick(answered.kind.words);
    case "count": {
      const [low, high] = [Number(answered.low.top), Number(answered.high.top)];
      return String(low + by.whole(high - low + 1));
    }
    case "length": {
      const span = Number(answered.high.top) - Number(answered.low.top);
      const part = by.pick([
        0,
        1,
        by.whole(span + 1) / span,
        by.whole(4 * span + 1) / (4 * span),
        by.whole(span + 1) / span,
      ]);
      return `${Number(answered.low.top) + Math.round(part * span * 4) / 4} ${answered.unit}`;
    }
  }
}
