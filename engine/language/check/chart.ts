// Checks a chart: its header, each cell, how its rows are read, and whether they leave holes or lie over one
// another.
import { type Domain, type Part, type Side, type Stretch, overlap, stretch } from "../../../core/box.ts";
import { findHole } from "../../../core/find-hole.ts";
import { type Column, fits, isNumber, isOrdered, typeName } from "../../../core/type.ts";
import { type Unit, toSI } from "../../../core/unit.ts";
import type { Band, ChartOption, ConditionCell, Expr, Statement, ValueCell } from "../syntax/tree.ts";
import { literal, spoilt } from "./amount.ts";
import { check } from "./expression.ts";
import { unlike } from "./judge.ts";
import { nearest } from "./near.ts";
import type { ChartMode, CheckedChart, CheckedRow, Condition, Hole, Rule } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";
import { writePart } from "./witness.ts";

export type { CheckedChart } from "./rule.ts";

type ChartBody = Extract<Statement["body"], { keyword: "chart" }>;

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function checkChart(
  context: CheckContext,
  statement: Statement,
  body: ChartBody,
  outs: readonly Column[],
): CheckedChart | undefined {
  const name = statement.name!.text;
  const conditions = body.conditions.map((word, i): Condition | undefined => {
    if (body.conditions.findIndex((one) => one.text === word.text) < i) {
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
  });
  const order = columnOrder(context, body, outs, statement);
  const { mode, outside, explicit } = options(context, body.options, statement);
  if (order === undefined || conditions.some((one) => one === undefined) || body.rows.length === 0)
    return undefined;
  const all = conditions as Condition[];

  let sound = true;
  const rows: CheckedRow[] = [];
  for (const [index, row] of body.rows.entries()) {
    if (row.cells.length !== order.length) {
      sound = false;
      continue;
    }
    const sides = all.map((condition, i) => side(context, row.cells[order[i]!] as ConditionCell, condition));
    const values = outs.map((out, i) => value(context, row.cells[order[all.length + i]!] as ValueCell, out));
    if (sides.some((one) => one === undefined)) {
      sound = false;
      continue;
    }
    rows.push({ index, at: row.at, sides: sides as Side[], points: (sides as Side[]).map(pointOf), values });
  }

  const between =
    mode === "straight" || mode === "curve"
      ? all.flatMap((one, i) =>
          one.domain.is === "line" && rows.every((row) => row.points[i] !== undefined) ? [i] : [],
        )
      : [];
  if ((mode === "straight" || mode === "curve") && sound && rows.length > 0) {
    if (between.length === 0 || between.length > 2)
      fault(context, "chart/points", statement.name!.at, { name, count: between.length });
    for (const out of outs)
      if (!isOrdered(out.type) || out.type.is === "count")
        fault(context, "chart/between", statement.name!.at, {
          name,
          type: typeName(out.type),
          column: out.name,
        });
  }
  const chart = { mode, outside, conditions: all, outs, rows, between, order };
  const written = (cells: readonly string[]) => order.map((_, column) => cells[order.indexOf(column)] ?? "");
  if (!sound) return { ...chart, holes: [], clashes: [] };
  const found =
    mode === "straight" || mode === "curve"
      ? groups(context, statement, chart, explicit)
      : proof(context, statement, chart);
  return {
    ...chart,
    holes: found.holes.map((hole) => ({ ...hole, cells: written(hole.cells) })),
    clashes: found.clashes,
    ...(found.open ? { open: true } : {}),
  };
}

// ───────────── head ─────────────

/** Where each condition and each value stands in a written row. */
function columnOrder(
  context: CheckContext,
  body: ChartBody,
  outs: readonly Column[],
  statement: Statement,
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
  void statement;
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

// ───────────── cells ─────────────

function side(context: CheckContext, cell: ConditionCell, condition: Condition): Side | undefined {
  if (cell.fits === undefined) return undefined;
  if (cell.fits === "any") return "any";
  if (condition.domain.is === "words") {
    const words = new Set<number>();
    for (const band of cell.fits) {
      if (band.low === undefined || band.low !== band.high) {
        fault(context, "chart/cell", band.at, {
          text: cell.text,
          type: typeName(condition.type),
          column: condition.name,
        });
        return undefined;
      }
      const before = context.faults.length;
      const rule = literal(context, band.low) ?? check(context, band.low, condition.type);
      if (context.faults.length > before || rule.type.is === "anything") return undefined;
      if (rule.does !== "constant" || !fits(rule.type, condition.type)) {
        fault(context, "chart/cell", band.at, {
          text: cell.text,
          type: typeName(condition.type),
          column: condition.name,
        });
        return undefined;
      }
      words.add(rule.value);
    }
    return { is: "words", words };
  }
  const stretches: Stretch[] = [];
  for (const band of cell.fits) {
    const unit = unitInBand(context, band) ?? condition.unit;
    const low = band.low === undefined ? -Infinity : end(context, band.low, condition, unit);
    const high =
      band.high === undefined
        ? Infinity
        : band.high === band.low
          ? low
          : end(context, band.high, condition, unit);
    if (low === undefined || high === undefined) return undefined;
    const made = stretch(low, band.lowIn, high, band.highIn);
    if (made.from > made.to) {
      fault(context, "band/upside-down", band.at, { text: context.source.slice(band.at.start, band.at.end) });
      return undefined;
    }
    stretches.push(made);
  }
  return { is: "line", stretches: stretches.sort((a, b) => a.from - b.from) };
}

/** In `15 to under 20 °C` the unit at the end serves both ends. */
function unitInBand(context: CheckContext, band: Band): Unit | undefined {
  for (const expr of [band.high, band.low]) {
    if (expr?.is !== "quantity") continue;
    const rule = literal({ ...context, faults: [] }, expr);
    if (rule?.unit !== undefined) return rule.unit;
  }
  return undefined;
}

/** One end of a band in SI: a literal, or a dial whose value is known while the book is checked. */
function end(
  context: CheckContext,
  expr: Expr,
  condition: Condition,
  unit: Unit | undefined,
): number | undefined {
  if (expr.is === "number" && unit !== undefined && !isNumber(condition.type)) {
    const value = toSI(expr.value, unit);
    if (Number.isFinite(value)) return value;
    fault(context, "number/size", expr.at, { text: context.source.slice(expr.at.start, expr.at.end) });
    return undefined;
  }
  const before = context.faults.length;
  const rule = literal(context, expr) ?? check(context, expr, condition.type);
  if (context.faults.length > before || rule.type.is === "anything") return undefined;
  if (!fits(rule.type, condition.type) && !fits(condition.type, rule.type)) {
    unlike(
      context,
      condition.rule,
      rule,
      { is: "name", at: condition.rule.at, name: condition.name },
      expr,
      "compare",
      expr.at,
    );
    return undefined;
  }
  if (rule.does === "constant") return rule.value;
  const constant = rule.does === "value" ? context.scope.signature(rule.name)?.constant : undefined;
  if (constant === undefined)
    fault(context, "chart/end", expr.at, { text: context.source.slice(expr.at.start, expr.at.end) });
  return constant;
}

const pointOf = (one: Side): number | undefined => {
  if (one === "any" || one.is === "words" || one.stretches.length !== 1) return undefined;
  const [only] = one.stretches;
  return only!.low === only!.high ? only!.low : undefined;
};

/** A value cell; a bare number takes the column's unit. */
function value(context: CheckContext, cell: ValueCell, out: Column): Rule {
  if (cell.rule === undefined) return spoilt(cell.at, out.type);
  const expr = cell.rule;
  const rule = check(context, expr, out.type);
  if (rule.type.is === "anything" || out.type.is === "anything") return { ...rule, type: out.type } as Rule;
  if (rule.does === "constant" && isBare(expr)) {
    if (out.unit !== undefined && !isNumber(out.type))
      return { ...rule, type: out.type, unit: out.unit, value: toSI(rule.value, out.unit) };
    if (out.type.is === "share") return { ...rule, type: out.type, value: rule.value * 0.01 };
    if (out.type.is === "taper") return { ...rule, type: out.type };
    if (out.type.is === "count" && Number.isInteger(rule.value) && rule.value >= 0)
      return { ...rule, type: out.type };
  }
  if (fits(rule.type, out.type)) return rule;
  if (rule.type.is === "kind" && out.type.is === "kind")
    fault(context, "kind/mismatch", cell.at, {
      has: rule.type.kind,
      wants: out.type.kind,
      because: `${out.name} is that kind`,
    });
  else
    fault(context, "chart/value", cell.at, {
      text: cell.text,
      has: typeName(rule.type),
      wants: typeName(out.type),
      column: out.name,
    });
  return spoilt(cell.at, out.type);
}

const isBare = (expr: Expr): boolean =>
  expr.is === "number" || (expr.is === "minus" && expr.of.is === "number");

// ───────────── holes and clashes ─────────────

type Unproved = Omit<CheckedChart, "holes" | "clashes" | "open">;
interface Found {
  holes: Hole[];
  clashes: CheckedChart["clashes"];
  open?: boolean;
}

/**
 * Where a figure is looked up its range is not known yet: only holes between its rows are, not beyond them.
 */
function domains(chart: Unproved): readonly Domain[] {
  return chart.conditions.map(({ domain }, i) => {
    if (domain.is === "words") return domain;
    let [low, high] = [domain.low, domain.high];
    if (low === -Infinity || high === Infinity) {
      let [least, most] = [Infinity, -Infinity];
      for (const row of chart.rows) {
        const one = row.sides[i]!;
        if (one === "any" || one.is === "words") {
          if (one === "any") [least, most] = [-Infinity, Infinity];
          continue;
        }
        for (const s of one.stretches) {
          least = Math.min(least, s.low);
          most = Math.max(most, s.high);
        }
      }
      if (low === -Infinity) low = least;
      if (high === Infinity) high = most;
    }
    return { is: "line", low, high };
  });
}

function proof(context: CheckContext, statement: Statement, written: Unproved): Found {
  const { chart, points } = byPoints(written);
  const space = domains(chart);
  const name = statement.name!;
  const partText = (part: Part, i: number) => {
    const known = points[i];
    const x = known !== undefined && part.is === "words" ? known[part.words[0]!]! : undefined;
    return writePart(
      x === undefined ? part : { is: "line", low: x, lowIn: true, high: x, highIn: true },
      chart.conditions[i]!,
    );
  };
  const write = (parts: readonly Part[]) =>
    parts
      .map(partText)
      .flatMap((text, i) => (text === "any" ? [] : [`${chart.conditions[i]!.name} ${text}`]))
      .join(", ") || "any job";
  const clashes: { rows: [number, number]; witness: string }[] = [];
  if (chart.mode === "rows") {
    for (const [a, b] of pairs(written.rows, domains(written))) {
      const both = overlap(space, chart.rows[a]!.sides, chart.rows[b]!.sides);
      if (both === undefined) continue;
      const witness = write(both);
      clashes.push({ rows: [chart.rows[a]!.index, chart.rows[b]!.index], witness });
      fault(context, "chart/overlap", chart.rows[b]!.at, {
        name: name.text,
        witness,
        first: chart.rows[a]!.index + 1,
        second: chart.rows[b]!.index + 1,
        also: [{ at: chart.rows[a]!.at, says: `row ${chart.rows[a]!.index + 1}` }],
      });
      if (clashes.length >= 20) break;
    }
  }
  if (chart.mode === "first-row-wins") neverReached(context, chart, space);
  const holes: Hole[] = [];
  let open = false;
  if (chart.mode !== "keep-every-row") {
    let rows = chart.rows.map((row) => row.sides);
    const pool = { left: 300_000 };
    for (
      let found = findHole(space, rows, pool);
      found.is !== "none" && holes.length < 8;
      found = findHole(space, rows, pool)
    ) {
      if (found.is === "unsettled") {
        open = true;
        break;
      }
      const parts = found.what;
      const cells = [...parts.map(partText), ...chart.outs.map(() => "")];
      holes.push({ witness: write(parts), cells });
      rows = [...rows, parts.map(asSide)];
    }
    for (const hole of holes) {
      const at = statement.name!.at;
      fault(context, "chart/hole", at, {
        name: name.text,
        witness: hole.witness,
        cells: chart.order.map((_, column) => hole.cells[chart.order.indexOf(column)] ?? ""),
      });
    }
  }
  return { holes, clashes, ...(open ? { open } : {}) };
}

/**
 * A parameter whose cells are all single points stands for these points alone, as words of a kind would:
 * between 80 and 120 grit nothing is missing.
 */
function byPoints(chart: Unproved): { chart: Unproved; points: readonly (readonly number[] | undefined)[] } {
  const points = chart.conditions.map((condition, i) => {
    if (
      !condition.parameter ||
      condition.domain.is !== "line" ||
      !chart.rows.every((row) => row.sides[i] === "any" || row.points[i] !== undefined)
    )
      return undefined;
    const found = [...new Set(chart.rows.flatMap((row) => row.points[i] ?? []))].sort((a, b) => a - b);
    return found.length === 0 ? undefined : found;
  });
  if (points.every((one) => one === undefined)) return { chart, points };
  return {
    points,
    chart: {
      ...chart,
      conditions: chart.conditions.map((condition, i) => {
        const known = points[i];
        return known === undefined
          ? condition
          : { ...condition, domain: { is: "words" as const, count: known.length } };
      }),
      rows: chart.rows.map((row) => ({
        ...row,
        sides: row.sides.map((side, i): Side => {
          const known = points[i];
          return known === undefined || side === "any"
            ? side
            : { is: "words", words: new Set([known.indexOf(row.points[i]!)]) };
        }),
      })),
    },
  };
}

const asSide = (part: Part): Side =>
  part.is === "any"
    ? "any"
    : part.is === "words"
      ? { is: "words", words: new Set(part.words) }
      : { is: "line", stretches: [stretch(part.low, part.lowIn, part.high, part.highIn)] };

/**
 * Pairs of rows that may lie over one another: sorted on the first line so that 2,000 rows need not all meet.
 */
function* pairs(rows: readonly CheckedRow[], space: readonly Domain[]): Generator<readonly [number, number]> {
  const line = space.findIndex((one) => one.is === "line");
  const from = (r: number) => {
    const one = rows[r]!.sides[line];
    return line < 0 || one === undefined || one === "any" || one.is === "words"
      ? -Infinity
      : one.stretches[0]!.from;
  };
  const to = (r: number) => {
    const one = rows[r]!.sides[line];
    return line < 0 || one === undefined || one === "any" || one.is === "words"
      ? Infinity
      : one.stretches.at(-1)!.to;
  };
  const order = rows.map((_, i) => i).sort((a, b) => from(a) - from(b));
  const hits: [number, number][] = [];
  for (let i = 0; i < order.length; i++) {
    for (let j = i + 1; j < order.length && from(order[j]!) <= to(order[i]!); j++) {
      hits.push(order[i]! < order[j]! ? [order[i]!, order[j]!] : [order[j]!, order[i]!]);
      if (hits.length > 2_000_000) break;
    }
  }
  yield* hits;
}

/** With `first row wins` a row that those above it cover wholly can never be reached. */
function neverReached(context: CheckContext, chart: Unproved, space: readonly Domain[]): void {
  const pool = { left: 60_000 };
  for (const [i, row] of chart.rows.entries()) {
    // Every row is held against those above it; a chart of very many rows is not followed to its end.
    pool.left -= i / 20;
    if (pool.left < 0) return;
    const inside = space.map((domain, d) => within(domain, row.sides[d]!));
    const above = chart.rows.slice(0, i).filter((one) => overlap(space, one.sides, row.sides) !== undefined);
    if (above.length === 0) continue;
    const found = inside.every((one) => one !== undefined)
      ? findHole(
          inside as Domain[],
          above.map((one) => one.sides.map((side, d) => renamed(side, row.sides[d]!))),
          pool,
        )
      : { is: "found" as const };
    if (found.is === "none") fault(context, "chart/never", row.at, { row: i + 1 });
  }
}

/** A side of another row as it stands in that space: the words are numbered anew. */
function renamed(side: Side, space: Side): Side {
  if (side === "any" || side.is === "line" || space === "any" || space.is === "line") return side;
  return {
    is: "words",
    words: new Set([...space.words].flatMap((word, i) => (side.words.has(word) ? [i] : []))),
  };
}

/** One row's side as a space of its own, where it is one stretch or some words. */
function within(domain: Domain, one: Side): Domain | undefined {
  if (one === "any") return domain;
  if (one.is === "words") return { is: "words", count: one.words.size };
  return one.stretches.length === 1 && domain.is === "line"
    ? {
        is: "line",
        low: Math.max(domain.low, one.stretches[0]!.low),
        high: Math.min(domain.high, one.stretches[0]!.high),
      }
    : undefined;
}

/**
 * Charts that go between points: each group of rows with the same other cells must be a full grid, and the
 * groups must not clash.
 */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
function groups(context: CheckContext, statement: Statement, chart: Unproved, explicit: boolean): Found {
  if (chart.between.length === 0 || chart.between.length > 2) return { holes: [], clashes: [] };
  const name = statement.name!.text;
  const others = chart.conditions.flatMap((_, i) => (chart.between.includes(i) ? [] : [i]));
  const byGroup = new Map<string, CheckedRow[]>();
  for (const row of chart.rows) {
    const key = JSON.stringify(
      others.map((i) => {
        const one = row.sides[i]!;
        return one === "any"
          ? "any"
          : one.is === "words"
            ? [...one.words].sort()
            : one.stretches.map((s) => [s.from, s.to]);
      }),
    );
    const group = byGroup.get(key);
    if (group === undefined) byGroup.set(key, [row]);
    else group.push(row);
  }
  for (const rows of byGroup.values()) {
    const axes = chart.between.map((i) => new Set(rows.map((row) => row.points[i]!)));
    const seen = new Map<string, CheckedRow>();
    for (const row of rows) {
      const key = chart.between.map((i) => row.points[i]).join();
      const twin = seen.get(key);
      if (twin !== undefined)
        fault(context, "chart/overlap", row.at, {
          name,
          witness: chart.between
            .map((i) => {
              const [condition, at] = [chart.conditions[i]!, row.points[i]!];
              const part = { is: "line", low: at, lowIn: true, high: at, highIn: true } as const;
              return `${condition.name} ${writePart(part, condition)}`;
            })
            .join(", "),
          first: twin.index + 1,
          second: row.index + 1,
          also: [{ at: twin.at, says: `row ${twin.index + 1}` }],
        });
      seen.set(key, row);
    }
    if (chart.between.length === 2 && seen.size < axes[0]!.size * axes[1]!.size)
      fault(context, "chart/grid", rows[0]!.at, {
        name,
        has: seen.size,
        wants: axes[0]!.size * axes[1]!.size,
      });
    if (axes.some((axis) => axis.size < 2))
      fault(context, "chart/points", rows[0]!.at, { name, single: true });
  }
  if (chart.outside === "nothing" && !explicit) {
    for (const i of chart.between) {
      const { domain } = chart.conditions[i]!;
      if (domain.is !== "line") continue;
      const points = chart.rows.map((row) => row.points[i]!);
      const [least, most] = [Math.min(...points), Math.max(...points)];
      const gap =
        domain.low < least && Number.isFinite(domain.low)
          ? { low: domain.low, lowIn: true, high: least, highIn: false }
          : domain.high > most && Number.isFinite(domain.high)
            ? { low: most, lowIn: false, high: domain.high, highIn: true }
            : undefined;
      if (gap !== undefined)
        fault(context, "chart/ends", statement.name!.at, {
          name,
          witness: `${chart.conditions[i]!.name} ${writePart({ is: "line", ...gap }, chart.conditions[i]!)}`,
        });
    }
  }
  if (others.length === 0) return { holes: [], clashes: [] };
  const space = others.map((i) => domains(chart)[i]!);
  const heads = [...byGroup.values()].map((rows) => rows[0]!);
  const clashes: { rows: [number, number]; witness: string }[] = [];
  for (let a = 0; a < heads.length; a++)
    for (let b = a + 1; b < heads.length && clashes.length < 20; b++) {
      const both = overlap(
        space,
        others.map((i) => heads[a]!.sides[i]!),
        others.map((i) => heads[b]!.sides[i]!),
      );
      if (both === undefined) continue;
      const witness =
        both
          .flatMap((part, i) =>
            part.is === "any"
              ? []
              : [`${chart.conditions[others[i]!]!.name} ${writePart(part, chart.conditions[others[i]!]!)}`],
          )
          .join(", ") || "any job";
      clashes.push({ rows: [heads[a]!.index, heads[b]!.index], witness });
      fault(context, "chart/overlap", heads[b]!.at, {
        name,
        witness,
        first: heads[a]!.index + 1,
        second: heads[b]!.index + 1,
        also: [{ at: heads[a]!.at, says: `row ${heads[a]!.index + 1}` }],
      });
    }
  const hole = findHole(
    space,
    heads.map((row) => others.map((i) => row.sides[i]!)),
  );
  if (hole.is !== "found") return { holes: [], clashes };
  const witness = hole.what
    .flatMap((part, i) =>
      part.is === "any"
        ? []
        : [`${chart.conditions[others[i]!]!.name} ${writePart(part, chart.conditions[others[i]!]!)}`],
    )
    .join(", ");
  fault(context, "chart/hole", statement.name!.at, { name, witness });
  return { holes: [{ witness, cells: [] }], clashes };
}
