// What charts mean over any domain: the row that decides, the rows that are left, and the line between
// points.
import { type Fraction, minus, over, whole } from "../engine/analysis/support/fraction.ts";
import type { Domain, Value } from "./domain.ts";
import { type Reach, type Scope, amountOf, found, inBand } from "./meaning.ts";
import type { Cell, Chart, Condition, Line } from "./syntax.ts";

export interface Kept<B, N> {
  readonly count: Value<B, N>;
  readonly first: Value<B, N>;
  readonly among: (word: number) => Value<B, B>;
}

export function cellFits<B, N>(cell: Cell, held: Value<B, N | B>, on: Domain<B, N>): B {
  switch (cell.is) {
    case "any":
      return on.yes;
    case "band":
      return inBand(cell.band, held.value as N, on);
    case "words":
      return on.or(...cell.words.map((word) => on.same(held.value as N, on.word(word))));
  }
}

/** Yes-no conditions have the words no and yes. */
const truthFits = <B, N>(cell: Cell, value: B, on: Domain<B, N>): B =>
  cell.is === "words" ? on.or(...cell.words.map((word) => (word === 1 ? value : on.not(value)))) : on.yes;

interface Side<B> {
  readonly held: Value<B, unknown>;
  readonly fits: (cell: Cell) => B;
}

const sidesOf = <B, N>(by: readonly Condition[], { on, amounts, truths }: Scope<B, N>): readonly Side<B>[] =>
  by.map((one) => {
    if (one.sort === "truth") {
      const held = found(truths, one.name);
      return { held, fits: (cell) => truthFits(cell, held.value, on) };
    }
    const held = found(amounts, one.name);
    return { held, fits: (cell) => cellFits(cell, held, on) };
  });

/** Rows by whether they may fit, and whether they surely do, as far as the conditions are known. */
function fitting<B, N>(chart: Chart, sides: readonly Side<B>[], on: Domain<B, N>) {
  return chart.rows.map((row) => ({
    may: on.and(...row.cells.map((cell, c) => on.or(on.not(sides[c]!.held.known), sides[c]!.fits(cell)))),
    surely: on.and(
      ...row.cells.map((cell, c) =>
        cell.is === "any" ? on.yes : on.and(sides[c]!.held.known, sides[c]!.fits(cell)),
      ),
    ),
  }));
}

/**
 * One row at a time. Where conditions are open, rows that all give the same are enough if they leave nothing
 * out.
 */
export function chartOf<B, N>(chart: Chart, scope: Scope<B, N>, reach: Reach<B>[]): Value<B, N> {
  const { on } = scope;
  const sides = sidesOf(chart.by, scope);
  const values = chart.rows.map((row) => amountOf(row.value, scope));
  const rows = fitting(chart, sides, on);
  // Rows behind one that surely fits count no more where the first wins.
  let open = on.yes;
  const left = rows.map((row) => {
    const may = on.and(open, row.may);
    if (chart.mode === "first") open = on.and(open, on.not(row.surely));
    return may;
  });
  let none = on.yes;
  const firsts = left.map((may) => {
    const first = on.and(none, may);
    none = on.and(none, on.not(may));
    return first;
  });
  const value = values.reduceRight(
    (rest, one, r) => (r === values.length - 1 ? one.value : on.pick(left[r]!, one.value, rest)),
    values.at(-1)!.value,
  );
  const surely = rows.map((row) => row.surely);
  const clash = chart.mode === "one" ? clashOf(surely, surely, on) : on.no;
  // Another row may still apply beside one that surely does.
  const contested = chart.mode === "one" ? clashOf(surely, left, on) : on.no;
  const decides = rows.map((row, r) => on.and(firsts[r]!, row.surely));
  decides.forEach((decided, r) => reach.push({ key: `${chart.name}/${r}`, reached: decided }));
  const decided = on.and(on.or(...decides), on.not(contested));
  const agreed = chart.whole
    ? on.and(
        on.not(none),
        on.not(contested),
        ...values.map((one, r) => on.or(on.not(left[r]!), on.and(one.known, on.same(one.value, value)))),
      )
    : on.no;
  const blocked = on.or(...sides.map((side) => side.held.impossible));
  return {
    known: on.and(
      on.not(clash),
      on.or(
        ...decides.map((one, r) => on.and(decided, one, values[r]!.known)),
        on.and(on.not(decided), agreed),
      ),
    ),
    impossible: on.or(
      clash,
      none,
      ...decides.map((one, r) => on.and(decided, one, values[r]!.impossible)),
      on.and(on.not(decided), on.not(agreed), blocked),
    ),
    value,
  };
}

/** Whether one of the first and another one of the second are so at once. */
const clashOf = <B, N>(first: readonly B[], second: readonly B[], on: Domain<B, N>): B =>
  on.or(...first.flatMap((one, i) => second.flatMap((other, j) => (i === j ? [] : [on.and(one, other)]))));

/** The values of rows that the answers do not rule out. The values are words. */
export function keptOf<B, N>(chart: Chart, scope: Scope<B, N>): Kept<B, N> {
  const { on, logic } = scope;
  const rows = fitting(chart, sidesOf(chart.by, scope), on);
  const words = chart.rows.map((row) => (row.value.is === "word" ? row.value.at : 0));
  const order = [...new Set(words)].sort((a, b) => a - b);
  const leftOf = (word: number) => on.or(...rows.flatMap((row, r) => (words[r] === word ? [row.may] : [])));
  const none = on.not(on.or(...order.map(leftOf)));
  const count = order.reduce(
    (sum, word) => on.add(sum, on.pick(leftOf(word), on.number(whole(1n)), on.number(whole(0n)))),
    on.number(whole(0n)),
  );
  const first = order.reduceRight(
    (rest, word) => on.pick(leftOf(word), on.word(word), rest),
    on.word(order.at(-1)!),
  );
  return {
    // A key without a row left counts none; the first of none is nothing.
    count: logic.sure(count),
    first: logic.strict([], first, none),
    among: (word) => logic.sure(leftOf(word)),
  };
}

/** Straight between points; outside them nothing, or the end that is nearest. */
export function betweenOf<B, N>(chart: Line, scope: Scope<B, N>): Value<B, N> {
  const { on, logic } = scope;
  const x = found(scope.amounts, chart.by.name);
  const { points } = chart;
  const [first, last] = [points[0]!, points.at(-1)!];
  let value = on.number(last.y);
  for (let i = points.length - 2; i >= 0; i--) {
    const [from, to] = [points[i]!, points[i + 1]!];
    const slope = over(minus(to.y, from.y), minus(to.x, from.x));
    const along = on.add(
      on.number(from.y),
      on.multiply(on.number(slope), on.subtract(x.value, on.number(from.x))),
    );
    value = on.pick(on.below(x.value, on.number(to.x)), along, value);
  }
  value = on.pick(on.below(on.number(first.x), x.value), value, on.number(first.y));
  const outside = (end: Fraction, high: boolean) =>
    high ? on.below(on.number(end), x.value) : on.below(x.value, on.number(end));
  return logic.strict([x], value, chart.hold ? on.no : on.or(outside(first.x, false), outside(last.x, true)));
}
