// Checks one rule from the leaves up and gives it back with every name resolved and every part typed.
// A part that has its own finding becomes `anything`, so that one mistake is told once.
import type { Span } from "../../core/span.ts";
import { ANYTHING, COUNT, NUMBER, type Type, YES_NO, fits, isNumber, isOrdered, typeName } from "../../core/type.ts";
import type { Unit } from "../../core/unit.ts";
import type { Expr, Word } from "../syntax/tree.ts";
import { literal, spoilt, unitAt } from "./amount.ts";
import { arithmetic, power, roundRule } from "./arithmetic.ts";
import { openCases } from "./cases.ts";
import { callRule } from "./call.ts";
import { nearest } from "./near.ts";
import type { Rule, TextRule } from "./rule.ts";
import { type Desk, type Kind, fault } from "./scope.ts";
import type { Text } from "../syntax/tree.ts";

/** What a rule is asked for, and why, so that a message can say so. */
export interface Wanted {
  readonly type: Type;
  readonly because: string;
}

/** Checks `expr`. `hint` lets a bare word find its kind; it demands nothing. */
export function check(desk: Desk, expr: Expr, hint?: Type): Rule {
  const plain = literal(desk, expr);
  if (plain !== undefined) return plain;
  switch (expr.is) {
    case "number": case "truth": case "mix": case "taper": case "quantity": return spoilt(expr.at);
    case "text": return { does: "text", at: expr.at, type: { is: "text" }, text: checkText(desk, expr.text) };
    case "name": return named(desk, expr, hint);
    case "call": return callRule(desk, expr);
    case "minus": {
      const of = check(desk, expr.of);
      if (of.type.is === "anything") return spoilt(expr.at);
      if (of.type.is === "temperature" || !isOrdered(of.type) || of.type.is === "taper" || of.type.is === "mix") return wrong(desk, of, "a number or an amount", "to be turned negative");
      return { does: "negate", at: expr.at, type: of.type.is === "count" ? NUMBER : of.type, of, ...unitOf(of) };
    }
    case "not": return { does: "not", at: expr.at, type: YES_NO, of: condition(desk, expr.of, "after not") };
    case "binary": return binary(desk, expr);
    case "round": return roundRule(desk, expr);
    case "in-band": return inBand(desk, expr);
    case "one-of": return oneOf(desk, expr);
    case "known": {
      const known: Rule = { does: "known", at: expr.at, type: YES_NO, of: check(desk, expr.of) };
      return expr.not ? negated(known) : known;
    }
    case "among": return among(desk, expr);
    case "choose": return choose(desk, expr, hint);
    case "gather": return gather(desk, expr);
  }
}

/** A rule that must be of one type; a bare number gets a message of its own. */
export function checkAs(desk: Desk, expr: Expr, wanted: Wanted): Rule {
  const rule = check(desk, expr, wanted.type);
  if (fits(rule.type, wanted.type)) return rule;
  if (wanted.type.is === "kind" && rule.type.is === "kind") fault(desk, "kind/mismatch", rule.at, { has: rule.type.kind, wants: wanted.type.kind, because: wanted.because });
  else fault(desk, "type/wanted", rule.at, { has: typeName(rule.type), wants: typeName(wanted.type), because: wanted.because, bare: expr.is === "number" });
  return spoilt(rule.at);
}

export const condition = (desk: Desk, expr: Expr, where: string): Rule => checkAs(desk, expr, { type: YES_NO, because: `a condition ${where} is yes or no` });

export const unitOf = (rule: Rule): { unit?: Unit } => (rule.unit === undefined ? {} : { unit: rule.unit });

const negated = (of: Rule): Rule => ({ does: "not", at: of.at, type: YES_NO, of });

export function wrong(desk: Desk, rule: Rule, wants: string, because: string): Rule {
  fault(desk, "type/wanted", rule.at, { has: typeName(rule.type), wants, because });
  return spoilt(rule.at);
}

// ───────────── names ─────────────

function named(desk: Desk, expr: Extract<Expr, { is: "name" }>, hint: Type | undefined): Rule {
  const { name, at } = expr;
  if (name === "") return spoilt(at);
  const local = desk.locals.get(name);
  if (local !== undefined && expr.field === undefined) return { does: "local", at, type: local.type, name, ...(local.unit ? { unit: local.unit } : {}) };

  const known = desk.scope.signature(name);
  if (known !== undefined) {
    if (known.what === "formula") {
      fault(desk, "name/formula", at, { name });
      return spoilt(at);
    }
    if (expr.field !== undefined) return column(desk, expr, name, expr.field, known.type);
    if (known.type.is === "row") {
      fault(desk, "name/column", at, { name, columns: known.type.columns.map((c) => c.name), written: undefined });
      return spoilt(at);
    }
    return { does: "value", at, type: known.type, name, ...(known.unit ? { unit: known.unit } : {}) };
  }
  if (desk.scope.spoiled(name)) return spoilt(at);
  if (expr.field === undefined) {
    const word = kindWord(desk, name, at, hint);
    if (word !== undefined) return word;
    if (name === "pi") return { does: "constant", at, type: NUMBER, value: Math.PI };
    if (name === "stopped") return { does: "stopped", at, type: YES_NO };
  }
  return unknownName(desk, { at: { start: at.start, end: at.start + name.length }, text: name }, hint);
}

/** A word of a kind: of the kind that is looked for, else of the one kind that has it. */
function kindWord(desk: Desk, word: string, at: Span, hint: Type | undefined): Rule | undefined {
  const kinds = desk.scope.kindsWith(word);
  const kind: Kind | undefined = kinds.find((one) => hint?.is === "kind" && one.name === hint.kind) ?? kinds[0];
  if (kind === undefined) return undefined;
  if (kinds.length > 1 && hint?.is !== "kind") {
    fault(desk, "kind/which", at, { word, kinds: kinds.map((one) => one.name) });
    return spoilt(at);
  }
  return { does: "constant", at, type: { is: "kind", kind: kind.name, words: kind.words }, value: kind.words.indexOf(word) };
}

export function unknownName(desk: Desk, word: Word, hint?: Type): Rule {
  const { at, text: name } = word;
  const spaced = spacedForm(desk, name);
  if (spaced !== undefined) {
    fault(desk, "name/tight", at, { name, spaced }, [{ says: `Write ${spaced}`, edits: [{ at, text: spaced }] }]);
    return spoilt(at);
  }
  const words = hint?.is === "kind" ? hint.words : [];
  const near = nearest(name, [...desk.scope.names(), ...desk.locals.keys(), ...words]);
  const mends = near === undefined ? [] : [{ says: `Write ${near}`, edits: [{ at, text: near }] }];
  if (hint?.is === "kind" && !desk.inText) fault(desk, "kind/word", at, { word: name, kind: hint.kind, words: hint.words, near }, mends);
  else fault(desk, desk.inText ? "text/insert" : "name/unknown", at, { name, near }, mends);
  return spoilt(at);
}

/** `a-b` where `a` and `b` are known: a subtraction written too tight. */
function spacedForm(desk: Desk, name: string): string | undefined {
  const parts = name.split("-");
  for (let i = 1; i < parts.length; i++) {
    const [left, right] = [parts.slice(0, i).join("-"), parts.slice(i).join("-")];
    const is = (part: string) => desk.locals.has(part) || desk.scope.signature(part) !== undefined || /^\d+$/.test(part);
    if (is(left) && is(right)) return `${left} - ${right}`;
  }
  return undefined;
}

function column(desk: Desk, expr: Expr, name: string, field: Word, type: Type): Rule {
  if (type.is === "anything") return spoilt(expr.at);
  if (type.is === "list") {
    fault(desk, "list/whole", expr.at, { name, column: field.text });
    return spoilt(expr.at);
  }
  if (type.is !== "row") {
    fault(desk, "name/no-column", field.at, { name, type: typeName(type) });
    return spoilt(expr.at);
  }
  const index = type.columns.findIndex((one) => one.name === field.text);
  if (index < 0) {
    const near = nearest(field.text, type.columns.map((one) => one.name));
    fault(desk, "name/column", field.at, { name, written: field.text, columns: type.columns.map((one) => one.name) }, near ? [{ says: `Write ${near}`, edits: [{ at: field.at, text: near }] }] : []);
    return spoilt(expr.at);
  }
  const one = type.columns[index]!;
  return { does: "value", at: expr.at, type: one.type, name, column: index, ...(one.unit ? { unit: one.unit } : {}) };
}

// ───────────── operators ─────────────

function binary(desk: Desk, expr: Extract<Expr, { is: "binary" }>): Rule {
  switch (expr.op) {
    case "and": case "or": {
      const left = condition(desk, expr.left, `beside ${expr.op}`);
      const right = condition(desk, expr.right, `beside ${expr.op}`);
      return { does: expr.op, at: expr.at, type: YES_NO, left, right };
    }
    case "<": case "<=": case ">": case ">=": case "is": case "is not": return compare(desk, expr);
    case "^": return power(desk, expr);
    case "+": case "-": case "*": case "/": case "of": case "run out at": case "paired at": return arithmetic(desk, expr);
  }
}

function compare(desk: Desk, expr: Extract<Expr, { is: "binary" }>): Rule {
  const [left, right] = alike(desk, expr.left, expr.right, "compare", expr.at);
  const made = (does: Rule): Rule => does;
  if (left.type.is === "anything" || right.type.is === "anything") return spoilt(expr.at, YES_NO);
  if (left.type.is === "text" || left.type.is === "list" || left.type.is === "row" || left.type.is === "kept") {
    wrong(desk, left, "a value that can be compared", `it stands beside ${expr.op}`);
    return spoilt(expr.at, YES_NO);
  }
  const base = { at: expr.at, type: YES_NO } as const;
  switch (expr.op) {
    case "is": case "is not": return made({ ...base, does: "compare", op: expr.op, left, right });
    case "<": case "<=": return made({ ...base, does: "compare", op: expr.op, left, right });
    case ">": return made({ ...base, does: "compare", op: "<", left: right, right: left });
    case ">=": return made({ ...base, does: "compare", op: "<=", left: right, right: left });
    case "+": case "-": case "*": case "/": case "^": case "of": case "run out at": case "paired at": case "and": case "or": return spoilt(expr.at);
  }
}

/** Checks two sides that must be of one type, and says which side lacks what. */
export function alike(desk: Desk, leftExpr: Expr, rightExpr: Expr, doing: string, at: Span): [Rule, Rule] {
  // The side that is no bare word goes first, so that a word finds its kind whichever side it stands on.
  const leftFirst = !(leftExpr.is === "name" && desk.scope.signature(leftExpr.name) === undefined && !desk.locals.has(leftExpr.name));
  let left: Rule;
  let right: Rule;
  if (leftFirst) {
    left = check(desk, leftExpr);
    right = check(desk, rightExpr, left.type);
  } else {
    right = check(desk, rightExpr);
    left = check(desk, leftExpr, right.type);
  }
  if (fits(left.type, right.type) || fits(right.type, left.type)) return [left, right];
  unlike(desk, left, right, leftExpr, rightExpr, doing, at);
  return [spoilt(left.at), spoilt(right.at)];
}

/** One finding for two sides that do not go together: the plainest explanation that fits. */
export function unlike(desk: Desk, left: Rule, right: Rule, leftExpr: Expr, rightExpr: Expr, doing: string, at: Span): void {
  const bare = leftExpr.is === "number" ? ([leftExpr, right] as const) : rightExpr.is === "number" ? ([rightExpr, left] as const) : undefined;
  if (bare !== undefined && bare[1].type.is !== "kind" && isOrdered(bare[1].type)) {
    const [number, other] = bare;
    const unit = other.type.is === "share" ? `% ${other.type.by === "plain" ? "" : `by ${other.type.by}`}`.trim() : other.unit?.symbol;
    const text = desk.source.slice(number.at.start, number.at.end);
    fault(desk, "unit/bare", number.at, { number: text, type: typeName(other.type), unit, doing }, unit === undefined ? [] : [{ says: `Write ${text} ${unit}`, edits: [{ at: number.at, text: `${text} ${unit}` }] }]);
    return;
  }
  const sides = [left, right] as const;
  const point = sides.find((side) => side.type.is === "temperature");
  const apart = sides.find((side) => side.type.is === "quantity" && side.type.dimension.join() === "0,0,0,1,0,0");
  if (point !== undefined && apart !== undefined) {
    const pointExpr = point === left ? leftExpr : rightExpr;
    const mends = pointExpr.is === "quantity" ? [{ says: "Write apart after it", edits: [{ at: { start: pointExpr.at.end, end: pointExpr.at.end }, text: " apart" }] }] : [];
    fault(desk, "temperature/point", at, { doing, point: desk.source.slice(point.at.start, point.at.end), apart: desk.source.slice(apart.at.start, apart.at.end), literal: pointExpr.is === "quantity" }, mends);
    return;
  }
  if (left.type.is === "kind" && right.type.is === "kind") {
    fault(desk, "kind/mismatch", right.at, { has: right.type.kind, wants: left.type.kind, because: "both sides of a comparison are of one kind" });
    return;
  }
  const [one, two] = [left.type, right.type];
  if (one.is === "share" && two.is === "share") {
    fault(desk, "share/basis", at, { doing, left: one.by, right: two.by, amount: false });
    return;
  }
  fault(desk, "unit/mismatch", at, { doing, left: typeName(left.type), right: typeName(right.type), leftAt: left.at, rightAt: right.at });
}

function inBand(desk: Desk, expr: Extract<Expr, { is: "in-band" }>): Rule {
  const of = check(desk, expr.of);
  if (of.type.is !== "anything" && !isOrdered(of.type)) return wrong(desk, of, "an amount that can lie in a band", "it is compared with one");
  const end = (side: Expr | undefined): Rule | undefined => {
    if (side === undefined) return undefined;
    const rule = check(desk, side);
    if (fits(rule.type, of.type) || fits(of.type, rule.type)) return rule;
    unlike(desk, of, rule, expr.of, side, "compare", expr.at);
    return spoilt(side.at);
  };
  const low = end(expr.band.low);
  const high = end(expr.band.high);
  if (low?.does === "constant" && high?.does === "constant" && low.value > high.value) fault(desk, "band/upside-down", expr.band.at, { text: desk.source.slice(expr.band.at.start, expr.band.at.end) });
  const rule: Rule = { does: "band", at: expr.at, type: YES_NO, of, ...(low ? { low } : {}), lowIn: expr.band.lowIn, ...(high ? { high } : {}), highIn: expr.band.highIn };
  return expr.not ? negated(rule) : rule;
}

function oneOf(desk: Desk, expr: Extract<Expr, { is: "one-of" }>): Rule {
  const of = check(desk, expr.of);
  if (of.type.is === "anything") return spoilt(expr.at, YES_NO);
  if (of.type.is === "kind") {
    const words: number[] = [];
    for (const item of expr.items) {
      const rule = check(desk, item, of.type);
      if (rule.type.is === "anything") continue;
      if (rule.does === "constant" && fits(rule.type, of.type)) words.push(rule.value);
      else fault(desk, "kind/mismatch", item.at, { has: rule.type.is === "kind" ? rule.type.kind : typeName(rule.type), wants: of.type.kind, because: "each item is a word of that kind" });
    }
    const rule: Rule = { does: "words", at: expr.at, type: YES_NO, of, words };
    return expr.not ? negated(rule) : rule;
  }
  const each = expr.items.map((item): Rule => {
    const right = check(desk, item, of.type);
    if (!fits(right.type, of.type) && !fits(of.type, right.type)) unlike(desk, of, right, expr.of, item, "compare", item.at);
    return { does: "compare", at: item.at, type: YES_NO, op: "is", left: of, right };
  });
  const rule = each.reduce((left, right): Rule => ({ does: "or", at: expr.at, type: YES_NO, left, right }));
  return expr.not ? negated(rule) : rule;
}

function among(desk: Desk, expr: Extract<Expr, { is: "among" }>): Rule {
  const chart = desk.scope.signature(expr.chart.text);
  if (chart === undefined) {
    if (desk.scope.spoiled(expr.chart.text)) return spoilt(expr.at, YES_NO);
    return { ...unknownName(desk, expr.chart), type: YES_NO };
  }
  if (chart.type.is !== "kept") {
    if (chart.type.is !== "anything") fault(desk, "chart/not-kept", expr.chart.at, { name: expr.chart.text, doing: "is among" });
    return spoilt(expr.at, YES_NO);
  }
  const of = checkAs(desk, expr.of, { type: chart.type.of, because: `${expr.chart.text} keeps such values` });
  const rule: Rule = { does: "left-among", at: expr.at, type: YES_NO, chart: expr.chart.text, of };
  return expr.not ? negated(rule) : rule;
}

function choose(desk: Desk, expr: Extract<Expr, { is: "choose" }>, hint: Type | undefined): Rule {
  let type = hint;
  const values = [...expr.cases.map((one) => one.value), ...(expr.otherwise ? [expr.otherwise] : [])];
  const rules: Rule[] = [];
  let found: Rule | undefined;
  for (const value of values) {
    const rule = check(desk, value, type);
    rules.push(rule);
    if (rule.type.is === "anything") continue;
    if (found === undefined) { found = rule; type ??= rule.type; continue; }
    if (fits(rule.type, found.type)) continue;
    if (fits(found.type, rule.type)) { found = rule; continue; }
    unlike(desk, found, rule, values[rules.indexOf(found)]!, value, "choose between", rule.at);
    rules[rules.length - 1] = spoilt(rule.at);
  }
  const whens = expr.cases.map((one) => condition(desk, one.when, "after if"));
  const cases = expr.cases.map((_, i) => ({ value: rules[i]!, when: whens[i]! }));
  if (expr.otherwise === undefined) openCases(desk, expr.at, whens);
  const otherwise: Rule = expr.otherwise !== undefined ? rules.at(-1)! : { does: "none", at: expr.at, type: found?.type ?? ANYTHING, reason: "none of the alternatives applies" };
  return { does: "choose", at: expr.at, type: found?.type ?? ANYTHING, cases, otherwise, ...(found ? unitOf(found) : {}) };
}

function gather(desk: Desk, expr: Extract<Expr, { is: "gather" }>): Rule {
  const { text: name } = expr.from;
  const from = desk.scope.signature(name);
  if (from === undefined) {
    if (!desk.scope.spoiled(name)) unknownName(desk, expr.from);
    return spoilt(expr.at);
  }
  if (from.type.is === "anything") return spoilt(expr.at);
  if (from.type.is === "kept" && expr.field === undefined && (expr.what === "count" || expr.what === "first")) {
    return expr.what === "count"
      ? { does: "left-count", at: expr.at, type: COUNT, chart: name }
      : { does: "left-first", at: expr.at, type: from.type.of, chart: name };
  }
  if (from.type.is !== "list") {
    fault(desk, "list/wanted", expr.from.at, { name, doing: `${expr.what} of`, type: typeName(from.type) });
    return spoilt(expr.at);
  }
  if (expr.what === "count") return { does: "gather", at: expr.at, type: COUNT, what: "count", list: name, column: 0 };
  const index = from.type.columns.findIndex((one) => one.name === expr.field?.text);
  if (index < 0) {
    const columns = from.type.columns.map((one) => one.name);
    const near = expr.field && nearest(expr.field.text, columns);
    fault(desk, "name/column", expr.field?.at ?? expr.from.at, { name, written: expr.field?.text, columns }, near ? [{ says: `Write ${near}`, edits: [{ at: expr.field!.at, text: near }] }] : []);
    return spoilt(expr.at);
  }
  const one = from.type.columns[index]!;
  if (expr.what === "sum" && !(one.type.is === "quantity" || one.type.is === "count" || one.type.is === "share")) return wrong(desk, { does: "none", at: expr.at, type: one.type, reason: "" }, "amounts that can be added", "sum of adds them");
  if ((expr.what === "largest" || expr.what === "smallest") && !isOrdered(one.type) && one.type.is !== "kind") return wrong(desk, { does: "none", at: expr.at, type: one.type, reason: "" }, "values that have an order", `${expr.what} of compares them`);
  return { does: "gather", at: expr.at, type: one.type, what: expr.what, list: name, column: index, ...(one.unit ? { unit: one.unit } : {}) };
}

// ───────────── texts ─────────────

/** Checks the inserts of a text. */
export function checkText(desk: Desk, text: Text): TextRule {
  const inside: Desk = { ...desk, inText: true };
  return {
    pieces: text.pieces.map((piece) => {
      if (typeof piece === "string") return piece;
      const rule = check(inside, piece.rule);
      const unit = piece.unit && unitAt(inside, piece.unit);
      if (unit !== undefined && rule.type.is !== "anything") {
        const fit = rule.type.is === "temperature" ? unit.sense === "temperature" : rule.type.is === "quantity" ? unit.sense === "amount" && unit.dimension.join() === rule.type.dimension.join() : rule.type.is === "share" && unit.symbol.startsWith("%");
        if (!fit) fault(inside, "unit/declared", piece.unit!.at, { unit: unit.symbol, type: typeName(rule.type), where: "in a text" });
      }
      const name = piece.rule.is === "name" ? piece.rule.name : undefined;
      return { rule, ...(unit ? { unit } : {}), ...(name !== undefined ? { name } : {}) };
    }),
  };
}

export { COUNT, NUMBER, isNumber };
