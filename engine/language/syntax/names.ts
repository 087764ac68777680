// Every name that a statement mentions, found in its tree without knowing what any of them is.
// The order of work and the loops of a book are read from these.
import type { Band, Expr, Statement, Text } from "./tree.ts";

type Readable = Pick<Statement, "body" | "clauses">;

/**
 * `uses`: names mentioned anywhere in the statement, each once; parameters and list counters are left out.
 * `needs`: those that its value rests on.
 */
export function namesIn({ body, clauses }: Readable): {
  readonly uses: readonly string[];
  readonly needs: readonly string[];
} {
  const found = new Set<string>();
  const own = new Set<string>();
  const rule = (expr: Expr | undefined) =>
    expr &&
    eachExpr(expr, (e) => {
      if (e.is === "name") found.add(e.name);
      // A call rests on more than a mention does: on all that the formula or the chart says, `name()`.
      else if (e.is === "call") found.add(e.name.text).add(`${e.name.text}()`);
      else if (e.is === "before") found.add(e.name.text);
      else if (e.is === "gather") found.add(e.from.text);
      else if (e.is === "among") found.add(e.chart.text);
      else if (e.is === "text") text(e.text);
    });
  const text = (t: Text | undefined) =>
    t?.pieces.forEach((piece) => typeof piece !== "string" && rule(piece.rule));

  rule(clauses.when);
  rule(clauses.takes);
  rule(clauses.waits);
  rule(clauses.measured);
  rule(clauses.ifUnknown?.take);
  clauses.withSteps?.forEach((step) => found.add(`step ${step.text}`));

  switch (body.keyword) {
    case "ask":
      rule(body.range?.low);
      rule(body.range?.high);
      kindOf(body.declared);
      break;
    case "dial":
      rule(body.rule);
      rule(body.range?.low);
      rule(body.range?.high);
      kindOf(body.declared);
      break;
    case "figure":
      rule(body.rule);
      kindOf(body.declared);
      break;
    case "formula":
      body.parameters.forEach((p) => {
        own.add(p.name.text);
        kindOf(p.declared);
      });
      rule(body.rule);
      break;
    case "list":
      own.add(body.counter.text);
      rule(body.from);
      rule(body.to);
      body.columns.forEach((column) => {
        rule(column.rule);
        own.add(column.name.text);
        kindOf(column.declared);
      });
      break;
    case "chart":
      body.conditions.forEach((word) => {
        if (word.declared === undefined) found.add(word.text);
        else {
          own.add(word.text);
          kindOf(word.declared);
        }
      });
      body.gives.forEach(
        (out) =>
          out.declared &&
          ("bare" in out.declared ? found.add(`kind ${out.declared.bare.text}`) : kindOf(out.declared)),
      );
      for (const row of body.rows)
        for (const cell of row.cells) {
          const fits = "fits" in cell ? (cell as { fits?: "any" | readonly Band[] }).fits : undefined;
          if (fits !== undefined && fits !== "any")
            fits.forEach((band) => {
              rule(band.low);
              if (band.high !== band.low) rule(band.high);
            });
          if ("rule" in cell) rule((cell as { rule?: Expr }).rule);
        }
      break;
    case "promise":
      rule(body.rule);
      break;
    case "picture":
      body.arguments.forEach((one) => rule(one.rule));
      break;
    case "worked":
      body.given.forEach((one) => {
        found.add(one.name.text);
        rule(one.value);
      });
      body.gives.forEach((one) => {
        if (one.is === "value") {
          found.add(one.name.text);
          rule(one.value);
        }
      });
      break;
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
      break;
  }
  own.forEach((name) => found.delete(name));
  found.delete("");
  const needs = [...found];
  text(clauses.title);
  text(clauses.because);
  text(clauses.ifUnknown?.because);
  found.delete("");
  return { uses: [...found], needs };

  function kindOf(
    declared: { readonly in: unknown } | { readonly of: { readonly text: string } } | undefined,
  ) {
    if (declared && "of" in declared) found.add(`kind ${declared.of.text}`);
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
    case "choose":
      return [...e.cases.flatMap((c) => [c.value, c.when]), ...(e.otherwise ? [e.otherwise] : [])];
  }
}
