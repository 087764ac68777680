// Reads one answer as a technician types it: `6 mm`, `1/4"`, `6`, `3.2 ± 0.2 mm`, `Hand-laid`, `yes`,
// `unknown`. A bare number is in the unit of the ask. An answer that cannot be used is a finding of the job,
// never a throw.
import { writeValue } from "../../../core/format.ts";
import { atMost } from "../../../core/number.ts";
import type { Reason } from "../../../core/reason.ts";
import { type Type, fits, isNumber, typeName, typeOfUnit } from "../../../core/type.ts";
import { type Rewritten, rewriteAmount } from "../../../core/typed-amount.ts";
import { plainSigns } from "../../../core/typed-number.ts";
import { type Unit, readUnit, toSI, unitSymbols } from "../../../core/unit.ts";
import { isSensible, literal, spoilt } from "../../language/check/amount.ts";
import { nearest } from "../../language/check/did-you-mean.ts";
import type { Range } from "../../language/check/range.ts";
import type { CheckContext, Scope } from "../../language/check/scope.ts";
import type { Checked } from "../../language/check/statement.ts";
import { parseAnswer } from "../../language/syntax/parser.ts";
import type { Expr, UnitText } from "../../language/syntax/tree.ts";

export type Given =
  | { readonly is: "value"; readonly value: number; readonly slack?: number }
  | { readonly is: "cannot-tell" }
  | { readonly is: "unusable"; readonly code: string; readonly reason: Reason };

/** `code` is that of the finding, where it differs from that of the reason. */
const bad = (reason: Reason, code: string = reason.code): Given => ({ is: "unusable", code, reason });

const LONGEST_ANSWER = 200;

/** Answers read before, by ask: the same jobs are evaluated after every edit. */
const answersRead = new WeakMap<Checked, Map<string, Given | undefined>>();
const MAX_ANSWERS_READ = 400;

/** `means`: what the words of the ask's kind mean, in their order; an answer may name a word by it. */
export function readAnswer(
  name: string,
  checked: Checked,
  typed: string,
  means: readonly string[] = [],
): Given | undefined {
  if (checked.signature?.type.is === "kind") return parseTyped(name, checked, typed, means);
  const known = answersRead.get(checked) ?? new Map<string, Given | undefined>();
  if (known.size === 0) answersRead.set(checked, known);
  if (known.has(typed)) return known.get(typed);
  const given = parseTyped(name, checked, typed, means);
  if (known.size >= MAX_ANSWERS_READ) known.clear();
  if (typed.length <= LONGEST_ANSWER) known.set(typed, given);
  return given;
}

function parseTyped(
  name: string,
  checked: Checked,
  typed: string,
  means: readonly string[],
): Given | undefined {
  const { signature, ask } = checked;
  const text = typed.trim();
  if (text === "" || signature === undefined || ask === undefined) return undefined;
  if (text.length > LONGEST_ANSWER) return bad({ code: "answer/too-long", ask: name }, "answer/unreadable");
  const { type, unit } = signature;
  if (type.is === "kind" && type.words.includes(text) && text !== "unknown")
    return readWord(type, text, means);
  if (/^(unknown|cannot tell|can't tell)$/i.test(plainSigns(text))) return { is: "cannot-tell" };
  if (type.is === "kind") return readWord(type, text, means);
  if (type.is === "yes-no")
    return /^(y|yes|n|no)$/i.test(text)
      ? { is: "value", value: /^y/i.test(text) ? 1 : 0 }
      : bad({ code: "answer/yes-no", ask: name, answer: text }, "answer/word");
  return readAmount(name, { type, unit, ...ask }, text);
}

/** A word without regard to capitals, blanks and hyphens. */
const plainWord = (text: string): string =>
  plainSigns(text)
    .toLowerCase()
    .replace(/[\s_-]+/g, "-");

/** What a word means, and the beginning of that, up to a colon, a comma or a bracket. */
const namesOf = (means: string): readonly string[] =>
  means === "" ? [] : [means, means.split(/[:;,(.]/)[0]!].map(plainWord);

function readWord(type: Extract<Type, { is: "kind" }>, text: string, means: readonly string[]): Given {
  const exact = type.words.indexOf(text);
  if (exact >= 0) return { is: "value", value: exact };
  const plain = plainWord(text);
  for (const fits of [
    (word: string) => plainWord(word) === plain,
    (_: string, i: number) => namesOf(means[i] ?? "").includes(plain),
  ]) {
    const [word, another] = type.words.flatMap((one, i) => (fits(one, i) ? [i] : []));
    if (word !== undefined && another === undefined) return { is: "value", value: word };
  }
  const near = nearest(text, type.words);
  return bad({ code: "answer/word", answer: text, kind: type.kind, words: type.words, near });
}

interface AskedAmount extends Range {
  readonly type: Type;
  readonly unit: Unit | undefined;
  readonly usual?: Range;
}

function readAmount(name: string, asked: AskedAmount, text: string): Given {
  const { type, unit, low, high } = asked;
  const typed = readTyped(text);
  if (typed.is === "two-ways")
    return bad({ code: "answer/two-ways", answer: text, whole: typed.whole, decimal: typed.decimal });
  const read = typed.is === "read" ? typed.read : undefined;
  const value = read && amount(read.value, type, unit);
  const example = exampleOf(asked);
  if (typeof value === "string")
    return bad({
      code: "answer/unit",
      ask: name,
      answer: text,
      type: typeName(type),
      unit: unit?.symbol,
      is: value,
      example,
    });
  if (read === undefined || value === undefined || !isSensible(value)) {
    const near = typed.is === "no-unit" ? nearUnit(typed.unit, type) : undefined;
    return bad({
      code: "answer/unreadable",
      ask: name,
      answer: text,
      example,
      near: near && typed.is === "no-unit" ? `${typed.number} ${near}` : undefined,
    });
  }
  if (type.is === "count" && (!Number.isInteger(value) || value < 0))
    return bad({ code: "answer/count", ask: name, answer: text });
  if (!atMost(low, value) || !atMost(value, high)) {
    return bad({
      code: "answer/range",
      ask: name,
      answer: text,
      low: writeValue(low, type, unit),
      high: writeValue(high, type, unit),
    });
  }
  // A value beyond an end by less than the tolerance of comparisons counts as that end.
  const within = Math.min(Math.max(value, low), high);
  if (read.tolerance === undefined) return { is: "value", value: within };
  const slack = slackOf(read.tolerance, type, unit);
  return slack === undefined || !Number.isFinite(slack)
    ? bad({ code: "answer/tolerance", ask: name, unit: unit?.symbol || undefined })
    : { is: "value", value: within, slack };
}

type Read = NonNullable<ReturnType<typeof parseAnswer>>;

/** As the language writes it, else as people do. */
function readTyped(text: string): { readonly is: "read"; readonly read: Read } | Rewritten {
  const plain = plainSigns(text).replace(/ ?: ?/g, ":");
  const read = parseAnswer(plain);
  if (
    read !== undefined &&
    hasUnits(read.value) &&
    (read.tolerance === undefined || hasUnits(read.tolerance))
  )
    return { is: "read", read: withUnits(read) };
  const rewritten = rewriteAmount(plain);
  const again = rewritten.is === "text" ? parseAnswer(rewritten.text) : undefined;
  return again === undefined ? rewritten : { is: "read", read: withUnits(again) };
}

const hasUnits = (expr: Expr): boolean =>
  expr.is !== "quantity" || expr.parts.every((part) => "symbol" in readUnit(part.unit));

/** The unit stands once for the number and its tolerance: `80 ± 5 mm`, `80 mm ± 5`. */
function withUnits({ value, tolerance }: Read): Read {
  if (tolerance === undefined) return { value };
  const of = (number: Extract<Expr, { is: "number" }>, unit: UnitText): Expr => ({
    is: "quantity",
    at: number.at,
    parts: [{ value: number.value, unit }],
  });
  if (value.is === "number" && tolerance.is === "quantity")
    return { value: of(value, { ...tolerance.parts[0]!.unit, apart: false }), tolerance };
  return value.is === "quantity" && tolerance.is === "number"
    ? { value, tolerance: of(tolerance, value.parts.at(-1)!.unit) }
    : { value, tolerance };
}

/** A round value in the middle of what is usual, as an example of an answer. */
function exampleOf({ type, unit, low, high, usual = { low, high } }: AskedAmount): string {
  if (!Number.isFinite(usual.low) || !Number.isFinite(usual.high)) return writeValue(1, type, unit);
  const { factor, zero } = unit ?? { factor: type.is === "share" ? 0.01 : 1, zero: 0 };
  const step = 10 ** Math.floor(Math.log10((usual.high - usual.low) / factor / 2));
  const round = type.is === "count" ? Math.max(1, step) : step;
  const middle = Math.round(((usual.low + usual.high) / 2 - zero) / factor / round) * round;
  return writeValue(Number(middle.toPrecision(12)) * factor + zero, type, unit);
}

/** The unit of what is asked for that a few slips away is what was typed. */
const nearUnit = (typed: string, type: Type): string | undefined =>
  nearest(
    typed,
    unitSymbols().filter((symbol) => {
      const unit = readUnit({ text: symbol, apart: false });
      return "symbol" in unit && fits(typeOfUnit(unit), type);
    }),
  );

/** The SI value; the name of its type where that is another one; undefined where it is no amount. */
function amount(expr: Expr, type: Type, unit: Unit | undefined): number | string | undefined {
  if (expr.is === "number")
    return unit !== undefined && !isNumber(type)
      ? Number(toSI(expr.value, unit).toPrecision(15))
      : type.is === "share"
        ? expr.value * 0.01
        : expr.value;
  const context: CheckContext = {
    scope: NOTHING,
    locals: new Map(),
    faults: [],
    source: "",
    check: (_, one) => spoilt(one.at),
  };
  const rule = literal(context, expr);
  if (rule === undefined || rule.does !== "constant") return undefined;
  if (fits(rule.type, type)) return rule.value;
  // A technician's % needs no basis where the ask has one.
  if (type.is === "share" && rule.type.is === "share" && rule.type.by === "plain") return rule.value;
  return typeName(rule.type);
}

function slackOf(expr: Expr, type: Type, unit: Unit | undefined): number | undefined {
  if (expr.is === "number")
    return unit !== undefined && !isNumber(type) ? expr.value * unit.factor : expr.value;
  const rule = literal(
    { scope: NOTHING, locals: new Map(), faults: [], source: "", check: (_, one) => spoilt(one.at) },
    expr,
  );
  if (rule === undefined || rule.does !== "constant") return undefined;
  if (type.is === "temperature")
    return rule.type.is === "temperature"
      ? rule.value - (rule.unit?.zero ?? 0)
      : rule.type.is === "quantity"
        ? rule.value
        : undefined;
  return fits(rule.type, type) ? rule.value : undefined;
}

const NOTHING: Scope = {
  signature: () => undefined,
  spoiled: () => false,
  kind: () => undefined,
  kindsWith: () => [],
  names: () => [],
  kinds: () => [],
  hasLine: () => false,
  lines: () => [],
  currency: () => undefined,
};
