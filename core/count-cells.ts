// Rows that do not lie over one another leave a hole exactly when their cells do not add up to all cells
// there are. That needs no walk through the space: the ends of all rows cut each condition into pieces, a row
// is a box of pieces, and counting is exact. Where the count falls short, halving the space again and again
// finds where.
import type { Domain, Part, Side, Verdict } from "./box.ts";
import { CLOSE, nextUp } from "./number.ts";

/** Pieces from, to (not included), rising and apart. */
type Runs = readonly (readonly [number, number])[];
type Row = readonly Runs[];

/**
 * A part of the space that no row allows, as large as it can be made from the lowest place; undefined where
 * two rows lie over one another, which is not for counting.
 */
export function holeByCount(
  domains: readonly Domain[],
  rows: readonly (readonly Side[])[],
): Verdict<readonly Part[]> | undefined {
  const axes = domains.map((domain, d) =>
    axisOf(
      domain,
      rows.map((row) => row[d]!),
    ),
  );
  const boxes: Row[] = rows
    .map((row) => row.map((side, d) => axes[d]!.runs(side)))
    .filter((row) => row.every((runs) => runs.length > 0));
  if (!allApart(boxes)) return undefined;
  const region = axes.map(({ count }) => [0, count] as [number, number]);
  if (region.some(([, end]) => end === 0)) return { is: "none" };
  if (isFull(region, boxes)) return { is: "none" };
  let left: readonly Row[] = boxes;
  // The first condition is narrowed to one piece, then the next: that finds the lowest hole.
  for (const [d, side] of region.entries()) {
    while (side[1] - side[0] > 1 && left.length > 0) {
      const [from, to] = side;
      const middle = (from + to) >> 1;
      side[1] = middle;
      let inside = left.filter((row) => meets(row[d]!, from, middle));
      if (isFull(region, inside)) {
        [side[0], side[1]] = [middle, to];
        inside = left.filter((row) => meets(row[d]!, middle, to));
      }
      left = inside;
    }
  }
  return { is: "found", what: grown(axes, region, boxes) };
}

interface Axis {
  readonly count: number;
  readonly runs: (side: Side) => Runs;
  /** The pieces as a person reads them. */
  readonly part: (pieces: readonly number[]) => Part;
}

function axisOf(domain: Domain, sides: readonly Side[]): Axis {
  if (domain.is === "words") {
    const { count } = domain;
    return {
      count,
      runs: (side) =>
        side === "any"
          ? [[0, count]]
          : side.is === "words"
            ? [...side.words]
                .filter((word) => word < count)
                .sort((a, b) => a - b)
                .map((word) => [word, word + 1] as const)
            : [],
      part: (pieces) => (pieces.length === count ? { is: "any" } : { is: "words", words: pieces }),
    };
  }
  const from = domain.low - (Number.isFinite(domain.low) ? CLOSE * Math.abs(domain.low) : 0);
  const to = domain.high + (Number.isFinite(domain.high) ? CLOSE * Math.abs(domain.high) : 0);
  const starts = new Map<number, { readonly value: number; readonly included: boolean }>([
    [from, { value: domain.low, included: true }],
  ]);
  for (const side of sides) {
    if (side === "any" || side.is === "words") continue;
    for (const one of side.stretches) {
      if (one.from > from && one.from <= to) starts.set(one.from, { value: one.low, included: one.lowIn });
      const after = nextUp(one.to);
      if (after > from && after <= to) starts.set(after, { value: one.high, included: !one.highIn });
    }
  }
  const order = [...starts.keys()].sort((a, b) => a - b);
  const at = new Map(order.map((start, i) => [start, i]));
  const count = order.length;
  const runs = (side: Side): Runs => {
    if (side === "any") return [[0, count]];
    if (side.is === "words") return [];
    return apart(
      side.stretches.flatMap((one) => {
        if (one.to < from || one.from > to) return [];
        const [first, end] = [
          one.from <= from ? 0 : at.get(one.from)!,
          nextUp(one.to) > to || one.to === Infinity ? count : at.get(nextUp(one.to))!,
        ];
        return first < end ? [[first, end] as const] : [];
      }),
    );
  };
  return {
    count,
    runs,
    part: (pieces) => {
      const [first, end] = [pieces[0]!, pieces.at(-1)! + 1];
      if (first === 0 && end === count) return { is: "any" };
      const [low, high] = [starts.get(order[first]!)!, end < count ? starts.get(order[end]!) : undefined];
      return {
        is: "line",
        low: low.value,
        lowIn: low.included,
        high: high?.value ?? domain.high,
        highIn: high === undefined ? true : !high.included,
      };
    },
  };
}

/** Bands of one cell may lie over one another; their pieces are counted once. */
function apart(runs: Runs): Runs {
  const joined: [number, number][] = [];
  for (const [first, end] of [...runs].sort(([a], [b]) => a - b)) {
    const last = joined.at(-1);
    if (last !== undefined && first <= last[1]) last[1] = Math.max(last[1], end);
    else joined.push([first, end]);
  }
  return joined;
}

const meets = (runs: Runs, from: number, to: number): boolean =>
  runs.some(([first, end]) => first < to && end > from);
const touch = (a: Runs, b: Runs): boolean => a.some(([first, end]) => meets(b, first, end));

/**
 * Walked along the condition that separates most rows, so that long charts are not compared row against
 * every row.
 */
function allApart(boxes: readonly Row[]): boolean {
  if (boxes.length === 0) return true;
  const width = boxes[0]!.length;
  const spread = (d: number) => new Set(boxes.map((row) => row[d]![0]![0])).size;
  const best = Array.from({ length: width }, (_, d) => d).reduce(
    (a, b) => (spread(b) > spread(a) ? b : a),
    0,
  );
  if (width === 0) return boxes.length < 2;
  const order = [...boxes].sort((a, b) => a[best]![0]![0] - b[best]![0]![0]);
  for (let i = 0; i < order.length; i++) {
    const end = order[i]![best]!.at(-1)![1];
    for (let j = i + 1; j < order.length && order[j]![best]![0]![0] < end; j++) {
      if (order[i]!.every((runs, d) => touch(runs, order[j]![d]!))) return false;
    }
  }
  return true;
}

/** Whether rows that do not lie over one another take up all of a region. */
function isFull(region: readonly (readonly [number, number])[], boxes: readonly Row[]): boolean {
  let left = region.reduce((all, [from, to]) => all * BigInt(to - from), 1n);
  for (const row of boxes) {
    let cells = 1n;
    for (const [d, [from, to]] of region.entries()) {
      let own = 0;
      for (const [first, end] of row[d]!) own += Math.max(0, Math.min(end, to) - Math.max(first, from));
      if (own === 0) {
        cells = 0n;
        break;
      }
      cells *= BigInt(own);
    }
    left -= cells;
    if (left === 0n) return true;
  }
  return left === 0n;
}

/**
 * A hole made as large as it can be, from the last condition to the first; all of a condition where no row is
 * in the way.
 */
function grown(
  axes: readonly Axis[],
  region: readonly (readonly [number, number])[],
  boxes: readonly Row[],
): readonly Part[] {
  const pieces = region.map(([from, to]) => Array.from({ length: to - from }, (_, i) => from + i));
  const holds = (runs: Runs, some: readonly number[]) =>
    some.some((piece) => runs.some(([first, end]) => piece >= first && piece < end));
  for (let d = axes.length - 1; d >= 0; d--) {
    const inTheWay = boxes.filter((row) =>
      row.every((runs, other) => other === d || holds(runs, pieces[other]!)),
    );
    const free = (piece: number) => !inTheWay.some((row) => holds(row[d]!, [piece]));
    pieces[d] = freeAround(axes[d]!, pieces[d]!, free);
  }
  return pieces.map((some, d) => axes[d]!.part(some));
}

function freeAround(
  { count, part }: Axis,
  own: readonly number[],
  free: (piece: number) => boolean,
): number[] {
  // Words need not be neighbours; stretches must.
  if (part([own[0]!]).is === "words")
    return Array.from({ length: count }, (_, piece) => piece).filter(
      (piece) => own.includes(piece) || free(piece),
    );
  const grownRun = [...own];
  while (grownRun[0]! > 0 && free(grownRun[0]! - 1)) grownRun.unshift(grownRun[0]! - 1);
  while (grownRun.at(-1)! < count - 1 && free(grownRun.at(-1)! + 1)) grownRun.push(grownRun.at(-1)! + 1);
  return grownRun;
}
