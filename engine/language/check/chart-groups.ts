// Charts that go between points: each group of rows with the same other cells must be a full grid, and the
// groups must leave nothing out and not lie over one another.
import { type Domain, type Part, overlap } from "../../../core/box.ts";
import { findHole } from "../../../core/find-hole.ts";
import type { Word } from "../syntax/tree.ts";
import { type Coverage, MOST_CLASHES, type Uncovered, clash, domainsOf } from "./chart-coverage.ts";
import type { CheckedRow } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";
import { writePart } from "./witness.ts";

export function checkGroups(
  context: CheckContext,
  name: Word,
  chart: Uncovered,
  saysOutside: boolean,
): Coverage {
  if (chart.between.length === 0 || chart.between.length > 2) return { holes: [], clashes: [] };
  const others = chart.conditions.flatMap((_, i) => (chart.between.includes(i) ? [] : [i]));
  const groups = groupRows(chart, others);
  for (const rows of groups) checkGrid(context, name.text, chart, rows);
  if (chart.outside === "nothing" && !saysOutside) checkEnds(context, name, chart);
  if (others.length === 0) return { holes: [], clashes: [] };

  const space = others.map((i) => domainsOf(chart)[i]!);
  const heads = groups.map((rows) => rows[0]!);
  const clashes = findClashes(context, name.text, { chart, others, space, heads });
  const hole = findHole(
    space,
    heads.map((row) => others.map((i) => row.sides[i]!)),
  );
  if (hole.is !== "found") return { holes: [], clashes };
  const witness = write(chart, others, hole.what);
  fault(context, "chart/hole", name.at, { name: name.text, witness });
  return { holes: [{ witness, cells: [] }], clashes };
}

/** Rows by their cells in the columns `others`. */
function groupRows(chart: Uncovered, others: readonly number[]): readonly (readonly CheckedRow[])[] {
  const groups = new Map<string, CheckedRow[]>();
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
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return [...groups.values()];
}

/** Each point once, at least two along each axis, and with two axes every crossing of theirs. */
function checkGrid(context: CheckContext, name: string, chart: Uncovered, rows: readonly CheckedRow[]): void {
  const axes = chart.between.map((i) => new Set(rows.map((row) => row.points[i]!)));
  const seen = new Map<string, CheckedRow>();
  for (const row of rows) {
    const key = chart.between.map((i) => row.points[i]).join();
    const twin = seen.get(key);
    if (twin !== undefined) {
      const points = chart.between.map((i): Part => {
        const at = row.points[i]!;
        return { is: "line", low: at, lowIn: true, high: at, highIn: true };
      });
      clash(context, name, [twin, row], write(chart, chart.between, points));
    }
    seen.set(key, row);
  }
  if (chart.between.length === 2 && seen.size < axes[0]!.size * axes[1]!.size)
    fault(context, "chart/grid", rows[0]!.at, {
      name,
      has: seen.size,
      wants: axes[0]!.size * axes[1]!.size,
    });
  if (axes.some((axis) => axis.size < 2)) fault(context, "chart/points", rows[0]!.at, { name, single: true });
}

/** A range that goes beyond the points, where the chart does not say what holds outside them. */
function checkEnds(context: CheckContext, name: Word, chart: Uncovered): void {
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
      fault(context, "chart/ends", name.at, {
        name: name.text,
        witness: write(chart, [i], [{ is: "line", ...gap }]),
      });
  }
}

interface Searched {
  readonly chart: Uncovered;
  readonly others: readonly number[];
  /** The domains of the columns `others`. */
  readonly space: readonly Domain[];
  /** The first row of each group. */
  readonly heads: readonly CheckedRow[];
}

function findClashes(
  context: CheckContext,
  name: string,
  { chart, others, space, heads }: Searched,
): Coverage["clashes"] {
  const clashes: Coverage["clashes"][number][] = [];
  const sides = heads.map((row) => others.map((i) => row.sides[i]!));
  for (let a = 0; a < heads.length; a++)
    for (let b = a + 1; b < heads.length && clashes.length < MOST_CLASHES; b++) {
      const both = overlap(space, sides[a]!, sides[b]!);
      if (both === undefined) continue;
      const witness = write(chart, others, both) || "any job";
      clashes.push(clash(context, name, [heads[a]!, heads[b]!], witness));
    }
  return clashes;
}

/** `depth 3 mm, place indoors`: what the conditions in `columns` are. */
const write = (chart: Uncovered, columns: readonly number[], parts: readonly Part[]): string =>
  parts
    .flatMap((part, i) => {
      const condition = chart.conditions[columns[i]!]!;
      return part.is === "any" ? [] : [`${condition.name} ${writePart(part, condition)}`];
    })
    .join(", ");
