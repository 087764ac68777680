// Checks an ask: what its answer may be, how finely it is measured, and what is taken when nobody can tell.
import { writeValue } from "../../../core/format.ts";
import { ANYTHING, isOrdered } from "../../../core/type.ts";
import type { Statement, Word } from "../syntax/tree.ts";
import { type Resolved, inUnit, resolve } from "./declared.ts";
import { checkDrawn } from "./drawn-as.ts";
import { checkAs } from "./mismatches.ts";
import { type Range, isBeyond } from "./range.ts";
import type { Rule } from "./rule.ts";
import { type CheckContext, type Signature, fault, signature } from "./scope.ts";

const EVERYTHING: Range = { low: -Infinity, high: Infinity };

export interface CheckedAsk extends Range {
  readonly resolution?: number;
  readonly take?: Rule;
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
  const step =
    clauses.measured &&
    inUnit(context, clauses.measured, declared ?? { type: ANYTHING, unit: undefined }, true);
  const drawn = clauses.drawn && checkDrawn(context, clauses.drawn, name.text, type);
  const take =
    clauses.ifUnknown &&
    checkAs(context, clauses.ifUnknown.take, { type, because: `it is taken for ${name.text}` });
  if (take !== undefined) checkFallback(context, take, { name: name.text, declared, range });
  return {
    signature: signature({ what: "ask", type, unit: declared?.unit, range }),
    ask: {
      ...range,
      ...(step !== undefined ? { resolution: step } : {}),
      ...(take ? { take } : {}),
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

/** What is taken must be an answer that could have been given, as far as it is written out. */
function checkFallback(
  context: CheckContext,
  take: Rule,
  ask: { readonly name: string; readonly declared: Resolved | undefined; readonly range: Range },
): void {
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
