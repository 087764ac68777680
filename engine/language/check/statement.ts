// Checks one statement against what the others show of themselves. The outcome depends on its text and on the
// signatures it asked for, and on nothing else; that is what makes an edit cheap.
import type { Span } from "../../../core/span.ts";
import {
  ANYTHING,
  COUNT,
  type Column,
  NUMBER,
  TAPER,
  type Type,
  YES_NO,
  fits,
  isNumber,
  isOrdered,
  quantity,
  typeName,
  typeOfUnit,
} from "../../../core/type.ts";
import { writeValue } from "../../../core/format.ts";
import { TIME } from "../../../core/dimension.ts";
import type { Unit } from "../../../core/unit.ts";
import type { ChartOut, Declared, Expr, Fault, Statement, Word } from "../syntax/tree.ts";
import { literal, spoilt, unitAt } from "./amount.ts";
import { type CheckedChart, checkChart } from "./chart.ts";
import { check, checkText, condition } from "./expression.ts";
import { beforeName, columnsBefore, firstLook } from "./before.ts";
import { checkAs, isWhole } from "./judge.ts";
import { isFunction } from "./call.ts";
import { checkDrawn } from "./drawn-as.ts";
import { nearest } from "./near.ts";
import { type CheckedArgument, checkPicture } from "./picture.ts";
import type { Rule, TextRule } from "./rule.ts";
import {
  type CheckContext,
  type Scope,
  type Signature,
  askedKey,
  digest,
  fault,
  signature,
} from "./scope.ts";
import { type CheckedWorked, checkWorked } from "./worked.ts";

export interface Checked {
  readonly statement: Statement;
  readonly signature?: Signature;
  readonly rule?: Rule;
  readonly when?: Rule;
  readonly takes?: Rule;
  readonly waits?: Rule;
  readonly withSteps?: readonly string[];
  readonly ask?: CheckedAsk;
  readonly chart?: CheckedChart;
  readonly list?: CheckedList;
  readonly worked?: CheckedWorked;
  readonly picture?: readonly CheckedArgument[];
  /** The span a dial may be tuned in, SI. */
  readonly span?: { readonly low: number; readonly high: number };
  readonly faults: readonly Fault[];
}

interface CheckedAsk {
  readonly low: number;
  readonly high: number;
  readonly resolution?: number;
  readonly take?: Rule;
  /** Where it is measured, for the drawing beside its question. */
  readonly drawn?: string;
}

interface CheckedList {
  readonly counter: string;
  readonly from: Rule;
  readonly to: Rule;
  readonly columns: readonly {
    readonly name: string;
    readonly rule: Rule;
    readonly type: Type;
    readonly unit?: Unit;
  }[];
  /** Columns that some rule looks at in the row above. */
  readonly above: readonly string[];
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function checkStatement(scope: Scope, statement: Statement): Checked {
  const context: CheckContext = {
    scope,
    locals: new Map(),
    faults: [...statement.faults],
    source: statement.text,
    check,
  };
  const { body, clauses, name } = statement;
  if (body.keyword === "unreadable") return { statement, faults: context.faults };
  if (
    name !== undefined &&
    (body.keyword === "figure" ||
      body.keyword === "ask" ||
      body.keyword === "dial" ||
      body.keyword === "chart" ||
      body.keyword === "list" ||
      body.keyword === "formula")
  ) {
    if (isFunction(name.text) || name.text === "pi" || name.text === "stopped")
      fault(context, "name/built-in", name.at, { name: name.text });
    const kinds = scope.kindsWith(name.text);
    if (kinds.length > 0) fault(context, "name/clash", name.at, { name: name.text, kind: kinds[0]!.name });
  }

  const shared = {
    statement,
    ...(clauses.when ? { when: condition(context, clauses.when, "after when") } : {}),
    ...(clauses.takes ? { takes: time(context, clauses.takes, "takes") } : {}),
    ...(clauses.waits ? { waits: time(context, clauses.waits, "waits") } : {}),
  };
  const done = (more: Omit<Partial<Checked>, "faults" | "statement"> = {}): Checked => ({
    ...shared,
    ...more,
    faults: context.faults,
  });

  switch (body.keyword) {
    case "book":
    case "part":
    case "use":
    case "drop":
    case "add":
      return done();
    case "kind": {
      const seen = new Set<string>();
      for (const [i, { word, at, means }] of body.words.entries()) {
        const next = body.words[i + 1];
        if (
          means === undefined &&
          next?.means !== undefined &&
          !statement.text.slice(at.end, next.at.start).includes("\n")
        ) {
          const both = { start: at.start, end: next.at.end };
          fault(context, "kind/two-words", both, { first: word, second: next.word }, [
            { says: `Write ${word}-${next.word}`, edits: [{ at: both, text: `${word}-${next.word}` }] },
          ]);
        }
        if (seen.has(word)) fault(context, "kind/twice", at, { word, kind: name?.text });
        seen.add(word);
      }
      if (body.words.length === 0) fault(context, "kind/empty", name!.at, { kind: name!.text });
      return done();
    }
    case "ask":
      return done(checkAsk(context, body, statement));
    case "dial":
      return done(checkDial(context, body, statement));
    case "figure": {
      const declared = resolve(context, body.declared);
      const rule = declaredRule(context, body.rule, declared, name!.text);
      return done({
        rule,
        signature: signature({
          what: "figure",
          type: declared?.type ?? rule.type,
          unit: declared?.unit ?? rule.unit,
        }),
      });
    }
    case "formula": {
      const parameters = body.parameters.map((parameter) => {
        const declared = resolve(context, parameter.declared);
        return {
          name: parameter.name.text,
          type: declared?.type ?? (parameter.declared ? ANYTHING : NUMBER),
          unit: declared?.unit,
        };
      });
      const inner: CheckContext = { ...context, locals: new Map(parameters.map((one) => [one.name, one])) };
      const rule = check(inner, body.rule);
      return done({
        rule,
        signature: signature({
          what: "formula",
          type: rule.type,
          unit: rule.unit,
          formula: { parameters, body: rule },
          callKey: callKey(scope, statement),
        }),
      });
    }
    case "list":
      return done(checkList(context, body, name!));
    case "chart": {
      const outs = body.gives.map((out) => chartOut(context, out, name!.text, body.gives.length));
      const parameters = new Map(
        body.conditions.flatMap((one) =>
          one.declared === undefined
            ? []
            : [[one.text, resolve(context, one.declared) ?? { type: ANYTHING, unit: undefined }] as const],
        ),
      );
      const chart = checkChart({ ...context, locals: parameters }, statement, body, outs);
      const single = outs.length === 1 ? outs[0]! : undefined;
      const kept = body.options.some((one) => one.option === "keep-every-row");
      const type: Type =
        single === undefined
          ? { is: "row", columns: outs }
          : kept
            ? { is: "kept", of: single.type }
            : single.type;
      if (kept && single === undefined) fault(context, "chart/kept-one", name!.at, { name: name!.text });
      return done({
        ...(chart ? { chart } : {}),
        signature: signature(
          {
            what: "chart",
            type: kept && single === undefined ? ANYTHING : type,
            unit: single?.unit,
            ...(chart ? { chart } : {}),
            ...(parameters.size > 0 ? { calledOnly: true } : {}),
            callKey: callKey(scope, statement),
          },
          parameters.size > 0 ? "called" : "",
        ),
      });
    }
    case "step":
      return done();
    case "caution":
    case "stop": {
      for (const step of clauses.withSteps ?? []) {
        if (!scope.hasLine("step", step.text)) {
          const near = nearest(step.text, scope.lines("step"));
          fault(
            context,
            "name/step",
            step.at,
            { name: step.text, near, what: "step" },
            near ? [{ says: `Write ${near}`, edits: [{ at: step.at, text: near }] }] : [],
          );
        }
      }
      return done(clauses.withSteps ? { withSteps: clauses.withSteps.map((step) => step.text) } : {});
    }
    case "promise":
      return done({ rule: condition(context, body.rule, "of a promise") });
    case "picture":
      return done({ picture: checkPicture(context, body) });
    case "worked":
      return done({ worked: checkWorked(context, body) });
  }
}

/** All that a call of this statement rests on, as one text. */
const callKey = (scope: Scope, statement: Statement): string =>
  digest([statement.text, ...statement.needs.map((name) => askedKey(scope.signature, name))].join("\n"));

export interface CheckedTexts {
  readonly title?: TextRule;
  readonly because?: TextRule;
  readonly takeBecause?: TextRule;
  readonly faults: readonly Fault[];
}

/** Texts come after all signatures are known: a reason may name its own figure, or one further down. */
export function checkTexts(scope: Scope, statement: Statement): CheckedTexts {
  const { title, because, ifUnknown } = statement.clauses;
  const context: CheckContext = { scope, locals: new Map(), faults: [], source: statement.text, check };
  return {
    ...(title ? { title: checkText(context, title) } : {}),
    ...(because ? { because: checkText(context, because) } : {}),
    ...(ifUnknown?.because ? { takeBecause: checkText(context, ifUnknown.because) } : {}),
    faults: context.faults,
  };
}

// ───────────── what a value is declared to be ─────────────

interface Resolved {
  readonly type: Type;
  readonly unit: Unit | undefined;
}

function resolve(context: CheckContext, declared: Declared): Resolved | undefined {
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
function chartOut(context: CheckContext, out: ChartOut, chart: string, count: number): Column {
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
function declaredRule(context: CheckContext, expr: Expr, declared: Resolved | undefined, name: string): Rule {
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
    fault(context, "count/whole", rule.at, { name }, [
      {
        says: "Round it up to whole",
        edits: [{ at: { start: rule.at.end, end: rule.at.end }, text: " rounded up to whole" }],
      },
    ]);
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

function time(context: CheckContext, expr: Expr, word: string): Rule {
  return checkAs(context, expr, { type: quantity(TIME), because: `${word} is followed by a time` });
}

// ───────────── asks, dials, lists, pictures ─────────────

function checkAsk(
  context: CheckContext,
  body: { readonly declared: Declared; readonly range?: { readonly low: Expr; readonly high: Expr } },
  statement: Statement,
): Partial<Checked> {
  const name = statement.name!;
  const { clauses } = statement;
  const declared = resolve(context, body.declared);
  if (body.declared === undefined) fault(context, "ask/of-what", name.at, { name: name.text });
  const type = declared?.type ?? ANYTHING;
  let [low, high] = [-Infinity, Infinity];
  if (type.is === "kind") [low, high] = [0, type.words.length - 1];
  if (type.is === "yes-no") [low, high] = [0, 1];
  if (isOrdered(type) && type.is !== "anything") {
    if (body.range === undefined)
      fault(context, "ask/no-range", name.at, { name: name.text, unit: declared?.unit?.symbol });
    else {
      low = inUnit(context, body.range.low, declared!) ?? -Infinity;
      high = inUnit(context, body.range.high, declared!) ?? Infinity;
      if (low >= high)
        fault(
          context,
          "ask/range",
          { start: body.range.low.at.start, end: body.range.high.at.end },
          { name: name.text },
        );
    }
  } else if (body.range !== undefined && type.is !== "anything") {
    fault(
      context,
      "ask/range",
      { start: body.range.low.at.start, end: body.range.high.at.end },
      { name: name.text, kind: true },
    );
  }
  const step =
    clauses.measured &&
    inUnit(context, clauses.measured, declared ?? { type: ANYTHING, unit: undefined }, true);
  const drawn = clauses.drawn && checkDrawn(context, clauses.drawn, name.text, type);
  const take =
    clauses.ifUnknown &&
    checkAs(context, clauses.ifUnknown.take, { type, because: `it is taken for ${name.text}` });
  return {
    signature: signature({ what: "ask", type, unit: declared?.unit, range: { low, high } }),
    ask: {
      low,
      high,
      ...(step !== undefined ? { resolution: step } : {}),
      ...(take ? { take } : {}),
      ...(drawn ? { drawn } : {}),
    },
  };
}

/** A literal in SI; a bare number is in the unit of what it belongs to. */
function inUnit(context: CheckContext, expr: Expr, of: Resolved, step = false): number | undefined {
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

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
function checkDial(
  context: CheckContext,
  body: {
    readonly declared: Declared;
    readonly rule: Expr;
    readonly range?: { readonly low: Expr; readonly high: Expr };
  },
  statement: Statement,
): Partial<Checked> {
  const name = statement.name!;
  const declared = resolve(context, body.declared);
  const loose = declared ?? { type: ANYTHING, unit: undefined };
  const first = check(context, body.rule, declared?.type);
  let rule = first;
  if (body.rule.is === "number" && declared?.unit !== undefined)
    rule = {
      ...first,
      type: declared.type,
      value: inUnit(context, body.rule, loose) ?? 0,
      does: "constant",
    } as Rule;
  else if (
    declared !== undefined &&
    !fits(first.type, declared.type) &&
    !(declared.type.is === "count" && isNumber(first.type))
  ) {
    fault(context, "unit/declared", first.at, {
      unit: declared.unit?.symbol,
      wants: typeName(declared.type),
      type: typeName(first.type),
      where: `for ${name.text}`,
    });
    rule = spoilt(first.at, declared.type);
  }
  if (
    rule.does !== "constant" &&
    rule.type.is !== "anything" &&
    rule.does !== "none" &&
    rule.does !== "text"
  ) {
    fault(context, "dial/literal", rule.at, { name: name.text });
    rule = spoilt(rule.at, rule.type);
  }
  const type =
    declared?.type ??
    (first.does === "constant" &&
    body.rule.is === "number" &&
    Number.isInteger(body.rule.value) &&
    body.rule.value >= 0
      ? first.type.is === "quantity"
        ? COUNT
        : first.type
      : rule.type);
  const unit = declared?.unit ?? first.unit;
  let span: Checked["span"];
  if (body.range !== undefined) {
    const low = inUnit(context, body.range.low, { type: rule.type, unit });
    const high = inUnit(context, body.range.high, { type: rule.type, unit });
    const at: Span = { start: body.range.low.at.start, end: body.range.high.at.end };
    if (low !== undefined && high !== undefined) {
      if (low > high) fault(context, "dial/span", at, { name: name.text, upsideDown: true });
      else {
        span = { low, high };
        if (
          rule.does === "constant" &&
          (rule.value < low * (1 - 1e-9) - 1e-300 || rule.value > high * (1 + 1e-9) + 1e-300)
        )
          fault(context, "dial/span", body.rule.at, {
            name: name.text,
            value: context.source.slice(body.rule.at.start, body.rule.at.end),
            low: context.source.slice(body.range.low.at.start, body.range.low.at.end),
            high: context.source.slice(body.range.high.at.start, body.range.high.at.end),
          });
      }
    }
  }
  span = withinBelow(context, statement, body, rule, type, unit, span);
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

/**
 * A dial that replaces another stays within the span of the one below, and has that span unless it says a
 * narrower one.
 */
// biome-ignore lint/complexity/useMaxParams: still to come apart.
function withinBelow(
  context: CheckContext,
  statement: Statement,
  body: { readonly rule: Expr; readonly range?: { readonly low: Expr; readonly high: Expr } },
  rule: Rule,
  type: Type,
  unit: Unit | undefined,
  span: Checked["span"],
): Checked["span"] {
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
  const beyond = (value: number) =>
    value < range.low * (range.low < 0 ? 1 + 1e-9 : 1 - 1e-9) - 1e-300 ||
    value > range.high * (range.high < 0 ? 1 - 1e-9 : 1 + 1e-9) + 1e-300;
  const facts = {
    name: statement.name!.text,
    low: writeValue(range.low, below.type, below.unit ?? unit),
    high: writeValue(range.high, below.type, below.unit ?? unit),
  };
  if (rule.does === "constant" && beyond(rule.value))
    fault(context, "layer/span", body.rule.at, {
      ...facts,
      value: context.source.slice(body.rule.at.start, body.rule.at.end),
    });
  if (span !== undefined && body.range !== undefined && (beyond(span.low) || beyond(span.high)))
    fault(
      context,
      "layer/span",
      { start: body.range.low.at.start, end: body.range.high.at.end },
      { ...facts, span: true },
    );
  return span === undefined
    ? range
    : { low: Math.max(span.low, range.low), high: Math.min(span.high, range.high) };
}

/**
 * What the columns looked at in the row above are: as declared, else as their rules are found to be. A rule
 * may look at its own column there, so the rules are gone through until nothing more is learned; what is
 * wrong with them is told afterwards.
 */
function typesBefore(
  context: CheckContext,
  body: Extract<Statement["body"], { keyword: "list" }>,
  above: ReadonlySet<string>,
  start: ReadonlyMap<string, Resolved>,
): ReadonlyMap<string, Resolved> {
  const known = new Map<string, Resolved>();
  if (above.size === 0) return known;
  const quiet: CheckContext = { ...context, faults: [] };
  for (const column of body.columns)
    if (above.has(column.name.text))
      known.set(column.name.text, resolve(quiet, column.declared) ?? { type: ANYTHING, unit: undefined });
  for (let round = 0; round < 3 && [...known.values()].some((one) => one.type.is === "anything"); round++) {
    const locals = new Map(start);
    for (const [column, one] of known) locals.set(beforeName(column), one);
    for (const column of body.columns) {
      const declared = resolve(quiet, column.declared);
      const rule = check({ ...quiet, locals: new Map(locals) }, column.rule, declared?.type);
      const found = { type: declared?.type ?? rule.type, unit: declared?.unit ?? rule.unit };
      locals.set(column.name.text, found);
      if (known.get(column.name.text)?.type.is === "anything") known.set(column.name.text, found);
    }
  }
  return known;
}

/** Whether any text within a checked rule has a value to be filled in. */
function hasInserts(part: unknown): boolean {
  if (typeof part !== "object" || part === null) return false;
  if ("does" in part && part.does === "text" && "text" in part)
    return (part.text as { readonly pieces: readonly unknown[] }).pieces.some(
      (piece) => typeof piece !== "string",
    );
  return Object.values(part).some(hasInserts);
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
function checkList(
  context: CheckContext,
  body: Extract<Statement["body"], { keyword: "list" }>,
  name: Word,
): Partial<Checked> {
  const bound = (expr: Expr, where: string): Rule => {
    const rule = check(context, expr);
    if (rule.type.is === "anything" || isNumber(rule.type)) return rule;
    fault(context, "type/wanted", rule.at, {
      has: typeName(rule.type),
      wants: "a count",
      because: `a list runs ${where} it`,
    });
    return spoilt(rule.at);
  };
  const from = bound(body.from, "from");
  const to = bound(body.to, "to");
  if (from.does === "constant" && to.does === "constant" && to.value - from.value + 1 > 10_000)
    fault(
      context,
      "budget/list",
      { start: body.from.at.start, end: body.to.at.end },
      { has: to.value - from.value + 1, most: 10_000 },
    );
  const locals = new Map<string, Resolved>([[body.counter.text, { type: COUNT, unit: undefined }]]);
  const columns: CheckedList["columns"][number][] = [];
  if (body.columns.length === 0) fault(context, "list/no-columns", name.at, { name: name.text });
  const above = columnsBefore(body.columns.map((column) => column.rule));
  const faultsBefore = context.faults.length;
  for (const [column, known] of typesBefore(context, body, above, locals))
    locals.set(beforeName(column), known);
  for (const column of body.columns) {
    if (locals.has(column.name.text))
      fault(context, "list/column-twice", column.name.at, { name: column.name.text });
    const declared = resolve(context, column.declared);
    const rule = declaredRule(
      { ...context, locals: new Map(locals) },
      column.rule,
      declared,
      column.name.text,
    );
    const type = declared?.type ?? rule.type;
    const unit = declared?.unit ?? rule.unit;
    // A text's inserts are filled in when it is read, and by then the list stands at its last row.
    if (rule.type.is === "text" && hasInserts(rule))
      fault(context, "list/text", rule.at, { column: column.name.text });
    columns.push({ name: column.name.text, rule, type, ...(unit ? { unit } : {}) });
    locals.set(column.name.text, { type, unit });
    const first =
      above.size === 0
        ? undefined
        : firstLook(rule, body.counter.text, from.does === "constant" ? from.value : undefined);
    if (first !== undefined)
      fault(context, "list/before-first", first.at, {
        column: column.name.text,
        counter: body.counter.text,
        first: from.does === "constant" ? from.value : undefined,
      });
  }
  const untold =
    context.faults.length > faultsBefore
      ? undefined
      : body.columns.find(
          (column) => above.has(column.name.text) && locals.get(column.name.text)?.type.is === "anything",
        );
  if (untold !== undefined) fault(context, "list/before-type", untold.name.at, { name: untold.name.text });
  const shape = columns.map((one) => ({ name: one.name, type: one.type, unit: one.unit }));
  return {
    list: {
      counter: body.counter.text,
      from,
      to,
      columns,
      above: columns.flatMap((one) => (above.has(one.name) ? [one.name] : [])),
    },
    signature: signature({ what: "list", type: { is: "list", columns: shape }, unit: undefined }),
  };
}
