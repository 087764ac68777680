// Reads one answer as a technician types it: `6 mm`, `1/4 inch`, `6`, `3.2 mm ± 0.2 mm`, `hand-laid`, `yes`,
// `unknown`. A bare number is in the unit of the ask. An answer that cannot be used is a finding of the job,
// never a throw.
import { writeValue } from "../../../core/format.ts";
import { atMost } from "../../../core/number.ts";
import type { Reason } from "../../../core/reason.ts";
import { type Type, fits, isNumber, typeName } from "../../../core/type.ts";
import { type Unit, toSI } from "../../../core/unit.ts";
import { isSensible, literal, spoilt } from "../../language/check/amount.ts";
import { nearest } from "../../language/check/did-you-mean.ts";
import type { CheckContext, Scope } from "../../language/check/scope.ts";
import type { Checked } from "../../language/check/statement.ts";
import { parseAnswer } from "../../language/syntax/parser.ts";
import type { Expr } from "../../language/syntax/tree.ts";

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

export function readAnswer(name: string, checked: Checked, typed: string): Given | undefined {
  const known = answersRead.get(checked) ?? new Map<string, Given | undefined>();
  if (known.size === 0) answersRead.set(checked, known);
  if (known.has(typed)) return known.get(typed);
  const given = parseTyped(name, checked, typed);
  if (known.size >= MAX_ANSWERS_READ) known.clear();
  if (typed.length <= LONGEST_ANSWER) known.set(typed, given);
  return given;
}

function parseTyped(name: string, checked: Checked, typed: string): Given | undefined {
  const { signature, ask } = checked;
  const text = typed.trim();
  if (text === "" || signature === undefined || ask === undefined) return undefined;
  if (text === "unknown") return { is: "cannot-tell" };
  const { type, unit } = signature;
  if (text.length > LONGEST_ANSWER) return bad({ code: "answer/too-long", ask: name }, "answer/unreadable");
  if (type.is === "kind") return readWord(type, text);
  if (type.is === "yes-no")
    return text === "yes" || text === "no"
      ? { is: "value", value: text === "yes" ? 1 : 0 }
      : bad({ code: "answer/yes-no", ask: name, answer: text }, "answer/word");
  return readAmount(name, { type, unit, ...ask }, text);
}

function readWord(type: Extract<Type, { is: "kind" }>, text: string): Given {
  const word = type.words.indexOf(text);
  if (word >= 0) return { is: "value", value: word };
  const near = nearest(text, type.words);
  return bad({ code: "answer/word", answer: text, kind: type.kind, words: type.words, near });
}

interface AskedAmount {
  readonly type: Type;
  readonly unit: Unit | undefined;
  /** The range of the ask, in SI. */
  readonly low: number;
  readonly high: number;
}

function readAmount(name: string, { type, unit, low, high }: AskedAmount, text: string): Given {
  // A decimal comma is what half the world types; a list of two numbers is not an answer to anything.
  const read = parseAnswer(/^[-\d]*\d,\d+\b/.test(text) ? text.replace(",", ".") : text);
  const value = read && amount(read.value, type, unit);
  if (read === undefined || value === undefined || typeof value === "string" || !isSensible(value)) {
    const example = unit === undefined ? "4" : `${writeValue(low === -Infinity ? 1 : low, type, unit)}`;
    return bad(
      typeof value === "string"
        ? {
            code: "answer/unit",
            ask: name,
            answer: text,
            type: typeName(type),
            unit: unit?.symbol,
            is: value,
          }
        : { code: "answer/unreadable", ask: name, answer: text, example: inFeetAndInches(text) ?? example },
    );
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

const FEET = /(?:(\d+)\s*(?:'|′|’|ft\.?|feet|foot)\s*)?/;
const INCHES = /(?:(\d[\d ./]*?)\s*(?:in\.?|ins\.?|"|''|″|”|inch\.|inches)?)?/;
const FEET_AND_INCHES = new RegExp(`^${FEET.source}${INCHES.source}$`, "i");

/**
 * The same answer with feet and inches as the language writes them, where it seems to name them: `1/4"`,
 * `12 in`, `5' 3"`.
 */
function inFeetAndInches(text: string): string | undefined {
  const match = FEET_AND_INCHES.exec(text);
  if (match === null || /\b(ft|inch|inches)$/.test(text) || /^[\d ./]*$/.test(text)) return undefined;
  return (
    [match[1] && `${match[1]} ft`, match[2] && `${match[2].trim()} inch`].filter(Boolean).join(" ") ||
    undefined
  );
}

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
