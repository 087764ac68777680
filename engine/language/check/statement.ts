// Checks one statement against what the others show of themselves. The outcome depends on its text and on the
// signatures it asked for, and on nothing else; that is what makes an edit cheap.
import { ANYTHING, NUMBER, type Type, quantity } from "../../../core/type.ts";
import { TIME } from "../../../core/dimension.ts";
import type { Body, Expr, Fault, Statement, Word } from "../syntax/tree.ts";
import { type CheckedAsk, checkAsk } from "./ask.ts";
import { isFunction } from "./call.ts";
import { type CheckedChart, checkChart } from "./chart.ts";
import { chartOut, declaredRule, resolve } from "./declared.ts";
import { checkDial } from "./dial.ts";
import { check, checkText, condition } from "./expression.ts";
import { checkAs } from "./mismatches.ts";
import { type CheckedList, checkList } from "./list.ts";
import { nearest } from "./did-you-mean.ts";
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

/** What the body of a statement adds to its checked form. */
type CheckedBody = Omit<Partial<Checked>, "faults" | "statement" | "when" | "takes" | "waits">;

type BodyOf<K extends Body["keyword"]> = Extract<Body, { keyword: K }>;

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
  if (name !== undefined && VALUED.has(body.keyword)) checkValueName(context, name);
  return {
    statement,
    ...(clauses.when ? { when: condition(context, clauses.when, "after when") } : {}),
    ...(clauses.takes ? { takes: time(context, clauses.takes, "takes") } : {}),
    ...(clauses.waits ? { waits: time(context, clauses.waits, "waits") } : {}),
    ...checkBody(context, statement, body),
    faults: context.faults,
  };
}

const VALUED: ReadonlySet<string> = new Set(["ask", "dial", "figure", "chart", "list", "formula"]);

function checkValueName(context: CheckContext, { text: name, at }: Word): void {
  if (isFunction(name) || name === "pi" || name === "stopped") fault(context, "name/built-in", at, { name });
  const [kind] = context.scope.kindsWith(name);
  if (kind !== undefined) fault(context, "name/clash", at, { name, kind: kind.name });
}

function checkBody(
  context: CheckContext,
  statement: Statement,
  body: Exclude<Body, { keyword: "unreadable" }>,
): CheckedBody {
  const { name } = statement;
  switch (body.keyword) {
    case "book":
    case "part":
    case "use":
    case "drop":
    case "add":
    case "step":
      return {};
    case "kind":
      return checkKind(context, body, statement);
    case "ask":
      return checkAsk(context, body, statement);
    case "dial":
      return checkDial(context, body, statement);
    case "figure":
      return checkFigure(context, body, name!);
    case "formula":
      return checkFormula(context, body, statement);
    case "list":
      return checkList(context, body, name!);
    case "chart":
      return checkChartStatement(context, body, statement);
    case "caution":
    case "stop":
      return checkSteps(context, statement);
    case "promise":
      orStopped(context, body.rule, statement.clauses.when);
      return { rule: condition(context, body.rule, "of a promise") };
    case "picture":
      return { picture: checkPicture(context, body) };
    case "worked":
      return { worked: checkWorked(context, body) };
  }
}

function checkKind(context: CheckContext, body: BodyOf<"kind">, { name, text }: Statement): CheckedBody {
  const seen = new Set<string>();
  for (const [i, { word, at, means }] of body.words.entries()) {
    const next = body.words[i + 1];
    if (
      means === undefined &&
      next?.means !== undefined &&
      !text.slice(at.end, next.at.start).includes("\n")
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
  return {};
}

function checkFigure(context: CheckContext, body: BodyOf<"figure">, name: Word): CheckedBody {
  const declared = resolve(context, body.declared);
  const rule = declaredRule(context, body.rule, declared, name.text);
  return {
    rule,
    signature: signature({
      what: "figure",
      type: declared?.type ?? rule.type,
      unit: declared?.unit ?? rule.unit,
    }),
  };
}

function checkFormula(context: CheckContext, body: BodyOf<"formula">, statement: Statement): CheckedBody {
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
  return {
    rule,
    signature: signature({
      what: "formula",
      type: rule.type,
      unit: rule.unit,
      formula: { parameters, body: rule },
      callKey: callKey(context.scope, statement),
    }),
  };
}

function checkChartStatement(
  context: CheckContext,
  body: BodyOf<"chart">,
  statement: Statement,
): CheckedBody {
  const name = statement.name!;
  const outs = body.gives.map((out) => chartOut(context, out, name.text, body.gives.length));
  const parameters = new Map(
    body.conditions.flatMap((one) =>
      one.declared === undefined
        ? []
        : [[one.text, resolve(context, one.declared) ?? { type: ANYTHING, unit: undefined }] as const],
    ),
  );
  const chart = checkChart({ ...context, locals: parameters }, statement, body, outs);
  const single = outs.length === 1 ? outs[0]! : undefined;
  const keepsRows = body.options.some((one) => one.option === "keep-every-row");
  if (keepsRows && single === undefined) fault(context, "chart/kept-one", name.at, { name: name.text });
  const value: Type = single === undefined ? { is: "row", columns: outs } : single.type;
  const type: Type = !keepsRows ? value : single === undefined ? ANYTHING : { is: "kept", of: single.type };
  return {
    ...(chart ? { chart } : {}),
    signature: signature(
      {
        what: "chart",
        type,
        unit: single?.unit,
        ...(chart ? { chart } : {}),
        ...(parameters.size > 0 ? { calledOnly: true } : {}),
        callKey: callKey(context.scope, statement),
      },
      parameters.size > 0 ? "called" : "",
    ),
  };
}

/** The steps that a caution or a stop goes with. */
function checkSteps(context: CheckContext, { clauses }: Statement): CheckedBody {
  for (const step of clauses.withSteps ?? []) {
    if (context.scope.hasLine("step", step.text)) continue;
    const near = nearest(step.text, context.scope.lines("step"));
    fault(
      context,
      "name/step",
      step.at,
      { name: step.text, near, what: "step" },
      near ? [{ says: `Write ${near}`, edits: [{ at: step.at, text: near }] }] : [],
    );
  }
  return clauses.withSteps ? { withSteps: clauses.withSteps.map((step) => step.text) } : {};
}

/** `promise A when B or stopped` is read as kept in stopped jobs too; meant is its opposite. */
function orStopped(context: CheckContext, rule: Expr, when: Expr | undefined): void {
  if (when?.is !== "binary" || when.op !== "or") return;
  const { left, right } = when;
  if (right.is !== "name" || right.name !== "stopped") return;
  const text = (of: Expr) => context.source.slice(of.at.start, of.at.end);
  fault(context, "promise/when-stopped", when.at, { rule: text(rule), when: text(left) }, [
    {
      says: `Write ${text(rule)} or stopped when ${text(left)}`,
      edits: [
        { at: { start: rule.at.end, end: rule.at.end }, text: " or stopped" },
        { at: { start: left.at.end, end: when.at.end }, text: "" },
      ],
    },
  ]);
}

function time(context: CheckContext, expr: Expr, word: string): Rule {
  return checkAs(context, expr, { type: quantity(TIME), because: `${word} is followed by a time` });
}

/** Everything that a call of this statement depends on, as one text. */
const callKey = (scope: Scope, statement: Statement): string =>
  digest(
    [statement.text, ...statement.needs.map((name) => askedKey(scope.signature, name, statement))].join("\n"),
  );

export interface CheckedTexts {
  readonly title?: TextRule;
  readonly because?: TextRule;
  readonly then?: TextRule;
  readonly takeBecause?: TextRule;
  readonly blankBecause?: TextRule;
  readonly faults: readonly Fault[];
}

/** Texts come after all signatures are known: a reason may name its own figure, or one further down. */
export function checkTexts(scope: Scope, statement: Statement): CheckedTexts {
  const { title, because, then, ifUnknown, ifBlank } = statement.clauses;
  const context: CheckContext = { scope, locals: new Map(), faults: [], source: statement.text, check };
  return {
    ...(title ? { title: checkText(context, title) } : {}),
    ...(because ? { because: checkText(context, because) } : {}),
    ...(then ? { then: checkText(context, then) } : {}),
    ...(ifUnknown?.because ? { takeBecause: checkText(context, ifUnknown.because) } : {}),
    ...(ifBlank?.because && ifBlank !== ifUnknown
      ? { blankBecause: checkText(context, ifBlank.because) }
      : {}),
    faults: context.faults,
  };
}
