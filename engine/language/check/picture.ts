// The drawings that a book can ask for: what each wants to be given, which of it must be there, and whether
// it measures what it should.
import { type AREA, LENGTH, MASS, TIME, VOLUME, sameDimension } from "../../../core/dimension.ts";
import { type Type, isNumber, isOrdered, typeName } from "../../../core/type.ts";
import type { Statement } from "../syntax/tree.ts";
import { check } from "./expression.ts";
import { nearest } from "./did-you-mean.ts";
import type { Rule } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";

/**
 * What an argument may be. An ask and an outcome are named, not worked out, since a drawing goes over all
 * they can be.
 */
type Wants =
  | "length"
  | "amount"
  | "density"
  | "time"
  | "count"
  | "share"
  | "pace"
  | "list"
  | "ask"
  | "outcome"
  | "chart";

export interface Argument {
  readonly wants: Wants;
  readonly required?: true;
}

const must = (wants: Wants): Argument => ({ wants, required: true });
const may = (wants: Wants): Argument => ({ wants });

export const PICTURES: Readonly<Record<string, Readonly<Record<string, Argument>>>> = {
  section: {
    thickness: must("length"),
    run: must("length"),
    hole: may("length"),
    depth: may("length"),
    plies: may("list"),
    ply: may("length"),
    backing: may("length"),
    reach: may("length"),
    core: may("length"),
    inner: may("length"),
  },
  plies: { plies: must("list"), hole: may("length"), "hole-short": may("length") },
  cup: {
    resin: may("amount"),
    filler: may("amount"),
    hardener: may("amount"),
    total: may("amount"),
    "resin-density": may("density"),
    "filler-density": may("density"),
    "hardener-density": may("density"),
    across: may("length"),
    // For who mixes: how many such cups, the most in one, how soon one sets, how much is used up in a time,
    // the bead that the hardener makes, and hardener per resin at least and at most.
    cups: may("count"),
    largest: may("amount"),
    working: may("time"),
    pace: may("pace"),
    bead: may("length"),
    least: may("share"),
    most: may("share"),
  },
  timeline: { working: may("time"), cure: may("time") },
  map: { across: must("ask"), up: must("ask"), shows: must("outcome") },
  chart: { shows: must("chart") },
};

/** Where no single argument must be there, but one of several. */
const ONE_OF: Readonly<Record<string, readonly string[]>> = { cup: ["resin", "filler", "total"] };

export interface CheckedArgument {
  readonly name: string;
  readonly rule: Rule;
}

export function checkPicture(
  context: CheckContext,
  { shape, arguments: given }: Extract<Statement["body"], { keyword: "picture" }>,
): readonly CheckedArgument[] {
  const knows = Object.hasOwn(PICTURES, shape.text) ? PICTURES[shape.text]! : undefined;
  if (knows === undefined) {
    const near = nearest(shape.text, Object.keys(PICTURES));
    fault(
      context,
      "picture/unknown",
      shape.at,
      { shape: shape.text, shapes: Object.keys(PICTURES), near },
      near ? [{ says: `Write ${near}`, edits: [{ at: shape.at, text: near }] }] : [],
    );
  }
  const seen = new Set<string>();
  const checked = given.map(({ name, rule: expr }) => {
    const rule = check(context, expr);
    if (seen.has(name.text)) fault(context, "picture/twice", name.at, { name: name.text });
    seen.add(name.text);
    if (knows !== undefined && !Object.hasOwn(knows, name.text)) {
      const near = nearest(name.text, Object.keys(knows));
      fault(
        context,
        "picture/argument",
        name.at,
        { shape: shape.text, name: name.text, wants: Object.keys(knows), near },
        near ? [{ says: `Write ${near}`, edits: [{ at: name.at, text: near }] }] : [],
      );
    } else if (knows !== undefined && !suits(context, knows[name.text]!.wants, rule)) {
      fault(context, "picture/wants", rule.at, {
        name: name.text,
        wants: WANTED[knows[name.text]!.wants],
        has: typeName(rule.type),
      });
    }
    return { name: name.text, rule };
  });
  // What is misspelt may be what is missing: that is one finding.
  if (knows === undefined || [...seen].some((name) => !Object.hasOwn(knows, name))) return checked;
  const missing = Object.entries(knows).flatMap(([name, argument]) =>
    argument.required && !seen.has(name) ? [name] : [],
  );
  const oneOf = ONE_OF[shape.text];
  if (missing.length > 0) fault(context, "picture/missing", shape.at, { shape: shape.text, missing });
  else if (oneOf !== undefined && !oneOf.some((name) => seen.has(name)))
    fault(context, "picture/missing", shape.at, { shape: shape.text, missing: oneOf, any: true });
  return checked;
}

const WANTED: Readonly<Record<Wants, string>> = {
  length: "a length",
  amount: "a mass or a volume",
  density: "a mass per volume",
  time: "a time",
  count: "a number of cups",
  share: "a share by mass or by volume",
  pace: "a mass or a volume per time",
  list: "a list with a column in a unit of length",
  ask: "the name of an ask that is answered with a number",
  outcome: "the name of a figure or chart that is one of a kind, or yes or no",
  chart: "the name of a chart over a number, with a number as its value",
};

function suits(context: CheckContext, wants: Wants, rule: Rule): boolean {
  const { type } = rule;
  if (type.is === "anything") return true;
  const what = rule.does === "value" ? context.scope.signature(rule.name)?.what : undefined;
  switch (wants) {
    case "length":
      return isOf(type, LENGTH);
    case "amount":
      return isOf(type, MASS) || isOf(type, VOLUME);
    case "density":
      return isOf(type, DENSITY);
    case "time":
      return isOf(type, TIME);
    case "count":
      return type.is === "count" || isNumber(type);
    case "share":
      return type.is === "share" && type.by !== "plain";
    case "pace":
      return isOf(type, PACES[0]!) || isOf(type, PACES[1]!);
    case "list":
      return type.is === "list" && type.columns.some((column) => isOf(column.type, LENGTH));
    case "ask":
      return what === "ask" && isOrdered(type);
    case "outcome":
      return (what === "figure" || what === "chart") && (type.is === "kind" || type.is === "yes-no");
    case "chart":
      return what === "chart" && (isOrdered(type) || isNumber(type));
  }
}

const PACES = [MASS, VOLUME].map((of) => of.map((power, i) => power - TIME[i]!) as unknown as typeof AREA);
const DENSITY = MASS.map((power, i) => power - VOLUME[i]!) as unknown as typeof AREA;
const isOf = (type: Type, dimension: typeof AREA): boolean =>
  type.is === "quantity" && sameDimension(type.dimension, dimension);
