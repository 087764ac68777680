// Checks one rule from the leaves up and gives it back with every name resolved and every part typed.
// A part that has its own finding becomes `anything`, so that one mistake is one finding.
import type { Span } from "../../../core/span.ts";
import {
  ANYTHING,
  COUNT,
  NUMBER,
  type Type,
  YES_NO,
  fits,
  isOrdered,
  quantity,
  typeName,
} from "../../../core/type.ts";
import { TIME } from "../../../core/dimension.ts";
import { simpleUnit } from "../../../core/unit.ts";
import type { Expr, Word } from "../syntax/tree.ts";
import { literal, spoilt, unitAt } from "./amount.ts";
import { checkAs, unitOf, unknownName, unlike, wrong } from "./mismatches.ts";
import { arithmetic, countedIn, power, roundRule } from "./arithmetic.ts";
import { rowAbove } from "./before.ts";
import { openCases } from "./cases.ts";
import { callRule } from "./call.ts";
import { ofKnown } from "./of-known.ts";
import { nearest } from "./did-you-mean.ts";
import type { Rule, TextRule } from "./rule.ts";
import { type CheckContext, type Kind, fault } from "./scope.ts";
import type { Text } from "../syntax/tree.ts";

/** Checks `expr`. `hint` lets a bare word find its kind; it demands nothing. */
export function check(context: CheckContext, expr: Expr, hint?: Type): Rule {
  const plain = literal(context, expr);
  if (plain !== undefined) return plain;
  switch (expr.is) {
    case "number":
    case "truth":
    case "mix":
    case "taper":
    case "quantity":
      return spoilt(expr.at);
    case "text":
      return { does: "text", at: expr.at, type: { is: "text" }, text: checkText(context, expr.text) };
    case "name":
      return named(context, expr, hint);
    case "call":
      return callRule(context, expr);
    case "before":
      return rowAbove(context, expr);
    case "counted":
      return countedIn(context, expr);
    case "minus": {
      const of = check(context, expr.of);
      if (of.type.is === "anything") return spoilt(expr.at);
      if (
        of.type.is === "temperature" ||
        !isOrdered(of.type) ||
        of.type.is === "taper" ||
        of.type.is === "mix"
      )
        return wrong(context, of, "a number or an amount", "to be turned negative");
      return {
        does: "negate",
        at: expr.at,
        type: of.type.is === "count" ? NUMBER : of.type,
        of,
        ...unitOf(of),
      };
    }
    case "not":
      return { does: "not", at: expr.at, type: YES_NO, of: condition(context, expr.of, "after not") };
    case "binary":
      return binary(context, expr);
    case "round":
      return roundRule(context, expr);
    case "in-band":
      return inBand(context, expr);
    case "one-of":
      return oneOf(context, expr);
    case "known": {
      const known: Rule = { does: "known", at: expr.at, type: YES_NO, of: check(context, expr.of) };
      return expr.not ? negated(known) : known;
    }
    case "among":
      return among(context, expr);
    case "of-known":
      return ofKnown(context, expr);
    case "choose":
      return choose(context, expr, hint);
    case "gather":
      return gather(context, expr);
  }
}

export const condition = (context: CheckContext, expr: Expr, where: string): Rule =>
  checkAs(context, expr, { type: YES_NO, because: `a condition ${where} is yes or no` });

const negated = (of: Rule): Rule => ({ does: "not", at: of.at, type: YES_NO, of });

// ───────────── names ─────────────

function named(context: CheckContext, expr: Extract<Expr, { is: "name" }>, hint: Type | undefined): Rule {
  const { name, at } = expr;
  if (name === "") return spoilt(at);
  const local = context.locals.get(name);
  if (local !== undefined && expr.field === undefined)
    return { does: "local", at, type: local.type, name, ...(local.unit ? { unit: local.unit } : {}) };

  const known = context.scope.signature(name);
  if (known !== undefined) {
    if (known.what === "formula") {
      fault(context, "name/formula", at, { name });
      return spoilt(at);
    }
    if (known.calledOnly === true) {
      fault(context, "chart/called", at, {
        name,
        wants: known.chart?.conditions.map((one) => one.name) ?? [],
        column: expr.field?.text,
      });
      return spoilt(at);
    }
    if (expr.field !== undefined) return column(context, expr, name, expr.field, known.type);
    if (known.type.is === "row") {
      fault(context, "name/column", at, {
        name,
        columns: known.type.columns.map((c) => c.name),
        written: undefined,
      });
      return spoilt(at);
    }
    return { does: "value", at, type: known.type, name, ...(known.unit ? { unit: known.unit } : {}) };
  }
  if (context.scope.spoiled(name)) return spoilt(at);
  if (expr.field === undefined) {
    const word = kindWord(context, name, at, hint);
    if (word !== undefined) return word;
    if (name === "pi") return { does: "constant", at, type: NUMBER, value: Math.PI };
    if (name === "stopped") return { does: "stopped", at, type: YES_NO };
  }
  return unknownName(context, { at: { start: at.start, end: at.start + name.length }, text: name }, hint);
}

/** A word of a kind: of the kind that is looked for, else of the one kind that has it. */
function kindWord(context: CheckContext, word: string, at: Span, hint: Type | undefined): Rule | undefined {
  const kinds = context.scope.kindsWith(word);
  const kind: Kind | undefined =
    kinds.find((one) => hint?.is === "kind" && one.name === hint.kind) ?? kinds[0];
  if (kind === undefined) return undefined;
  // Beside something that has a finding already, nobody can say which kind is meant.
  if (kinds.length > 1 && hint?.is === "anything") return spoilt(at);
  if (kinds.length > 1 && hint?.is !== "kind") {
    fault(context, "kind/which", at, { word, kinds: kinds.map((one) => one.name) });
    return spoilt(at);
  }
  return {
    does: "constant",
    at,
    type: { is: "kind", kind: kind.name, words: kind.words },
    value: kind.words.indexOf(word),
  };
}

function column(context: CheckContext, expr: Expr, name: string, field: Word, type: Type): Rule {
  if (type.is === "anything") return spoilt(expr.at);
  if (type.is === "list") {
    fault(context, "list/whole", expr.at, { name, column: field.text });
    return spoilt(expr.at);
  }
  if (type.is !== "row") {
    fault(context, "name/no-column", field.at, { name, type: typeName(type) });
    return spoilt(expr.at);
  }
  const index = type.columns.findIndex((one) => one.name === field.text);
  if (index < 0) {
    const near = nearest(
      field.text,
      type.columns.map((one) => one.name),
    );
    fault(
      context,
      "name/column",
      field.at,
      { name, written: field.text, columns: type.columns.map((one) => one.name) },
      near ? [{ says: `Write ${near}`, edits: [{ at: field.at, text: near }] }] : [],
    );
    return spoilt(expr.at);
  }
  const one = type.columns[index]!;
  return {
    does: "value",
    at: expr.at,
    type: one.type,
    name,
    column: index,
    ...(one.unit ? { unit: one.unit } : {}),
  };
}

// ───────────── operators ─────────────

function binary(context: CheckContext, expr: Extract<Expr, { is: "binary" }>): Rule {
  switch (expr.op) {
    case "and":
    case "or": {
      const left = condition(context, expr.left, `beside ${expr.op}`);
      const right = condition(context, expr.right, `beside ${expr.op}`);
      return { does: expr.op, at: expr.at, type: YES_NO, left, right };
    }
    case "<":
    case "<=":
    case ">":
    case ">=":
    case "is":
    case "is not":
      return compare(context, expr);
    case "^":
      return power(context, expr);
    case "+":
    case "-":
    case "*":
    case "/":
    case "of":
    case "run out at":
    case "paired at":
      return arithmetic(context, expr);
  }
}

function compare(context: CheckContext, expr: Extract<Expr, { is: "binary" }>): Rule {
  const [left, right] = alike(context, expr.left, expr.right, "compare", expr.at);
  const made = (does: Rule): Rule => does;
  if (left.type.is === "anything" || right.type.is === "anything") return spoilt(expr.at, YES_NO);
  if (
    left.type.is === "text" ||
    left.type.is === "list" ||
    left.type.is === "row" ||
    left.type.is === "kept"
  ) {
    wrong(context, left, "a value that can be compared", `it stands beside ${expr.op}`);
    return spoilt(expr.at, YES_NO);
  }
  const base = { at: expr.at, type: YES_NO } as const;
  switch (expr.op) {
    case "is":
    case "is not":
      return made({ ...base, does: "compare", op: expr.op, left, right });
    case "<":
    case "<=":
      return made({ ...base, does: "compare", op: expr.op, left, right });
    case ">":
      return made({ ...base, does: "compare", op: "<", left: right, right: left });
    case ">=":
      return made({ ...base, does: "compare", op: "<=", left: right, right: left });
    case "+":
    case "-":
    case "*":
    case "/":
    case "^":
    case "of":
    case "run out at":
    case "paired at":
    case "and":
    case "or":
      return spoilt(expr.at);
  }
}

/** Checks two sides that must be of one type, and says which side lacks what. */
function alike(
  context: CheckContext,
  leftExpr: Expr,
  rightExpr: Expr,
  doing: string,
  at: Span,
): [Rule, Rule] {
  // The side that is no bare word goes first, so that a word finds its kind whichever side it is on.
  const leftFirst = !(
    leftExpr.is === "name" &&
    context.scope.signature(leftExpr.name) === undefined &&
    !context.locals.has(leftExpr.name)
  );
  let left: Rule;
  let right: Rule;
  if (leftFirst) {
    left = check(context, leftExpr);
    right = check(context, rightExpr, left.type);
  } else {
    right = check(context, rightExpr);
    left = check(context, leftExpr, right.type);
  }
  if (fits(left.type, right.type) || fits(right.type, left.type)) return [left, right];
  unlike(context, { left, right, leftExpr, rightExpr }, doing, at);
  return [spoilt(left.at), spoilt(right.at)];
}

function inBand(context: CheckContext, expr: Extract<Expr, { is: "in-band" }>): Rule {
  const of = check(context, expr.of);
  if (of.type.is !== "anything" && !isOrdered(of.type))
    return wrong(context, of, "an amount that can lie in a band", "it is compared with one");
  const end = (side: Expr | undefined): Rule | undefined => {
    if (side === undefined) return undefined;
    const rule = check(context, side);
    if (fits(rule.type, of.type) || fits(of.type, rule.type)) return rule;
    unlike(context, { left: of, right: rule, leftExpr: expr.of, rightExpr: side }, "compare", expr.at);
    return spoilt(side.at);
  };
  const low = end(expr.band.low);
  const high = end(expr.band.high);
  if (low?.does === "constant" && high?.does === "constant") {
    const same = low.value === high.value;
    if (low.value > high.value || (same && !(expr.band.lowIn && expr.band.highIn)))
      fault(context, "band/upside-down", expr.band.at, {
        text: context.source.slice(expr.band.at.start, expr.band.at.end),
        same,
      });
  }
  const rule: Rule = {
    does: "band",
    at: expr.at,
    type: YES_NO,
    of,
    ...(low ? { low } : {}),
    lowIn: expr.band.lowIn,
    ...(high ? { high } : {}),
    highIn: expr.band.highIn,
  };
  return expr.not ? negated(rule) : rule;
}

function oneOf(context: CheckContext, expr: Extract<Expr, { is: "one-of" }>): Rule {
  const of = check(context, expr.of);
  if (of.type.is === "anything") return spoilt(expr.at, YES_NO);
  if (of.type.is === "kind") {
    const words: number[] = [];
    for (const item of expr.items) {
      const rule = check(context, item, of.type);
      if (rule.type.is === "anything") continue;
      if (rule.does === "constant" && fits(rule.type, of.type)) words.push(rule.value);
      else if (rule.type.is === "kind" && rule.type.kind !== of.type.kind)
        fault(context, "kind/mismatch", item.at, {
          has: rule.type.kind,
          wants: of.type.kind,
          because: "each item is a word of that kind",
        });
      else
        fault(context, "type/wanted", item.at, {
          has: rule.type.is === "kind" ? "worked out" : typeName(rule.type),
          wants: `a word of ${of.type.kind}`,
          because: "each item is such a word",
        });
    }
    const rule: Rule = { does: "words", at: expr.at, type: YES_NO, of, words };
    return expr.not ? negated(rule) : rule;
  }
  const each = expr.items.map((item): Rule => {
    const right = check(context, item, of.type);
    if (!fits(right.type, of.type) && !fits(of.type, right.type))
      unlike(context, { left: of, right, leftExpr: expr.of, rightExpr: item }, "compare", item.at);
    return { does: "compare", at: item.at, type: YES_NO, op: "is", left: of, right };
  });
  const rule = each.reduce((left, right): Rule => ({ does: "or", at: expr.at, type: YES_NO, left, right }));
  return expr.not ? negated(rule) : rule;
}

function among(context: CheckContext, expr: Extract<Expr, { is: "among" }>): Rule {
  const chart = context.scope.signature(expr.chart.text);
  if (chart === undefined) {
    if (context.scope.spoiled(expr.chart.text)) return spoilt(expr.at, YES_NO);
    return { ...unknownName(context, expr.chart), type: YES_NO };
  }
  if (chart.type.is !== "kept") {
    if (chart.type.is !== "anything")
      fault(context, "chart/not-kept", expr.chart.at, { name: expr.chart.text, doing: "is among" });
    return spoilt(expr.at, YES_NO);
  }
  const of = checkAs(context, expr.of, {
    type: chart.type.of,
    because: `${expr.chart.text} keeps such values`,
  });
  const rule: Rule = { does: "left-among", at: expr.at, type: YES_NO, chart: expr.chart.text, of };
  return expr.not ? negated(rule) : rule;
}

function choose(context: CheckContext, expr: Extract<Expr, { is: "choose" }>, hint: Type | undefined): Rule {
  let type = hint;
  const values = [...expr.cases.map((one) => one.value), ...(expr.otherwise ? [expr.otherwise] : [])];
  const rules: Rule[] = [];
  let found: Rule | undefined;
  for (const value of values) {
    const rule = check(context, value, type);
    rules.push(rule);
    if (rule.type.is === "anything") continue;
    if (found === undefined) {
      found = rule;
      type ??= rule.type;
      continue;
    }
    if (fits(rule.type, found.type)) continue;
    if (fits(found.type, rule.type)) {
      found = rule;
      continue;
    }
    unlike(
      context,
      { left: found, right: rule, leftExpr: values[rules.indexOf(found)]!, rightExpr: value },
      "choose between",
      rule.at,
    );
    rules[rules.length - 1] = spoilt(rule.at);
  }
  const whens = expr.cases.map((one) => condition(context, one.when, "after if"));
  const cases = expr.cases.map((_, i) => ({ value: rules[i]!, when: whens[i]! }));
  if (expr.otherwise === undefined) openCases(context, expr.at, whens);
  const otherwise: Rule =
    expr.otherwise !== undefined
      ? rules.at(-1)!
      : {
          does: "none",
          at: expr.at,
          type: found?.type ?? ANYTHING,
          reason: { code: "no-alternative" },
        };
  return {
    does: "choose",
    at: expr.at,
    type: found?.type ?? ANYTHING,
    cases,
    otherwise,
    ...(found ? unitOf(found) : {}),
  };
}

function gather(context: CheckContext, expr: Extract<Expr, { is: "gather" }>): Rule {
  const { text: name } = expr.from;
  const from = context.scope.signature(name);
  if (from === undefined) {
    if (context.scope.spoiled(name)) return spoilt(expr.at);
    if (name === "steps") return ofSteps(context, expr);
    unknownName(context, expr.from);
    return spoilt(expr.at);
  }
  if (from.type.is === "anything") return spoilt(expr.at);
  if (
    from.type.is === "kept" &&
    expr.field === undefined &&
    (expr.what === "count" || expr.what === "first")
  ) {
    return expr.what === "count"
      ? { does: "left-count", at: expr.at, type: COUNT, chart: name }
      : { does: "left-first", at: expr.at, type: from.type.of, chart: name };
  }
  if (from.type.is !== "list") {
    fault(context, "list/wanted", expr.from.at, {
      name,
      doing: `${expr.what} of`,
      type: typeName(from.type),
    });
    return spoilt(expr.at);
  }
  if (expr.what === "count")
    return { does: "gather", at: expr.at, type: COUNT, what: "count", list: name, column: 0 };
  const index = from.type.columns.findIndex((one) => one.name === expr.field?.text);
  if (index < 0) {
    const columns = from.type.columns.map((one) => one.name);
    const near = expr.field && nearest(expr.field.text, columns);
    fault(
      context,
      "name/column",
      expr.field?.at ?? expr.from.at,
      { name, written: expr.field?.text, columns },
      near ? [{ says: `Write ${near}`, edits: [{ at: expr.field!.at, text: near }] }] : [],
    );
    return spoilt(expr.at);
  }
  const one = from.type.columns[index]!;
  if (
    expr.what === "sum" &&
    !(one.type.is === "quantity" || one.type.is === "count" || one.type.is === "share")
  )
    return wrong(
      context,
      { does: "none", at: expr.at, type: one.type, reason: { code: "part-finding" } },
      "amounts that can be added",
      "sum of adds them",
    );
  if ((expr.what === "largest" || expr.what === "smallest") && !isOrdered(one.type) && one.type.is !== "kind")
    return wrong(
      context,
      { does: "none", at: expr.at, type: one.type, reason: { code: "part-finding" } },
      "values that have an order",
      `${expr.what} of compares them`,
    );
  return {
    does: "gather",
    at: expr.at,
    type: one.type,
    what: expr.what,
    list: name,
    column: index,
    ...(one.unit ? { unit: one.unit } : {}),
  };
}

/** The steps that apply in the job, where nothing of the book is called `steps`. */
function ofSteps(context: CheckContext, expr: Extract<Expr, { is: "gather" }>): Rule {
  const field = expr.field?.text;
  if (expr.what === "count" && field === undefined)
    return { does: "of-steps", at: expr.at, type: COUNT, what: "count" };
  if (expr.what === "sum" && (field === "takes" || field === "waits"))
    return {
      does: "of-steps",
      at: expr.at,
      type: quantity(TIME),
      what: field,
      ...unitOf({ unit: simpleUnit("min") }),
    };
  fault(context, "steps/what", expr.at, {});
  return spoilt(expr.at);
}

// ───────────── texts ─────────────

/** Checks the inserts of a text. */
export function checkText(context: CheckContext, text: Text): TextRule {
  const inside: CheckContext = { ...context, inText: true };
  return {
    pieces: text.pieces.map((piece) => {
      if (typeof piece === "string") return piece;
      const rule = check(inside, piece.rule);
      const unit = piece.unit && unitAt(inside, piece.unit);
      if (unit !== undefined && rule.type.is !== "anything") {
        const fit =
          rule.type.is === "temperature"
            ? unit.sense === "temperature"
            : rule.type.is === "quantity"
              ? unit.sense === "amount" && unit.dimension.join() === rule.type.dimension.join()
              : rule.type.is === "share" && unit.symbol.startsWith("%");
        if (!fit)
          fault(inside, "unit/declared", piece.unit!.at, {
            unit: unit.symbol,
            type: typeName(rule.type),
            where: "in a text",
          });
      }
      const name = piece.rule.is === "name" ? piece.rule.name : undefined;
      return { rule, ...(unit ? { unit } : {}), ...(name !== undefined ? { name } : {}) };
    }),
  };
}
