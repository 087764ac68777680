// Checks a chart: its header, each row, and how its rows are read.
import type { Domain, Side } from "../../../core/box.ts";
import { type Column, isOrdered, typeName } from "../../../core/type.ts";
import type { ChartOption, ChartRow, ConditionCell, Statement, ValueCell, Word } from "../syntax/tree.ts";
import { checkCondition, checkValue, pointOf } from "./chart-cell.ts";
import { type Uncovered, checkCoverage } from "./chart-coverage.ts";
import { checkGroups } from "./chart-groups.ts";
import { check } from "./expression.ts";
import { nearest } from "./did-you-mean.ts";
import type { ChartMode, CheckedChart, CheckedRow, Condition } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";

export type { CheckedChart } from "./rule.ts";

type ChartBody = Extract<Statement["body"], { keyword: "chart" }>;

export function checkChart(
  context: CheckContext,
  statement: Statement,
  body: ChartBody,
  outs: readonly Column[],
): CheckedChart | undefined {
  const checked = body.conditions.map((_, i) => checkLookup(context, body, i));
  const order = columnOrder(context, body, outs);
  const { mode, outside, explicit } = options(context, body.options, statement);
  const conditions = checked.filter((one) => one !== undefined);
  if (order === undefined || conditions.length < checked.length || body.rows.length === 0) return undefined;
  const rows = body.rows.flatMap(
    (row, index) => checkRow(context, { conditions, outs, order }, row, index) ?? [],
  );
  const isBetween = mode === "straight" || mode === "curve";
  const between = isBetween
    ? conditions.flatMap((one, i) =>
        one.domain.is === "line" && rows.every((row) => row.points[i] !== undefined) ? [i] : [],
      )
    : [];
  const chart: Uncovered = { mode, outside, conditions, outs, rows, between, order };
  if (rows.length < body.rows.length) return { ...chart, holes: [], clashes: [] };
  if (isBetween) checkBetween(context, chart, statement.name!);
  const found = isBetween
    ? checkGroups(context, statement.name!, chart, explicit)
    : checkCoverage(context, statement.name!, chart);
  const written = (cells: readonly string[]) => order.map((_, column) => cells[order.indexOf(column)] ?? "");
  return {
    ...chart,
    holes: found.holes.map((hole) => ({ ...hole, cells: written(hole.cells) })),
    clashes: found.clashes,
    ...(found.open ? { open: true } : {}),
  };
}

/** The value or the parameter that the chart is read by in its place `i`; undefined with a finding. */
function checkLookup(context: CheckContext, { conditions }: ChartBody, i: number): Condition | undefined {
  const word = conditions[i]!;
  if (conditions.findIndex((one) => one.text === word.text) < i) {
    fault(context, "chart/condition-twice", word.at, { name: word.text });
    return undefined;
  }
  const rule = check(context, { is: "name", at: word.at, name: word.text });
  const { type } = rule;
  if (type.is === "anything") return undefined;
  if (type.is === "text" || type.is === "list" || type.is === "row" || type.is === "kept") {
    fault(context, "type/wanted", word.at, {
      has: typeName(type),
      wants: "an amount, a kind or yes or no",
      because: "a chart looks it up",
    });
    return undefined;
  }
  const parameter = word.declared !== undefined;
  const known = parameter ? undefined : context.scope.signature(word.text);
  const domain: Domain =
    type.is === "kind"
      ? { is: "words", count: type.words.length }
      : type.is === "yes-no"
        ? { is: "words", count: 2 }
        : { is: "line", low: known?.range?.low ?? -Infinity, high: known?.range?.high ?? Infinity };
  return { name: word.text, type, unit: rule.unit, domain, rule, parameter };
}

/** Undefined where a condition cannot be read; the finding is there. */
function checkRow(
  context: CheckContext,
  { conditions, outs, order }: Pick<Uncovered, "conditions" | "outs" | "order">,
  row: ChartRow,
  index: number,
): CheckedRow | undefined {
  if (row.cells.length !== order.length) return undefined;
  const read = conditions.map((condition, i) =>
    checkCondition(context, row.cells[order[i]!] as ConditionCell, condition),
  );
  const values = outs.map((out, i) =>
    checkValue(context, row.cells[order[conditions.length + i]!] as ValueCell, out),
  );
  const sides = read.filter((side): side is Side => side !== undefined);
  if (sides.length < read.length) return undefined;
  return { index, at: row.at, sides, points: sides.map(pointOf), values };
}

/** A chart that goes between its rows needs one or two columns of points, and values to go between. */
function checkBetween(context: CheckContext, { between, outs }: Uncovered, { text: name, at }: Word): void {
  if (between.length === 0 || between.length > 2)
    fault(context, "chart/points", at, { name, count: between.length });
  for (const out of outs)
    if (!isOrdered(out.type) || out.type.is === "count")
      fault(context, "chart/between", at, { name, type: typeName(out.type), column: out.name });
}

/** Where each condition and each value is in a written row. */
function columnOrder(
  context: CheckContext,
  body: ChartBody,
  outs: readonly Column[],
): readonly number[] | undefined {
  const width = body.conditions.length + outs.length;
  if (body.header.length === 0) return undefined;
  if (body.header.length !== width) {
    const at = { start: body.header[0]!.at.start, end: body.header.at(-1)!.at.end };
    fault(context, "chart/header", at, {
      has: body.header.length,
      wants: [...body.conditions.map((one) => one.text), ...outs.map((one) => one.name)],
    });
    return undefined;
  }
  const places = body.conditions.map((word) => body.header.findIndex((cell) => cell.text === word.text));
  const rest = body.header.map((_, i) => i).filter((i) => !places.includes(i));
  const missing = body.conditions[places.indexOf(-1)];
  // An empty cell is nothing to point at: the whole head is.
  const whole = {
    start: body.header[0]!.at.start,
    end: Math.max(body.header.at(-1)!.at.end, body.header[0]!.at.start + 1),
  };
  if (missing !== undefined) {
    const odd =
      rest.map((i) => body.header[i]!).find((cell) => nearest(cell.text, [missing.text]) !== undefined) ??
      body.header[rest[0] ?? 0]!;
    fault(
      context,
      "chart/header",
      odd.at.end > odd.at.start ? odd.at : whole,
      {
        missing: missing.text,
        wants: [...body.conditions.map((one) => one.text), ...outs.map((one) => one.name)],
      },
      nearest(odd.text, [missing.text])
        ? [{ says: `Write ${missing.text}`, edits: [{ at: odd.at, text: missing.text }] }]
        : [],
    );
    return undefined;
  }
  if (outs.length === 1) return [...places, rest[0]!];
  const valuePlaces = outs.map((out) => rest.find((i) => body.header[i]!.text === out.name) ?? -1);
  if (valuePlaces.includes(-1)) {
    const lost = outs[valuePlaces.indexOf(-1)]!;
    const cell =
      rest.map((i) => body.header[i]!).find((one) => !outs.some((out) => out.name === one.text)) ??
      body.header.at(-1)!;
    fault(context, "chart/header", cell.at.end > cell.at.start ? cell.at : whole, {
      missing: lost.name,
      wants: [...body.conditions.map((one) => one.text), ...outs.map((one) => one.name)],
    });
    return undefined;
  }
  return [...places, ...valuePlaces];
}

function options(
  context: CheckContext,
  written: ChartBody["options"],
  statement: Statement,
): { mode: ChartMode; outside: "nothing" | "hold-ends"; explicit: boolean } {
  let mode: ChartMode = "rows";
  let outside: "nothing" | "hold-ends" = "nothing";
  let explicit = false;
  const seen = new Set<string>();
  for (const { option, at } of written) {
    const family = option === "hold ends" || option === "nothing outside" ? "outside" : "mode";
    if (seen.has(family)) {
      fault(context, "chart/options", at, { option: OPTION_WORDS[option] });
      continue;
    }
    seen.add(family);
    switch (option) {
      case "hold ends":
        outside = "hold-ends";
        explicit = true;
        break;
      case "nothing outside":
        explicit = true;
        break;
      case "straight":
      case "curve":
      case "first-row-wins":
      case "keep-every-row":
        mode = option;
        break;
    }
  }
  if (outside === "hold-ends" && mode !== "straight" && mode !== "curve")
    fault(context, "chart/options", statement.name!.at, {
      option: "hold ends",
      needs: "straight between rows",
    });
  return { mode, outside, explicit };
}

const OPTION_WORDS: Record<ChartOption, string> = {
  straight: "straight between rows",
  curve: "curve between rows",
  "first-row-wins": "first row wins",
  "keep-every-row": "keep every row that fits",
  "nothing outside": "nothing outside",
  "hold ends": "hold ends",
};
