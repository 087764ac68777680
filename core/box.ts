// Rows of a chart as boxes in the space of its conditions, and what two of them have in common. Whether rows
// leave a hole is looked for in find-hole.ts.
//
// Each condition is a line (cut into closed stretches of doubles) or a closed list of words.
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
export function* cut(domain: Domain, sides: readonly Side[]): Generator<readonly [Part, readonly number[]]> {
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
