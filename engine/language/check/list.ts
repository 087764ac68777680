// Checks a list: how far it runs, its columns one after the other, and what they look at in the row above.
import { COUNT, ANYTHING, type Type, isNumber, typeName } from "../../../core/type.ts";
import type { Unit } from "../../../core/unit.ts";
import type { Expr, Statement, Word } from "../syntax/tree.ts";
import { spoilt } from "./amount.ts";
import { beforeName, columnsBefore, firstLook } from "./before.ts";
import { type Resolved, declaredRule, resolve } from "./declared.ts";
import { check } from "./expression.ts";
import type { Rule } from "./rule.ts";
import { type CheckContext, type Signature, fault, signature } from "./scope.ts";

type ListBody = Extract<Statement["body"], { keyword: "list" }>;

export interface CheckedList {
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

const MOST_ROWS = 10_000;

/** A list while its columns are checked in turn. */
interface ListState {
  readonly context: CheckContext;
  readonly counter: string;
  /** The first row's number, if that is written out. */
  readonly first: number | undefined;
  /** Columns that some rule looks at in the row above. */
  readonly above: ReadonlySet<string>;
  /** What a rule may name: the counter, the columns before its own, and columns of the row above. */
  readonly locals: Map<string, Resolved>;
}

export function checkList(
  context: CheckContext,
  body: ListBody,
  name: Word,
): { readonly signature: Signature; readonly list: CheckedList } {
  const from = bound(context, body.from, "from");
  const to = bound(context, body.to, "to");
  if (from.does === "constant" && to.does === "constant" && to.value - from.value + 1 > MOST_ROWS)
    fault(
      context,
      "budget/list",
      { start: body.from.at.start, end: body.to.at.end },
      { has: to.value - from.value + 1, most: MOST_ROWS },
    );
  if (body.columns.length === 0) fault(context, "list/no-columns", name.at, { name: name.text });
  const state: ListState = {
    context,
    counter: body.counter.text,
    first: from.does === "constant" ? from.value : undefined,
    above: columnsBefore(body.columns.map((column) => column.rule)),
    locals: new Map([[body.counter.text, { type: COUNT, unit: undefined }]]),
  };
  const faultsBefore = context.faults.length;
  for (const [column, known] of typesBefore(context, body, state.above, state.locals))
    state.locals.set(beforeName(column), known);
  const columns = body.columns.map((column) => checkColumn(state, column));
  // Where another finding has spoilt a type, that one says enough.
  const open = body.columns.find(
    ({ name }) => state.above.has(name.text) && state.locals.get(name.text)?.type.is === "anything",
  );
  if (open !== undefined && context.faults.length === faultsBefore)
    fault(context, "list/before-type", open.name.at, { name: open.name.text });
  return {
    list: {
      counter: state.counter,
      from,
      to,
      columns,
      above: columns.flatMap((one) => (state.above.has(one.name) ? [one.name] : [])),
    },
    signature: signature({
      what: "list",
      type: { is: "list", columns: columns.map(({ name, type, unit }) => ({ name, type, unit })) },
      unit: undefined,
    }),
  };
}

/** The first or the last row's number. */
function bound(context: CheckContext, expr: Expr, where: string): Rule {
  const rule = check(context, expr);
  if (rule.type.is === "anything" || isNumber(rule.type)) return rule;
  fault(context, "type/wanted", rule.at, {
    has: typeName(rule.type),
    wants: "a count",
    because: `a list runs ${where} it`,
  });
  return spoilt(rule.at);
}

/** Checks one column and adds it to what the columns behind it may name. */
function checkColumn(
  { context, counter, first, above, locals }: ListState,
  column: ListBody["columns"][number],
): CheckedList["columns"][number] {
  const name = column.name.text;
  if (locals.has(name)) fault(context, "list/column-twice", column.name.at, { name });
  const declared = resolve(context, column.declared);
  const rule = declaredRule({ ...context, locals: new Map(locals) }, column.rule, declared, name);
  const type = declared?.type ?? rule.type;
  const unit = declared?.unit ?? rule.unit;
  // A text's inserts are filled in when it is read, and by then the list is at its last row.
  if (rule.type.is === "text" && hasInserts(rule)) fault(context, "list/text", rule.at, { column: name });
  locals.set(name, { type, unit });
  const early = above.size === 0 ? undefined : firstLook(rule, counter, first);
  if (early !== undefined) fault(context, "list/before-first", early.at, { column: name, counter, first });
  return { name, rule, type, ...(unit ? { unit } : {}) };
}

/**
 * What the columns looked at in the row above are: as declared, else as their rules are found to be. A rule
 * may look at its own column there, so the rules are gone through until nothing more is learned; what is
 * wrong with them is found afterwards.
 */
function typesBefore(
  context: CheckContext,
  body: ListBody,
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
