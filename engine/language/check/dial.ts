// Checks a dial: its value, which is written out, the span it may be turned in, and, where a layer turns it,
// the span of the dial underneath.
import type { Span } from "../../../core/span.ts";
import { writeValue } from "../../../core/format.ts";
import { COUNT, type Type, fits, isNumber, typeName } from "../../../core/type.ts";
import type { Unit } from "../../../core/unit.ts";
import type { Expr, Statement } from "../syntax/tree.ts";
import { spoilt } from "./amount.ts";
import { type Resolved, inUnit, resolve } from "./declared.ts";
import { check } from "./expression.ts";
import { type Range, isBeyond } from "./range.ts";
import type { Rule } from "./rule.ts";
import { type CheckContext, type Signature, fault, signature } from "./scope.ts";

type DialBody = Extract<Statement["body"], { keyword: "dial" }>;

/** A dial whose value is known, while its span is checked. */
interface Dial {
  readonly statement: Statement;
  readonly body: DialBody;
  readonly rule: Rule;
  readonly type: Type;
  readonly unit: Unit | undefined;
}

export function checkDial(
  context: CheckContext,
  body: DialBody,
  statement: Statement,
): { readonly rule: Rule; readonly span?: Range; readonly signature: Signature } {
  const declared = resolve(context, body.declared);
  const first = check(context, body.rule, declared?.type);
  const rule = literalOnly(context, settingOf(context, body, first, declared, statement), statement);
  const type = declared?.type ?? (isPlainCount(body.rule, first) ? COUNT : rule.type);
  const unit = declared?.unit ?? first.unit;
  const dial: Dial = { statement, body, rule, type, unit };
  const span = withinBelow(context, dial, ownSpan(context, dial));
  return {
    rule,
    ...(span ? { span } : {}),
    signature: signature({
      what: "dial",
      type,
      unit,
      ...(span ? { range: span } : {}),
      ...(rule.does === "constant" ? { constant: rule.value } : {}),
    }),
  };
}

/** The dial's value as what it is declared to be. */
function settingOf(
  context: CheckContext,
  body: DialBody,
  first: Rule,
  declared: Resolved | undefined,
  { name }: Statement,
): Rule {
  if (declared === undefined) return first;
  if (body.rule.is === "number" && declared.unit !== undefined)
    return {
      ...first,
      type: declared.type,
      value: inUnit(context, body.rule, declared) ?? 0,
      does: "constant",
    } as Rule;
  if (fits(first.type, declared.type) || (declared.type.is === "count" && isNumber(first.type))) return first;
  fault(context, "unit/declared", first.at, {
    unit: declared.unit?.symbol,
    wants: typeName(declared.type),
    type: typeName(first.type),
    where: `for ${name!.text}`,
  });
  return spoilt(first.at, declared.type);
}

function literalOnly(context: CheckContext, rule: Rule, { name }: Statement): Rule {
  if (rule.does === "constant" || rule.type.is === "anything" || rule.does === "none" || rule.does === "text")
    return rule;
  fault(context, "dial/literal", rule.at, { name: name!.text });
  return spoilt(rule.at, rule.type);
}

/** A whole number without a unit, which is a count where nothing else is declared. */
const isPlainCount = (expr: Expr, rule: Rule): boolean =>
  rule.does === "constant" &&
  rule.type.is === "quantity" &&
  expr.is === "number" &&
  Number.isInteger(expr.value) &&
  expr.value >= 0;

/** The span that the dial's own text gives. */
function ownSpan(context: CheckContext, { statement, body, rule, unit }: Dial): Range | undefined {
  const { range } = body;
  if (range === undefined) return undefined;
  const name = statement.name!.text;
  const low = inUnit(context, range.low, { type: rule.type, unit });
  const high = inUnit(context, range.high, { type: rule.type, unit });
  if (low === undefined || high === undefined) return undefined;
  if (low > high) {
    fault(context, "dial/span", spanOf(range), { name, upsideDown: true });
    return undefined;
  }
  const written = ({ at }: Expr) => context.source.slice(at.start, at.end);
  if (rule.does === "constant" && isBeyond(rule.value, { low, high }))
    fault(context, "dial/span", body.rule.at, {
      name,
      value: written(body.rule),
      low: written(range.low),
      high: written(range.high),
    });
  return { low, high };
}

const spanOf = ({ low, high }: { readonly low: Expr; readonly high: Expr }): Span => ({
  start: low.at.start,
  end: high.at.end,
});

/**
 * A dial that replaces another stays within the span of the one below, and has that span unless it says a
 * narrower one.
 */
function withinBelow(context: CheckContext, dial: Dial, span: Range | undefined): Range | undefined {
  const { statement, body, rule, type, unit } = dial;
  const below = statement.below === undefined ? undefined : context.scope.signature(statement.below);
  if (below === undefined) return span;
  if (!fits(type, below.type) && type.is !== "anything" && below.type.is !== "anything")
    fault(context, "unit/declared", body.rule.at, {
      unit: below.unit?.symbol,
      wants: typeName(below.type),
      type: typeName(type),
      where: `for ${statement.name!.text}, as the book below has it`,
    });
  const { range } = below;
  if (range === undefined || !fits(type, below.type)) return span;
  const facts = {
    name: statement.name!.text,
    low: writeValue(range.low, below.type, below.unit ?? unit),
    high: writeValue(range.high, below.type, below.unit ?? unit),
  };
  if (rule.does === "constant" && isBeyond(rule.value, range))
    fault(context, "layer/span", body.rule.at, {
      ...facts,
      value: context.source.slice(body.rule.at.start, body.rule.at.end),
    });
  if (
    span !== undefined &&
    body.range !== undefined &&
    (isBeyond(span.low, range) || isBeyond(span.high, range))
  )
    fault(context, "layer/span", spanOf(body.range), { ...facts, span: true });
  return span === undefined
    ? range
    : { low: Math.max(span.low, range.low), high: Math.min(span.high, range.high) };
}
