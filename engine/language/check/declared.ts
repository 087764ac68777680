// What a value is declared to be: the unit or kind behind `in` and `of`, and a rule or a literal that must
// suit it.
import type { Span } from "../../../core/span.ts";
import {
  ANYTHING,
  type Column,
  NUMBER,
  TAPER,
  type Type,
  YES_NO,
  fits,
  isNumber,
  typeName,
  typeOfUnit,
} from "../../../core/type.ts";
import type { Unit } from "../../../core/unit.ts";
import type { ChartOut, Declared, Expr, Word } from "../syntax/tree.ts";
import { literal, spoilt, unitAt } from "./amount.ts";
import { check } from "./expression.ts";
import { isWhole, notWhole } from "./mismatches.ts";
import { nearest } from "./did-you-mean.ts";
import type { Rule } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";

export interface Resolved {
  readonly type: Type;
  readonly unit: Unit | undefined;
}

export function resolve(context: CheckContext, declared: Declared): Resolved | undefined {
  if (declared === undefined) return undefined;
  if ("in" in declared) {
    // What is counted in no unit is said in words: `factor in number`, `slope in taper`.
    const { text, apart, by } = declared.in;
    if ((text === "number" || text === "taper") && !apart && by === undefined)
      return { type: text === "number" ? NUMBER : TAPER, unit: undefined };
    const unit = unitAt(context, declared.in);
    return unit && { type: typeOfUnit(unit), unit: unit.sense === "count" ? undefined : unit };
  }
  return named(context, declared.of);
}

function named(context: CheckContext, word: Word): Resolved | undefined {
  if (word.text === "yes-no") return { type: YES_NO, unit: undefined };
  const kind = context.scope.kind(word.text);
  if (kind !== undefined)
    return { type: { is: "kind", kind: kind.name, words: kind.words }, unit: undefined };
  if (context.scope.spoiled(`kind ${word.text}`)) return { type: ANYTHING, unit: undefined };
  const near = nearest(word.text, [...context.scope.kinds(), "yes-no"]);
  fault(
    context,
    "kind/unknown",
    word.at,
    { name: word.text, near },
    near ? [{ says: `Write ${near}`, edits: [{ at: word.at, text: near }] }] : [],
  );
  return undefined;
}

/**
 * `gives` of a chart: a unit, a kind, `yes-no`, `number`, `taper`, `text`, each perhaps with a column's name.
 */
export function chartOut(context: CheckContext, out: ChartOut, chart: string, count: number): Column {
  const column = (resolved: Resolved | undefined, name: string): Column => ({
    name,
    type: resolved?.type ?? ANYTHING,
    unit: resolved?.unit,
  });
  const own = out.name?.text ?? chart;
  if (out.declared === undefined) return column(undefined, own);
  if (!("bare" in out.declared)) {
    const kindName = "of" in out.declared ? out.declared.of.text : undefined;
    return column(
      resolve(context, out.declared),
      out.name?.text ?? (count > 1 && kindName ? kindName : chart),
    );
  }
  const { bare } = out.declared;
  if (context.scope.kind(bare.text) !== undefined || bare.text === "yes-no")
    return column(named(context, bare), count > 1 ? bare.text : chart);
  const plain: Record<string, Type> = { number: NUMBER, text: { is: "text" }, taper: { is: "taper" } };
  if (Object.hasOwn(plain, bare.text))
    return column({ type: plain[bare.text]!, unit: undefined }, count > 1 ? bare.text : chart);
  const before = context.faults.length;
  const unit = unitAt(context, { at: bare.at, text: bare.text, apart: false });
  if (unit !== undefined)
    return column({ type: typeOfUnit(unit), unit: unit.sense === "count" ? undefined : unit }, chart);
  // Neither a unit nor a kind: say so once, with both in mind.
  context.faults.length = before;
  if (!context.scope.spoiled(`kind ${bare.text}`)) {
    const near = nearest(bare.text, [...context.scope.kinds(), "yes-no", "number", "text", "taper"]);
    fault(
      context,
      "chart/gives",
      bare.at,
      { name: bare.text, near },
      near ? [{ says: `Write ${near}`, edits: [{ at: bare.at, text: near }] }] : [],
    );
  }
  return column(undefined, chart);
}

/** A rule that must be what its figure declares. */
export function declaredRule(
  context: CheckContext,
  expr: Expr,
  declared: Resolved | undefined,
  name: string,
): Rule {
  const rule = check(context, expr, declared?.type);
  if (declared === undefined || declared.type.is === "anything" || fits(rule.type, declared.type)) {
    if (rule.type.is === "row" || rule.type.is === "list") {
      fault(context, "type/wanted", rule.at, {
        has: typeName(rule.type),
        wants: "one value",
        because: `${name} is a figure`,
      });
      return spoilt(rule.at);
    }
    return rule;
  }
  // A plain number is shown as a share when that is asked for: 0.15 in %.
  if (declared.type.is === "share" && declared.type.by === "plain" && isNumber(rule.type))
    return { ...rule, type: declared.type };
  if (isNumber(declared.type) && rule.type.is === "share" && rule.type.by === "plain")
    return { ...rule, type: NUMBER };
  if (declared.type.is === "count" && isWhole(rule)) return { ...rule, type: declared.type };
  if (declared.type.is === "count" && isNumber(rule.type)) {
    notWhole(context, expr, { name });
    return spoilt(rule.at, declared.type);
  }
  const at = rule.at;
  if (rule.type.is === "kind" && declared.type.is === "kind")
    fault(context, "kind/mismatch", at, {
      has: rule.type.kind,
      wants: declared.type.kind,
      because: `${name} is declared so`,
    });
  else
    fault(
      context,
      "unit/declared",
      at,
      {
        unit: declared.unit?.symbol,
        wants: typeName(declared.type),
        type: typeName(rule.type),
        where: `for ${name}`,
        bare: expr.is === "number",
      },
      expr.is === "number" && declared.unit
        ? [
            {
              says: `Write ${context.source.slice(at.start, at.end)} ${declared.unit.symbol}`,
              edits: [{ at, text: `${context.source.slice(at.start, at.end)} ${declared.unit.symbol}` }],
            },
          ]
        : [],
    );
  return spoilt(at, declared.type);
}

/** A literal in SI; a bare number is in the unit of what it belongs to. */
export function inUnit(context: CheckContext, expr: Expr, of: Resolved, step = false): number | undefined {
  const rule = literal(context, expr) ?? check(context, expr, of.type);
  if (rule.does !== "constant") return undefined;
  if (expr.is === "number" && of.unit !== undefined) {
    const value = step ? expr.value * of.unit.factor : roundDust(expr.value * of.unit.factor + of.unit.zero);
    return Number.isFinite(value) ? value : tooLarge(context, expr.at);
  }
  const temperatureStep =
    step &&
    of.type.is === "temperature" &&
    (rule.type.is === "temperature" ||
      (rule.type.is === "quantity" && rule.type.dimension.join() === "0,0,0,1,0,0"));
  if (temperatureStep)
    return rule.type.is === "temperature" ? rule.value - (rule.unit?.zero ?? 0) : rule.value;
  if (!fits(rule.type, of.type) && !(of.type.is === "count" && isNumber(rule.type))) {
    fault(context, "unit/declared", rule.at, {
      unit: of.unit?.symbol,
      wants: typeName(of.type),
      type: typeName(rule.type),
      where: "here",
    });
    return undefined;
  }
  return rule.value;
}

function tooLarge(context: CheckContext, at: Span): undefined {
  fault(context, "number/size", at, { text: context.source.slice(at.start, at.end) });
}

const roundDust = (x: number): number => Number(x.toPrecision(15));
