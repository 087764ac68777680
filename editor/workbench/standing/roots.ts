// Which broken lines only follow from a hole or an overlap of a chart: the chart is the place to mend, and
// the lines that rest on it come right with it.
import type { Finding, GoalView, Row } from "../../../core/view.ts";
import { inCharts } from "./standing-words.ts";

/**
 * The broken goals that rest on a chart with a hole or an overlap, directly or through other rows, each with
 * the id of the nearest such chart's row. A broken promise is never among them: what it says is asked of the
 * whole book, and a lead wants to see it by itself.
 */
export function followersOf(
  goals: readonly GoalView[],
  findings: readonly Finding[],
  rows: readonly Row[],
): ReadonlyMap<GoalView, string> {
  const faulty = new Set(
    rows
      .filter((row) => row.keyword === "chart" && findings.some((one) => inCharts(one) && isIn(one, row)))
      .map((row) => row.id),
  );
  const found = new Map<GoalView, string>();
  if (faulty.size === 0) return found;
  const byId = new Map(rows.map((row) => [row.id, row]));
  for (const goal of goals) {
    if (goal.verdict !== "broken" || goal.sort === "promise") continue;
    const root = nearest(goal.id, byId, faulty);
    if (root !== undefined) found.set(goal, root);
  }
  return found;
}

const isIn = (finding: Finding, row: Row): boolean =>
  finding.at.start >= row.at.start && finding.at.start <= row.at.end;

/** The first of `wanted` that is met from a row along what it uses, breadth first; the row itself counts. */
function nearest(
  from: string,
  byId: ReadonlyMap<string, Row>,
  wanted: ReadonlySet<string>,
): string | undefined {
  const seen = new Set([from]);
  for (const id of seen) {
    if (wanted.has(id)) return id;
    for (const used of byId.get(id)?.uses ?? []) seen.add(used);
  }
  return undefined;
}
