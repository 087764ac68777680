// Every name that a statement mentions, found in its tree without knowing what any of them is. The order of
// evaluation and the loops of a book are read from these.
import type { Body, ChartRow, ConditionCell, Declared, Expr, Statement, Text, ValueCell } from "./tree.ts";

type Readable = Pick<Statement, "body" | "clauses">;

/**
 * `uses`: names mentioned anywhere in the statement, each once; parameters and list counters are left out.
 * `needs`: those that its value rests on.
 */
export function namesIn({ body, clauses }: Readable): {
  readonly uses: readonly string[];
  readonly needs: readonly string[];
} {
  const names = new NameSet();
  names.rule(clauses.when);
  names.rule(clauses.takes);
  names.rule(clauses.waits);
  names.rule(clauses.measured);
  names.rule(clauses.ifUnknown?.take);
  names.rule(clauses.ifBlank?.take);
  clauses.withSteps?.forEach((step) => names.found.add(`step ${step.text}`));
  addNamesOf(body, names);
  for (const name of names.own) names.found.delete(name);
  names.found.delete("");
  const needs = [...names.found];
  names.text(clauses.title);
  names.text(clauses.because);
  names.text(clauses.then);
  names.text(clauses.ifUnknown?.because);
  names.text(clauses.ifBlank?.because);
  names.found.delete("");
  return { uses: [...names.found], needs };
}

/** Names as they are met in rules and texts. */
class NameSet {
  readonly found = new Set<string>();
  /** Parameters, counters and columns: names of the statement itself. */
  readonly own = new Set<string>();

  rule(expr: Expr | undefined): void {
    if (expr !== undefined) eachExpr(expr, (one) => this.mention(one));
  }

  text(text: Text | undefined): void {
    for (const piece of text?.pieces ?? []) if (typeof piece !== "string") this.rule(piece.rule);
  }

  kindOf(declared: Declared): void {
    if (declared !== undefined && "of" in declared) this.found.add(`kind ${declared.of.text}`);
  }

  private mention(expr: Expr): void {
    if (expr.is === "name") this.found.add(expr.name);
    // A call rests on more than a mention does: on everything that the formula or the chart says, `name()`.
    else if (expr.is === "call") this.found.add(expr.name.text).add(`${expr.name.text}()`);
    else if (expr.is === "before") this.found.add(expr.name.text);
    else if (expr.is === "gather") this.found.add(expr.from.text);
    else if (expr.is === "among") this.found.add(expr.chart.text);
    else if (expr.is === "text") this.text(expr.text);
  }
}

function addNamesOf(body: Body, names: NameSet): void {
  switch (body.keyword) {
    case "ask":
      names.rule(body.range?.low);
      names.rule(body.range?.high);
      body.usually?.items.forEach((item) => names.rule(item));
      names.kindOf(body.declared);
      return;
    case "dial":
      names.rule(body.rule);
      names.rule(body.range?.low);
      names.rule(body.range?.high);
      names.kindOf(body.declared);
      return;
    case "figure":
      names.rule(body.rule);
      names.kindOf(body.declared);
      return;
    case "formula":
      for (const { name, declared } of body.parameters) {
        names.own.add(name.text);
        names.kindOf(declared);
      }
      names.rule(body.rule);
      return;
    case "list":
      addNamesOfList(body, names);
      return;
    case "chart":
      addNamesOfChart(body, names);
      return;
    case "promise":
      names.rule(body.rule);
      return;
    case "picture":
      for (const one of body.arguments) names.rule(one.rule);
      return;
    case "worked":
      for (const one of [...body.given, ...body.gives.filter((one) => one.is === "value")]) {
        names.found.add(one.name.text);
        names.rule(one.value);
      }
      return;
    case "book":
    case "part":
    case "use":
    case "drop":
    case "add":
    case "kind":
    case "step":
    case "caution":
    case "stop":
    case "unreadable":
      return;
  }
}

function addNamesOfList(body: Extract<Body, { keyword: "list" }>, names: NameSet): void {
  names.own.add(body.counter.text);
  names.rule(body.from);
  names.rule(body.to);
  for (const { name, declared, rule } of body.columns) {
    names.rule(rule);
    names.own.add(name.text);
    names.kindOf(declared);
  }
}

function addNamesOfChart(body: Extract<Body, { keyword: "chart" }>, names: NameSet): void {
  for (const { text, declared } of body.conditions) {
    if (declared === undefined) names.found.add(text);
    else {
      names.own.add(text);
      names.kindOf(declared);
    }
  }
  for (const { declared } of body.gives) {
    if (declared !== undefined && "bare" in declared) names.found.add(`kind ${declared.bare.text}`);
    else names.kindOf(declared);
  }
  for (const row of body.rows) addNamesOfRow(row, names);
}

function addNamesOfRow(row: ChartRow, names: NameSet): void {
  for (const cell of row.cells as readonly (ConditionCell | ValueCell)[]) {
    if ("rule" in cell) names.rule(cell.rule);
    if (!("fits" in cell) || cell.fits === undefined || cell.fits === "any") continue;
    for (const band of cell.fits) {
      names.rule(band.low);
      if (band.high !== band.low) names.rule(band.high);
    }
  }
}

/** Visits an expression and everything in it, outermost first. */
export function eachExpr(expr: Expr, visit: (expr: Expr) => void): void {
  const stack: Expr[] = [expr];
  for (let e = stack.pop(); e !== undefined; e = stack.pop()) {
    visit(e);
    stack.push(...partsOf(e).reverse());
  }
}

/** The expressions directly inside one, in the order of the text. */
export function partsOf(e: Expr): Expr[] {
  switch (e.is) {
    case "number":
    case "quantity":
    case "taper":
    case "mix":
    case "truth":
    case "text":
    case "name":
    case "before":
    case "gather":
      return [];
    case "call":
      return [...e.args];
    case "minus":
    case "not":
    case "counted":
    case "known":
    case "among":
      return [e.of];
    case "binary":
      return [e.left, e.right];
    case "round":
      return e.to === "whole" ? [e.of] : [e.of, e.to];
    case "in-band":
      return [
        e.of,
        ...(e.band.low ? [e.band.low] : []),
        ...(e.band.high && e.band.high !== e.band.low ? [e.band.high] : []),
      ];
    case "one-of":
      return [e.of, ...e.items];
    case "of-known":
      return [...e.items];
    case "choose":
      return [...e.cases.flatMap((c) => [c.value, c.when]), ...(e.otherwise ? [e.otherwise] : [])];
  }
}
