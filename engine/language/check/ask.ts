// Checks an ask: what its answer may be, how finely it is measured, and what is taken when nobody can tell.
import { writeValue } from "../../../core/format.ts";
import { ANYTHING, isOrdered } from "../../../core/type.ts";
import type { Fallback, Statement, Word } from "../syntax/tree.ts";
import { type Resolved, inUnit, resolve } from "./declared.ts";
import { checkDrawn } from "./drawn-as.ts";
import { checkAs } from "./mismatches.ts";
import { type Range, isBeyond } from "./range.ts";
import type { Rule } from "./rule.ts";
import { type CheckContext, type Signature, fault, signature } from "./scope.ts";

const EVERYTHING: Range = { low: -Infinity, high: Infinity };

export type Usual = Range & { readonly words?: readonly number[] };

export interface CheckedAsk extends Range {
  readonly resolution?: number;
  /** What is usual within it; of words, which ones. */
  readonly usual?: Usual;
  /** What is taken where nobody can tell, and where nothing is answered. */
  readonly take?: Rule;
  readonly blank?: Rule;
  /** Where it is measured, for the drawing beside its question. */
  readonly drawn?: string;
}

export function checkAsk(
  context: CheckContext,
  body: Extract<Statement["body"], { keyword: "ask" }>,
  statement: Statement,
): { readonly signature: Signature; readonly ask: CheckedAsk } {
  const name = statement.name!;
  const { clauses } = statement;
  const declared = resolve(context, body.declared);
  if (body.declared === undefined) fault(context, "ask/of-what", name.at, { name: name.text });
  const type = declared?.type ?? ANYTHING;
  const range = rangeOf(context, body, name, declared);
  const usual = usualOf(context, body.usually, { name: name.text, declared, range });
  const step =
    clauses.measured &&
    inUnit(context, clauses.measured, declared ?? { type: ANYTHING, unit: undefined }, true);
  const drawn = clauses.drawn && checkDrawn(context, clauses.drawn, name.text, type);
  const taken = (fallback: Fallback | undefined): Rule | undefined => {
    if (fallback === undefined) return undefined;
    const rule = checkAs(context, fallback.take, { type, because: `it is taken for ${name.text}` });
    checkFallback(context, rule, { name: name.text, declared, range });
    return rule;
  };
  const { ifUnknown, ifBlank } = clauses;
  const take = taken(ifUnknown);
  const blank = ifBlank === ifUnknown ? take : taken(ifBlank);
  return {
    signature: signature({ what: "ask", type, unit: declared?.unit, range }),
    ask: {
      ...range,
      ...(usual ? { usual } : {}),
      ...(step !== undefined ? { resolution: step } : {}),
      ...(take ? { take } : {}),
      ...(blank ? { blank } : {}),
      ...(drawn ? { drawn } : {}),
    },
  };
}

/** What an answer may be, in SI: the words of a kind by their places, no and yes as 0 and 1. */
function rangeOf(
  context: CheckContext,
  { range }: Extract<Statement["body"], { keyword: "ask" }>,
  name: Word,
  declared: Resolved | undefined,
): Range {
  const type = declared?.type ?? ANYTHING;
  const at = range && { start: range.low.at.start, end: range.high.at.end };
  if (type.is === "anything") return EVERYTHING;
  if (!isOrdered(type)) {
    if (at !== undefined) fault(context, "ask/range", at, { name: name.text, kind: true });
    if (type.is === "kind") return { low: 0, high: type.words.length - 1 };
    return type.is === "yes-no" ? { low: 0, high: 1 } : EVERYTHING;
  }
  if (range === undefined || at === undefined) {
    fault(context, "ask/no-range", name.at, { name: name.text, unit: declared?.unit?.symbol });
    return EVERYTHING;
  }
  const low = inUnit(context, range.low, declared!) ?? -Infinity;
  const high = inUnit(context, range.high, declared!) ?? Infinity;
  if (low >= high) fault(context, "ask/range", at, { name: name.text, single: low === high });
  return { low, high };
}

interface Asked {
  readonly name: string;
  readonly declared: Resolved | undefined;
  readonly range: Range;
}

/** The usual answers, in SI; undefined where nothing is said of them, or what is said has its finding. */
function usualOf(
  context: CheckContext,
  usually: Extract<Statement["body"], { keyword: "ask" }>["usually"],
  { name, declared, range }: Asked,
): Usual | undefined {
  if (usually === undefined || declared === undefined || declared.type.is === "anything") return undefined;
  const { at, items, to } = usually;
  const ordered = isOrdered(declared.type);
  const bad = (facts: Readonly<Record<string, unknown>>) => {
    fault(context, "ask/usual", at, { name, ...facts });
    return undefined;
  };
  if (ordered ? to === undefined || items.length > 1 : to !== undefined) return bad({ form: ordered });
  const found = [...items, ...(to ? [to] : [])].map((one) => inUnit(context, one, declared));
  const values = found.filter((one) => one !== undefined);
  if (values.length < found.length || range.low >= range.high) return undefined;
  const [low, high] = [Math.min(...values), Math.max(...values)];
  if (!ordered) return { low, high, words: [...new Set(values)].sort((a, b) => a - b) };
  if (values[0]! > values[1]!) return bad({ turned: true });
  const write = (amount: number) => writeValue(amount, declared.type, declared.unit);
  const beyond = values.find((one) => isBeyond(one, range));
  return beyond === undefined
    ? { low: Math.max(low, range.low), high: Math.min(high, range.high) }
    : bad({ value: write(beyond), low: write(range.low), high: write(range.high) });
}

/** What is taken must be an answer that could have been given, as far as it is written out. */
function checkFallback(context: CheckContext, take: Rule, ask: Asked): void {
  const { name, declared, range } = ask;
  if (take.does === "choose") {
    for (const one of take.cases) checkFallback(context, one.value, ask);
    checkFallback(context, take.otherwise, ask);
    return;
  }
  const value =
    take.does === "constant"
      ? take.value
      : take.does === "value"
        ? context.scope.signature(take.name)?.constant
        : undefined;
  if (declared === undefined || !isOrdered(declared.type)) return;
  if (value === undefined || range.low >= range.high || !isBeyond(value, range)) return;
  const write = (amount: number) => writeValue(amount, declared.type, declared.unit);
  fault(context, "ask/fallback", take.at, {
    name,
    value: write(value),
    low: write(range.low),
    high: write(range.high),
  });
}
