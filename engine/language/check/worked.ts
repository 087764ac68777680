// A worked example: what is given to which ask, and what is expected of which value.
import { JOB_STATES, type JobState, isJobState } from "../../../core/job-state.ts";
import { CLOSE } from "../../../core/number.ts";
import { type Type, fits, isNumber, typeName } from "../../../core/type.ts";
import type { Expectation, Expr, Given, Statement } from "../syntax/tree.ts";
import { literal } from "./amount.ts";
import { check } from "./expression.ts";
import { nearest } from "./did-you-mean.ts";
import type { Rule } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";

export interface CheckedWorked {
  /** Answers as typed, by ask. */
  readonly answers: Readonly<Record<string, string>>;
  readonly expects: readonly CheckedExpectation[];
}

export type CheckedExpectation =
  | {
      readonly is: "value";
      readonly name: string;
      readonly column?: number;
      readonly type: Type;
      readonly value: number;
      readonly slack: number;
      readonly written: string;
      readonly at: Expectation["at"];
    }
  /** That a text reads so, with the amounts in it, in the units of the book. */
  | {
      readonly is: "text";
      readonly name: string;
      readonly column?: number;
      readonly wanted: string;
      readonly at: Expectation["at"];
    }
  /** That a value is impossible, or unknown. */
  | {
      readonly is: "without";
      readonly name: string;
      readonly column?: number;
      readonly wanted: "impossible" | "unknown";
      readonly at: Expectation["at"];
    }
  | { readonly is: "state"; readonly state: JobState; readonly at: Expectation["at"] }
  | Extract<Expectation, { is: "line" }>;

export function checkWorked(
  context: CheckContext,
  body: Extract<Statement["body"], { keyword: "worked" }>,
): CheckedWorked {
  const answers: Record<string, string> = {};
  for (const given of body.given) {
    if (checkGiven(context, given))
      answers[given.name.text] = context.source.slice(given.value.at.start, given.at.end);
  }
  if (body.gives.length === 0) fault(context, "worked/nothing", { start: 0, end: 6 }, {});
  return { answers, expects: body.gives.flatMap((one) => expectation(context, one) ?? []) };
}

function checkGiven(context: CheckContext, { name, value }: Given): boolean {
  const ask = context.scope.signature(name.text);
  if (ask === undefined) {
    if (!context.scope.spoiled(name.text)) {
      const near = nearest(name.text, context.scope.names());
      fault(
        context,
        "name/unknown",
        name.at,
        { name: name.text, near },
        near ? [{ says: `Write ${near}`, edits: [{ at: name.at, text: near }] }] : [],
      );
    }
    return false;
  }
  if (ask.what !== "ask") {
    fault(context, "worked/not-asked", name.at, { name: name.text, what: ask.what });
    return false;
  }
  if (value.is === "name" && value.name === "unknown") return true;
  const before = context.faults.length;
  const rule = literal(context, value) ?? check(context, value, ask.type);
  if (context.faults.length > before) return false;
  if (
    fits(rule.type, ask.type) ||
    (ask.type.is === "count" && isNumber(rule.type)) ||
    rule.type.is === "anything"
  )
    return true;
  const bare = value.is === "number" && ask.unit !== undefined;
  const text = context.source.slice(value.at.start, value.at.end);
  fault(
    context,
    bare ? "unit/bare" : "type/wanted",
    value.at,
    {
      number: text,
      type: typeName(ask.type),
      unit: ask.unit?.symbol,
      doing: "answer",
      has: typeName(rule.type),
      wants: typeName(ask.type),
      because: `it answers ${name.text}`,
    },
    bare
      ? [
          {
            says: `Write ${text} ${ask.unit!.symbol}`,
            edits: [{ at: value.at, text: `${text} ${ask.unit!.symbol}` }],
          },
        ]
      : [],
  );
  return false;
}

function expectation(context: CheckContext, one: Expectation): CheckedExpectation | undefined {
  switch (one.is) {
    case "state": {
      if (isJobState(one.state)) return { is: "state", at: one.at, state: one.state };
      const near = nearest(one.state, [...JOB_STATES, ...context.scope.names()]);
      fault(context, "worked/expects", one.at, { word: one.state, states: JOB_STATES, near });
      return undefined;
    }
    case "line": {
      if (!["step", "caution", "stop"].includes(one.what)) {
        fault(context, "worked/expects", one.at, { word: one.what, states: JOB_STATES });
        return undefined;
      }
      if (context.scope.hasLine(one.what, one.name.text)) return one;
      const near = nearest(one.name.text, context.scope.lines(one.what));
      fault(
        context,
        "name/step",
        one.name.at,
        { name: one.name.text, near, what: one.what },
        near ? [{ says: `Write ${near}`, edits: [{ at: one.name.at, text: near }] }] : [],
      );
      return undefined;
    }
    case "value":
      return expectedValue(context, one);
  }
}

type ExpectedValue = Extract<Expectation, { is: "value" }>;

/** What is expected of a value, with the value that it is expected of. */
interface Expected {
  readonly one: ExpectedValue;
  readonly of: Extract<Rule, { does: "value" }>;
  /** Of a chart that keeps every row, what each row gives. */
  readonly type: Type;
}

function expectedValue(context: CheckContext, one: ExpectedValue): CheckedExpectation | undefined {
  const before = context.faults.length;
  const of = check(context, {
    is: "name",
    at: { start: one.name.at.start, end: (one.field ?? one.name).at.end },
    name: one.name.text,
    ...(one.field ? { field: one.field } : {}),
  });
  if (context.faults.length > before || of.type.is === "anything") return undefined;
  if (of.does !== "value") {
    fault(context, "worked/expects", one.name.at, { word: one.name.text, states: JOB_STATES });
    return undefined;
  }
  const expected: Expected = { one, of, type: of.type.is === "kept" ? of.type.of : of.type };
  return (
    withoutValue(expected) ??
    (expected.type.is === "text" ? expectedText(context, expected) : expectedAmount(context, expected))
  );
}

const columnOfValue = ({ of }: Expected): { readonly name: string; readonly column?: number } => ({
  name: of.name,
  ...(of.column !== undefined ? { column: of.column } : {}),
});

/** `impossible` or `unknown`, unless it is a word of the value's own kind. */
function withoutValue(expected: Expected): CheckedExpectation | undefined {
  const { one, type } = expected;
  if (one.value.is !== "name" || one.tolerance !== undefined) return undefined;
  const { name } = one.value;
  if (name !== "impossible" && name !== "unknown") return undefined;
  if (type.is === "kind" && type.words.includes(name)) return undefined;
  return { is: "without", at: one.at, ...columnOfValue(expected), wanted: name };
}

function expectedText(context: CheckContext, expected: Expected): CheckedExpectation | undefined {
  const { one, of } = expected;
  const wanted = plainText(one.value);
  if (wanted !== undefined && one.tolerance === undefined && of.type.is !== "kept")
    return { is: "text", at: one.at, ...columnOfValue(expected), wanted };
  fault(context, "worked/text", (one.tolerance ?? one.value).at, {
    name: one.name.text,
    kept: of.type.is === "kept",
    inserts: one.value.is === "text" && wanted === undefined,
    tolerance: wanted !== undefined,
  });
  return undefined;
}

function expectedAmount(context: CheckContext, expected: Expected): CheckedExpectation | undefined {
  const { one, type } = expected;
  const before = context.faults.length;
  const value = literal(context, one.value) ?? check(context, one.value, type);
  if (context.faults.length > before) return undefined;
  const suits =
    fits(value.type, type) ||
    (type.is === "share" && type.by === "plain" && isNumber(value.type)) ||
    (type.is === "count" && isNumber(value.type));
  if (!suits || value.does !== "constant") {
    noSuchAmount(context, expected, value);
    return undefined;
  }
  return {
    is: "value",
    at: one.at,
    ...columnOfValue(expected),
    type,
    value: value.value,
    slack: slackOf(context, one.tolerance) ?? CLOSE * Math.abs(value.value),
    written: context.source.slice(one.value.at.start, one.tolerance?.at.end ?? one.value.at.end),
  };
}

function noSuchAmount(context: CheckContext, { one, of, type }: Expected, value: Rule): void {
  const { at } = one.value;
  const unit = one.value.is === "number" ? of.unit?.symbol : undefined;
  const text = context.source.slice(at.start, at.end);
  fault(
    context,
    unit === undefined ? "type/wanted" : "unit/bare",
    at,
    {
      number: text,
      unit: of.unit?.symbol,
      type: typeName(type),
      doing: "expect",
      has: typeName(value.type),
      wants: typeName(type),
      because: `${one.name.text} is that`,
    },
    unit === undefined ? [] : [{ says: `Write ${text} ${unit}`, edits: [{ at, text: `${text} ${unit}` }] }],
  );
}

/** How far the value may be off, in SI; undefined where that is not said. */
function slackOf(context: CheckContext, tolerance: Expr | undefined): number | undefined {
  const rule = tolerance && literal(context, tolerance);
  if (rule?.does !== "constant") return undefined;
  return rule.type.is === "temperature" ? rule.value - (rule.unit?.zero ?? 0) : rule.value;
}

/** What a text without inserts says; undefined for a text with inserts, and for what is no text. */
function plainText(value: Expr): string | undefined {
  if (value.is !== "text") return undefined;
  const { pieces } = value.text;
  return pieces.every((piece) => typeof piece === "string") ? pieces.join("") : undefined;
}
