// What the rows of a chart leave out and where two of them lie over one another.
import { type Domain, type Part, type Side, overlap, stretch } from "../../../core/box.ts";
import { findHole } from "../../../core/find-hole.ts";
import type { Word } from "../syntax/tree.ts";
import type { CheckedChart, CheckedRow, Hole } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";
import { writePart } from "./witness.ts";

/** A chart before its rows are looked at together. */
export type Uncovered = Omit<CheckedChart, "holes" | "clashes" | "open">;
export interface Coverage {
  readonly holes: readonly Hole[];
  readonly clashes: CheckedChart["clashes"];
  /** Whether the search for holes was given up. */
  readonly open?: boolean;
}

const MOST_HOLES = 8;
export const MOST_CLASHES = 20;

/**
 * The range of each condition. That of a figure is not known yet: only holes between its rows are, not beyond
 * them.
 */
export function domainsOf(chart: Uncovered): readonly Domain[] {
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

export function checkCoverage(context: CheckContext, name: Word, asWritten: Uncovered): Coverage {
  const { chart, points } = byPoints(asWritten);
  const space = domainsOf(chart);
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
  const clashes = chart.mode === "rows" ? findClashes(context, name, { asWritten, chart, space, write }) : [];
  if (chart.mode === "first-row-wins") neverReached(context, chart, space);
  if (chart.mode === "keep-every-row") return { holes: [], clashes };
  const { holes, open } = findHoles(chart, space);
  const written = holes.map((parts) => ({
    witness: write(parts),
    cells: [...parts.map(partText), ...chart.outs.map(() => "")],
  }));
  for (const hole of written)
    fault(context, "chart/hole", name.at, {
      name: name.text,
      witness: hole.witness,
      cells: chart.order.map((_, column) => hole.cells[chart.order.indexOf(column)] ?? ""),
    });
  return { holes: written, clashes, ...(open ? { open } : {}) };
}

interface Searched {
  readonly asWritten: Uncovered;
  readonly chart: Uncovered;
  readonly space: readonly Domain[];
  readonly write: (parts: readonly Part[]) => string;
}

function findClashes(
  context: CheckContext,
  name: Word,
  { asWritten, chart, space, write }: Searched,
): Coverage["clashes"] {
  const clashes: Coverage["clashes"][number][] = [];
  for (const [a, b] of pairs(asWritten.rows, domainsOf(asWritten))) {
    const both = overlap(space, chart.rows[a]!.sides, chart.rows[b]!.sides);
    if (both === undefined) continue;
    clashes.push(clash(context, name.text, [chart.rows[a]!, chart.rows[b]!], write(both)));
    if (clashes.length >= MOST_CLASHES) break;
  }
  return clashes;
}

/** Notes that two rows lie over one another. */
export function clash(
  context: CheckContext,
  name: string,
  [first, second]: readonly [CheckedRow, CheckedRow],
  witness: string,
): CheckedChart["clashes"][number] {
  fault(context, "chart/overlap", second.at, {
    name,
    witness,
    first: first.index + 1,
    second: second.index + 1,
    also: [{ at: first.at, says: `row ${first.index + 1}` }],
  });
  return { rows: [first.index, second.index], witness };
}

function findHoles(
  chart: Uncovered,
  space: readonly Domain[],
): { readonly holes: readonly (readonly Part[])[]; readonly open: boolean } {
  const rows = chart.rows.map((row) => row.sides);
  const holes: (readonly Part[])[] = [];
  const pool = { left: 300_000 };
  while (holes.length < MOST_HOLES) {
    const found = findHole(space, rows, pool);
    if (found.is !== "found") return { holes, open: found.is === "unsettled" };
    holes.push(found.what);
    rows.push(found.what.map(asSide));
  }
  return { holes, open: false };
}

/**
 * A parameter whose cells are all single points has these points as its whole domain, as words of a kind
 * would: between 80 and 120 grit nothing is missing.
 */
function byPoints(chart: Uncovered): {
  chart: Uncovered;
  points: readonly (readonly number[] | undefined)[];
} {
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
function neverReached(context: CheckContext, chart: Uncovered, space: readonly Domain[]): void {
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

/** A side of another row as part of that space: the words are numbered again from 0. */
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
