// Trees as they count in a combined book: a rule underneath under another name, a rule above with that name
// for `as-before`. Places stay as they are, so that everything still points at the text as written. The same
// tree and the same names give the same object again, so that what was checked of it serves on after an edit.
import { namesIn } from "../syntax/names.ts";
import type { Body, Clauses, Declared, Expr, Statement, Word } from "../syntax/tree.ts";

const AS_BEFORE = "as-before";

const made = new WeakMap<Statement, Map<string, Statement>>();

/** The tree that `make` gives for this statement, made once for each key. */
export function once(statement: Statement, key: string, make: () => Statement): Statement {
  let known = made.get(statement);
  if (known === undefined) {
    known = new Map();
    made.set(statement, known);
  }
  const before = known.get(key);
  if (before !== undefined) return before;
  const fresh = make();
  known.set(key, fresh);
  return fresh;
}

/** The statement with another body and clauses, and the names that these mention. */
export function withParts(
  statement: Statement,
  body: Body,
  clauses: Clauses,
  name: Word | undefined,
  more: { readonly below?: string } = {},
): Statement {
  const { uses, needs } = namesIn({ body, clauses });
  const { name: _old, ...rest } = statement;
  const extra = more.below === undefined ? [] : [more.below];
  return {
    ...rest,
    body,
    clauses,
    ...(name ? { name } : {}),
    ...more,
    uses: [...new Set([...uses, ...extra])],
    needs: [...new Set([...needs, ...extra])],
  };
}

type Swap = (expr: Expr) => Expr | undefined;

/** Every expression in a value of a tree, with those that `swap` answers for put in its place. */
function mapped<V>(value: V, swap: Swap): V {
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) {
    const parts = value.map((one) => mapped(one, swap));
    return (parts.some((one, i) => one !== value[i]) ? parts : value) as V;
  }
  const swapped = "is" in value ? swap(value as unknown as Expr) : undefined;
  if (swapped !== undefined) return swapped as V;
  let changed = false;
  const copy: Record<string, unknown> = {};
  for (const [key, part] of Object.entries(value)) {
    copy[key] = key === "at" ? part : mapped(part, swap);
    if (copy[key] !== part) changed = true;
  }
  return (changed ? copy : value) as V;
}

const renaming = (from: string, to: string): Swap =>
  function swap(expr): Expr | undefined {
    switch (expr.is) {
      case "name":
        return expr.name === from ? { ...expr, name: to } : undefined;
      case "call":
        return expr.name.text === from
          ? { ...expr, name: { ...expr.name, text: to }, args: mapped(expr.args, swap) }
          : undefined;
      case "gather":
        return expr.from.text === from ? { ...expr, from: { ...expr.from, text: to } } : undefined;
      case "among":
        return expr.chart.text === from
          ? { ...expr, of: mapped(expr.of, swap), chart: { ...expr.chart, text: to } }
          : undefined;
      case "number":
      case "quantity":
      case "taper":
      case "mix":
      case "truth":
      case "text":
      case "before":
      case "counted":
      case "minus":
      case "not":
      case "binary":
      case "round":
      case "in-band":
      case "one-of":
      case "of-known":
      case "known":
      case "choose":
        return undefined;
    }
  };

/** Whether a rule, cell or text of the statement names the value underneath. */
export const namesBefore = (statement: Statement): boolean => statement.uses.includes(AS_BEFORE);

/** The statement under another name; where it names itself, in a reason, it goes on doing so. */
export const renamed = (statement: Statement, to: string): Statement =>
  once(statement, `name ${to}`, () => {
    const from = statement.name!.text;
    const swap = renaming(from, to);
    const body = mapped(statement.body, swap);
    // The last column of a chart is headed by the chart's name.
    const headed: Body =
      body.keyword === "chart"
        ? { ...body, header: body.header.map((cell) => (cell.text === from ? { ...cell, text: to } : cell)) }
        : body;
    return withParts(statement, headed, mapped(statement.clauses, swap), { ...statement.name!, text: to });
  });

/** A value that replaces `under`, which is kept by the name `below` where it is needed. */
export const replacing = (own: Statement, under: Statement, below: string | undefined): Statement =>
  once(own, `over ${below ?? ""}\u0000${under.text}`, () => {
    const swap: Swap =
      below === undefined
        ? () => undefined
        : own.body.keyword === "formula"
          ? formulaSwap(
              own.body.parameters.map((one) => one.name),
              below,
            )
          : renaming(AS_BEFORE, below);
    const { when, ...clauses } = mapped(own.clauses, swap);
    const title =
      own.body.keyword === "ask" || own.body.keyword === "dial"
        ? (clauses.title ?? under.clauses.title)
        : clauses.title;
    const body = inheriting(mapped(own.body, swap), under.body);
    const conditional = when === undefined || below === undefined ? body : elsewhere(body, when, below, own);
    const keeps = own.body.keyword === "dial" && below !== undefined ? { below } : {};
    const line =
      own.body.keyword === "step" ||
      own.body.keyword === "caution" ||
      own.body.keyword === "stop" ||
      own.body.keyword === "chart" ||
      own.body.keyword === "list";
    return withParts(
      own,
      conditional,
      {
        ...clauses,
        ...(title ? { title: clauses.title ?? { ...title, at: own.name!.at } } : {}),
        ...(line && when ? { when } : {}),
      },
      own.name,
      keeps,
    );
  });

/** In a formula, `as-before` alone is the formula underneath with the same parameters. */
function formulaSwap(parameters: readonly Word[], below: string): Swap {
  const plain = renaming(AS_BEFORE, below);
  return (expr) =>
    expr.is === "name" && expr.name === AS_BEFORE
      ? {
          is: "call",
          at: expr.at,
          name: { at: expr.at, text: below },
          args: parameters.map(({ text }): Expr => ({ is: "name", at: expr.at, name: text })),
        }
      : plain(expr);
}

/**
 * What is not said again stays as it is said underneath: what a value is measured in, what a dial or an ask
 * may be.
 */
function inheriting(body: Body, under: Body): Body {
  const declared = (own: Declared): Declared => own ?? ("declared" in under ? under.declared : undefined);
  switch (body.keyword) {
    case "figure":
      return { ...body, declared: declared(body.declared) };
    case "dial":
      return { ...body, declared: declared(body.declared) };
    case "ask":
      return {
        ...body,
        declared: declared(body.declared),
        ...(under.keyword === "ask" && body.range === undefined
          ? {
              ...(under.range ? { range: under.range } : {}),
              ...(under.usually && !body.usually ? { usually: under.usually } : {}),
            }
          : {}),
      };
    case "book":
    case "part":
    case "kind":
    case "formula":
    case "chart":
    case "list":
    case "step":
    case "caution":
    case "stop":
    case "promise":
    case "picture":
    case "worked":
    case "use":
    case "drop":
    case "add":
    case "unreadable":
      return body;
  }
}

/** A condition leaves the rule underneath in force elsewhere. */
function elsewhere(body: Body, when: Expr, below: string, own: Statement): Body {
  if (body.keyword !== "figure" && body.keyword !== "formula") return body;
  const at = own.instead ?? own.name!.at;
  const otherwise: Expr =
    body.keyword === "figure"
      ? { is: "name", at, name: below }
      : {
          is: "call",
          at,
          name: { at, text: below },
          args: body.parameters.map(({ name }): Expr => ({ is: "name", at, name: name.text })),
        };
  return {
    ...body,
    rule: { is: "choose", at: body.rule.at, cases: [{ value: body.rule, when }], otherwise },
  };
}
