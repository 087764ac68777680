// A hole in a chart: a part of the space of its conditions that no row allows.
//
// The space is walked one condition at a time: the ends of the rows still in play cut it into stretches on
// which no row begins or ends, so each stretch can be looked at as one point.
//
//      rows      ├────1────┤      ├──3──┤
//                     ├───2───┤
//      stretches ├────┼────┼──┼───┼─────┤     the fourth belongs to no row: a hole
import { type Domain, type Part, type Side, type Verdict, cut } from "./box.ts";
import { holeByCount } from "./count-cells.ts";

/** What may still be spent on looking at stretches; several questions can share one. */
export interface Pool {
  left: number;
}

/**
 * A part of the space that no row allows, or none. `unsettled` when more was to be looked at than `budget`
 * allows: a stretch costs one, and a little more the more rows are in play. `domains[i]` belongs to
 * `rows[r][i]`.
 */
export function findHole(
  domains: readonly Domain[],
  rows: readonly (readonly Side[])[],
  budget: number | Pool = 500_000,
): Verdict<readonly Part[]> {
  const covered = new Set<string>();
  const pool = typeof budget === "number" ? { left: budget } : budget;
  // Rows that do not lie over one another need no walk.
  const cost = (rows.length * (1 + domains.length)) / 4;
  if (cost < pool.left) {
    pool.left -= cost;
    const counted = holeByCount(domains, rows);
    if (counted !== undefined) return counted;
  }
  const walk = (depth: number, active: readonly number[]): readonly Part[] | undefined | "unsettled" => {
    if (active.length === 0) return domains.slice(depth).map(() => ({ is: "any" }));
    if (depth === domains.length) return undefined;
    if (active.some((r) => rows[r]!.slice(depth).every((side) => side === "any"))) return undefined;
    const key = `${depth}:${active.join(",")}`;
    if (covered.has(key)) return undefined;
    for (const [part, inside] of cut(
      domains[depth]!,
      active.map((r) => rows[r]![depth]!),
    )) {
      pool.left -= 1 + active.length / 50;
      if (pool.left < 0) return "unsettled";
      const rest = walk(
        depth + 1,
        inside.map((i) => active[i]!),
      );
      if (rest === "unsettled") return rest;
      if (rest !== undefined) return [part, ...rest];
    }
    covered.add(key);
    return undefined;
  };
  const found = walk(
    0,
    rows.map((_, i) => i),
  );
  return found === undefined
    ? { is: "none" }
    : found === "unsettled"
      ? { is: "unsettled" }
      : { is: "found", what: found };
}
