// Which word comes out for every pair of two answers, the others being those of a job. The two answers are
// walked on a grid of fields; wherever neighbours differ, the limit between them is closed in on until it is
// the number that the book names. So fields end where rules turn, not where the grid happens to stand, as
// long as the limit runs along an answer; a limit that runs aslant is followed in steps of the grid.
import { type Type, isOrdered } from "../../core/type.ts";
import type { OutcomeMap, UnitSystem } from "../../core/view.ts";
import { type Job, evaluationOf } from "../api/book.ts";
import type { Block } from "../program/plan/plan.ts";
import { asksOf, worker } from "../program/eval/evaluate.ts";
import { drawnAxis } from "./drawn-axis.ts";
import { titleOf } from "./titled.ts";

/** Limits beyond this many along one answer are thinned out: the drawing could not show them. */
const MOST_LIMITS = 90;

/**
 * Undefined where the book has no such asks, answered with a number, or no such outcome of a kind or of yes
 * and no. `nx` and `ny` are fields of the first grid.
 */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
// biome-ignore lint/complexity/useMaxParams: still to come apart.
export function outcomeMap(
  job: Job,
  across: string,
  up: string,
  shows: string,
  nx = 40,
  ny = 40,
  units: UnitSystem = "book",
): OutcomeMap | undefined {
  const { plan, frame } = evaluationOf(job);
  const asks = asksOf(plan);
  const [ix, iy] = [across, up].map((name) =>
    asks.findIndex((block) => block.entry.statement.name?.text === name),
  );
  const [askX, askY] = [asks[ix!], asks[iy!]];
  const outcome = outcomeOf(plan.byId, plan.checked.entries[plan.checked.byName.get(shows) ?? -1]?.id);
  const [rangeX, rangeY] = [askX?.entry.checked.ask, askY?.entry.checked.ask];
  const isNumber = (block: Block | undefined) =>
    block?.values[0] !== undefined && isOrdered(block.values[0].type);
  if (!isNumber(askX) || !isNumber(askY)) return undefined;
  if (
    askX === undefined ||
    askY === undefined ||
    ix === iy ||
    rangeX === undefined ||
    rangeY === undefined ||
    outcome === undefined
  )
    return undefined;
  if (![rangeX.low, rangeX.high, rangeY.low, rangeY.high].every(Number.isFinite)) return undefined;

  const values = Float64Array.from(asks, (block) => frame.num[block.answer] ?? Number.NaN);
  const untold = new Set(
    asks.filter(
      (block) =>
        block !== askX && block !== askY && block.cannotTell >= 0 && frame.num[block.cannotTell] === 1,
    ),
  );
  const work = worker(plan, untold);
  const stopped = plan.byId.get("stopped")?.when ?? -1;
  const at = (x: number, y: number): number => {
    values[ix!] = x;
    values[iy!] = y;
    const done = work(values);
    const word = done.num[outcome.place]!;
    return (word === word ? word + 1 : 0) * 2 + (stopped >= 0 && done.num[stopped] === 1 ? 1 : 0);
  };

  const [xs, ys] = [middles(rangeX.low, rangeX.high, nx), middles(rangeY.low, rangeY.high, ny)];
  const grid = ys.map((y) => xs.map((x) => at(x, y)));
  const turned = limits(
    rangeX,
    xs,
    ys.map((y, j) => ({ keys: grid[j]!, of: (x: number) => at(x, y) })),
  );
  const raised = limits(
    rangeY,
    ys,
    xs.map((x, i) => ({ keys: grid.map((line) => line[i]!), of: (y: number) => at(x, y) })),
  );
  const fields = ys.length === 0 ? [] : merged(turned, raised, at);
  const words = outcome.words;
  const here = frame.num[outcome.place]!;
  const axis = (block: Block, range: { readonly low: number; readonly high: number }) => {
    const value = block.values[0]!;
    return drawnAxis(
      {
        name: block.entry.statement.name!.text,
        title: titleOf(block.entry),
        type: value.type,
        unit: value.unit,
        low: range.low,
        high: range.high,
        at: frame.num[value.register]!,
      },
      units,
    );
  };
  return {
    across: axis(askX, rangeX),
    up: axis(askY, rangeY),
    shows,
    title: titleOf(plan.checked.entries[plan.checked.byName.get(shows)!]!),
    words,
    fields,
    here: here === here ? here : -1,
  };
}

function outcomeOf(
  byId: ReadonlyMap<string, Block>,
  id: string | undefined,
): { readonly place: number; readonly words: readonly string[] } | undefined {
  const value = id === undefined ? undefined : byId.get(id)?.values[0];
  const words = value && wordsOf(value.type);
  return value === undefined || words === undefined ? undefined : { place: value.register, words };
}

const wordsOf = (type: Type): readonly string[] | undefined =>
  type.is === "kind" ? type.words : type.is === "yes-no" ? ["no", "yes"] : undefined;

const middles = (low: number, high: number, count: number): readonly number[] =>
  Array.from(
    { length: Math.max(2, Math.min(200, count)) },
    (_, i, all = Math.max(2, Math.min(200, count))) => low + ((high - low) * (i + 0.5)) / all,
  );

interface Line {
  /** What comes out at each of the places along the line, and at any other. */
  readonly keys: readonly number[];
  readonly of: (along: number) => number;
}

/**
 * The ends of all fields along one answer: its range, and every limit at which something turns on any of the
 * lines.
 */
function limits(
  { low, high }: { readonly low: number; readonly high: number },
  places: readonly number[],
  lines: readonly Line[],
): readonly number[] {
  const found: number[] = [];
  const near = (high - low) * 1e-7;
  for (const { keys, of } of lines) {
    for (let i = 0; i + 1 < places.length; i++) {
      if (keys[i] === keys[i + 1]) continue;
      const [from, to] = [places[i]!, places[i + 1]!];
      // The limit that another line had just here is most often this line's as well.
      if (
        found.some(
          (limit) =>
            limit > from && limit < to && of(limit - near) === keys[i] && of(limit + near) === keys[i + 1],
        )
      )
        continue;
      for (const limit of between(from, to, keys[i]!, keys[i + 1]!, of))
        if (!found.some((one) => Math.abs(one - limit) < near)) found.push(limit);
    }
  }
  const sorted = found.sort((a, b) => a - b);
  const kept =
    sorted.length <= MOST_LIMITS
      ? sorted
      : sorted.filter(
          (_, i) =>
            Math.floor((i * MOST_LIMITS) / sorted.length) !==
            Math.floor(((i - 1) * MOST_LIMITS) / sorted.length),
        );
  return [low, ...kept, high];
}

/**
 * Every limit between two places that were seen to differ: halving finds one; what is left on either side may
 * hold another.
 */
// biome-ignore lint/complexity/useMaxParams: still to come apart.
function between(
  from: number,
  to: number,
  first: number,
  last: number,
  of: (along: number) => number,
  deep = 0,
): readonly number[] {
  let [a, b] = [from, to];
  let other: { readonly at: number; readonly key: number } | undefined;
  for (let i = 0; i < 42; i++) {
    const middle = (a + b) / 2;
    const key = of(middle);
    if (key === first) a = middle;
    else {
      if (key !== last) other = { at: middle, key };
      b = middle;
    }
  }
  const here = plain(a, b);
  const after = other === undefined ? undefined : of(b + (to - b) * 1e-9);
  if (after === undefined || after === last || deep > 3) return [here];
  return [here, ...between(b + (to - b) * 1e-9, to, after, last, of, deep + 1)];
}

/**
 * The roundest number that the limit can be: rules compare within a relative 1e-9, so it is one that a book
 * could name.
 */
function plain(a: number, b: number): number {
  const middle = (a + b) / 2;
  for (let digits = 1; digits < 9; digits++) {
    const round = Number(middle.toPrecision(digits));
    if (Math.abs(round - middle) <= Math.abs(middle) * 4e-9 + (b - a)) return round;
  }
  return middle;
}

type Field = OutcomeMap["fields"][number];

/**
 * Fields between the limits, those alike beside each other as one, then lines of the same fields on top of
 * each other as one.
 */
function merged(
  xs: readonly number[],
  ys: readonly number[],
  at: (x: number, y: number) => number,
): readonly Field[] {
  const done: Field[] = [];
  let open: Field[] = [];
  for (let j = 0; j + 1 < ys.length; j++) {
    const line: { left: number; right: number; key: number }[] = [];
    for (let i = 0; i + 1 < xs.length; i++) {
      const key = at((xs[i]! + xs[i + 1]!) / 2, (ys[j]! + ys[j + 1]!) / 2);
      const last = line.at(-1);
      if (last?.key === key) last.right = xs[i + 1]!;
      else line.push({ left: xs[i]!, right: xs[i + 1]!, key });
    }
    const next: Field[] = [];
    for (const { left, right, key } of line) {
      const [word, stopped] = [Math.floor(key / 2) - 1, key % 2 === 1];
      const below = open.find(
        (one) => one.left === left && one.right === right && one.word === word && one.stopped === stopped,
      );
      next.push({ left, right, bottom: below?.bottom ?? ys[j]!, top: ys[j + 1]!, word, stopped });
    }
    done.push(
      ...open.filter(
        (one) =>
          !next.some(
            (later) => later.left === one.left && later.right === one.right && later.bottom === one.bottom,
          ),
      ),
    );
    open = next;
  }
  return [...done, ...open];
}
