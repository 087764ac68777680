// Rows of a chart as boxes in the space of its conditions, and whether they leave a hole or lie over one
// another.
//
// Each condition is a line (cut into closed stretches of doubles) or a closed list of words. The space is
// walked one condition at a time: the ends of the rows still in play cut it into stretches on which no row
// begins or ends, so each stretch can be looked at as one point.
//
//      rows      ├────1────┤      ├──3──┤
//                     ├───2───┤
//      stretches ├────┼────┼──┼───┼─────┤     the fourth belongs to no row: a hole
import { holeByCount } from "./count-cells.ts";
import { CLOSE, nextDown, nextUp } from "./number.ts";

export type Domain =
  | { readonly is: "line"; readonly low: number; readonly high: number }
  | { readonly is: "words"; readonly count: number };

/** What one row allows of one condition. Stretches are in rising order and do not touch. */
export type Side =
  | "any"
  | { readonly is: "line"; readonly stretches: readonly Stretch[] }
  | { readonly is: "words"; readonly words: ReadonlySet<number> };

/** Ends as written, and the closed stretch of doubles that they mean under the tolerance of 1e-9. */
export interface Stretch {
  readonly low: number;
  readonly lowIn: boolean;
  readonly high: number;
  readonly highIn: boolean;
  readonly from: number;
  readonly to: number;
}

/**
 * -Infinity and Infinity are open ends. Ends are taken to fifteen digits, so that 590 times a millionth and
 * 590 µm, or 1/8 inch and 3.175 mm, are one end: rows that meet there neither overlap nor leave a hole a last
 * digit wide.
 */
export function stretch(from: number, lowIn: boolean, to: number, highIn: boolean): Stretch {
  const [low, high] = [settled(from), settled(to)];
  const slack = (x: number) => (Number.isFinite(x) ? CLOSE * Math.abs(x) : 0);
  return {
    low,
    lowIn,
    high,
    highIn,
    from: lowIn ? low - slack(low) : nextUp(low + slack(low)),
    to: highIn ? high + slack(high) : nextDown(high - slack(high)),
  };
}

const settled = (x: number): number => (Number.isFinite(x) ? Number(x.toPrecision(15)) : x);

export const allows = (side: Side, value: number): boolean => {
  if (side === "any") return true;
  if (side.is === "words") return side.words.has(value);
  for (const s of side.stretches) if (value >= s.from && value <= s.to) return true;
  return false;
};

/** A stretch of one condition in a witness. */
export type Part =
  | { readonly is: "any" }
  | {
      readonly is: "line";
      readonly low: number;
      readonly lowIn: boolean;
      readonly high: number;
      readonly highIn: boolean;
    }
  | { readonly is: "words"; readonly words: readonly number[] };

export type Verdict<T> =
  | { readonly is: "none" }
  | { readonly is: "found"; readonly what: T }
  | { readonly is: "unsettled" };

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

/** What two rows both allow, or undefined. */
export function overlap(
  domains: readonly Domain[],
  a: readonly Side[],
  b: readonly Side[],
): readonly Part[] | undefined {
  if (domains.some((_, i) => apart(a[i]!, b[i]!))) return undefined;
  const parts: Part[] = [];
  for (const [i, domain] of domains.entries()) {
    const both = [...cut(domain, [a[i]!, b[i]!])].find(([, inside]) => inside.length === 2);
    if (both === undefined) return undefined;
    parts.push(both[0]);
  }
  return parts;
}

/**
 * Whether two sides have nothing in common: seen from their ends alone, which is enough for most pairs of a
 * long chart.
 */
function apart(a: Side, b: Side): boolean {
  if (a === "any" || b === "any" || a.is === "words" || b.is === "words") return false;
  const [one, two] = [a.stretches, b.stretches];
  return (
    one.length === 0 || two.length === 0 || one.at(-1)!.to < two[0]!.from || two.at(-1)!.to < one[0]!.from
  );
}

/**
 * The stretches of one condition on which none of the sides begins or ends, each with the sides that allow
 * it. Plain stretches come merged.
 */
function* cut(domain: Domain, sides: readonly Side[]): Generator<readonly [Part, readonly number[]]> {
  if (domain.is === "words") {
    const groups = new Map<string, { words: number[]; inside: number[] }>();
    for (let word = 0; word < domain.count; word++) {
      const inside = sides.flatMap((side, i) => (allows(side, word) ? [i] : []));
      const key = inside.join(",");
      const group = groups.get(key);
      if (group === undefined) groups.set(key, { words: [word], inside });
      else group.words.push(word);
    }
    for (const { words, inside } of groups.values())
      yield [words.length === domain.count ? { is: "any" } : { is: "words", words }, inside];
    return;
  }
  // Starts of stretches: where a side begins, and just after where one ends.
  const starts = new Map<number, { value: number; included: boolean }>();
  const from = domain.low - (Number.isFinite(domain.low) ? CLOSE * Math.abs(domain.low) : 0);
  const to = domain.high + (Number.isFinite(domain.high) ? CLOSE * Math.abs(domain.high) : 0);
  starts.set(from, { value: domain.low, included: true });
  for (const side of sides) {
    if (side === "any" || side.is === "words") continue;
    for (const s of side.stretches) {
      if (s.from > from && s.from <= to) starts.set(s.from, { value: s.low, included: s.lowIn });
      const after = nextUp(s.to);
      if (after > from && after <= to) starts.set(after, { value: s.high, included: !s.highIn });
    }
  }
  const order = [...starts].sort(([a], [b]) => a - b);
  let open: { part: Extract<Part, { is: "line" }>; inside: number[]; key: string } | undefined;
  for (const [i, [start, { value, included }]] of order.entries()) {
    const next = order[i + 1]?.[1];
    const inside = sides.flatMap((side, s) => (allows(side, start) ? [s] : []));
    const key = inside.join(",");
    const part = {
      is: "line" as const,
      low: value,
      lowIn: included,
      high: next?.value ?? domain.high,
      highIn: next === undefined ? true : !next.included,
    };
    if (open !== undefined && open.key === key)
      open = { ...open, part: { ...open.part, high: part.high, highIn: part.highIn } };
    else {
      if (open !== undefined) yield [plain(open.part, domain), open.inside];
      open = { part, inside, key };
    }
  }
  if (open !== undefined) yield [plain(open.part, domain), open.inside];
}

const plain = (part: Extract<Part, { is: "line" }>, domain: Extract<Domain, { is: "line" }>): Part =>
  part.low === domain.low && part.high === domain.high && part.lowIn && part.highIn ? { is: "any" } : part;
