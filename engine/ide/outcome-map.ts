// Which word a value has for every pair of two answers, the others being those of a job. The two answers are
// sampled on a grid. Wherever neighbours differ, bisection finds the limit between them, rounded to a number
// that the book can name. So fields end exactly where rules turn, as long as the limit runs along an answer;
// a slanting limit is followed in steps of the grid.
import { type Type, isOrdered } from "../../core/type.ts";
import type { OutcomeMap, UnitSystem } from "../../core/view.ts";
import { type Job, evaluationOf } from "../api/book.ts";
import type { Frame } from "../program/eval/frame.ts";
import type { Block, Plan } from "../program/plan/plan.ts";
import { asksOf, worker } from "../program/eval/evaluate.ts";
import { drawnAxis } from "./drawn-axis.ts";
import { titleOf } from "./titled.ts";

/** Limits beyond this many along one answer are thinned out: the drawing could not show them. */
const MOST_LIMITS = 90;

/** Which map: the names of two asks answered with a number, and of a value of a kind or of yes and no. */
interface MapOf {
  readonly across: string;
  readonly up: string;
  readonly shows: string;
}

/**
 * Undefined where the book has no such asks or no such value. `grid` is the number of fields of the first
 * grid along each ask.
 */
export function outcomeMap(
  job: Job,
  of: MapOf,
  units: UnitSystem = "book",
  grid = 40,
): OutcomeMap | undefined {
  const { plan, frame } = evaluationOf(job);
  const across = askedAs(plan, of.across, frame);
  const up = askedAs(plan, of.up, frame);
  const shown = plan.checked.entries[plan.checked.byName.get(of.shows) ?? -1];
  const outcome = outcomeOf(plan.byId, shown?.id);
  if (across === undefined || up === undefined || shown === undefined || outcome === undefined)
    return undefined;
  if (across.index === up.index) return undefined;
  const at = outcomesOf(job, across, up, outcome.register);
  const fields = fieldsOf(across.range, up.range, grid, at);
  const here = frame.num[outcome.register]!;
  const axis = ({ block, range }: AskedNumber) => {
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
    across: axis(across),
    up: axis(up),
    shows: of.shows,
    title: titleOf(shown),
    words: outcome.words,
    fields,
    here: here === here ? here : -1,
  };
}

interface AskedNumber {
  readonly block: Block;
  /** Its index in `asksOf`. */
  readonly index: number;
  readonly range: Range;
}

interface Range {
  readonly low: number;
  readonly high: number;
}

/**
 * The ask of that name, where it is answered with a number in a range; what is usual of it and the job's own
 * answer are drawn.
 */
function askedAs(plan: Plan, name: string, frame: Frame): AskedNumber | undefined {
  const asks = asksOf(plan);
  const index = asks.findIndex((block) => block.entry.statement.name?.text === name);
  const block = asks[index];
  const ask = block?.entry.checked.ask;
  if (block?.values[0] === undefined || ask === undefined || !isOrdered(block.values[0].type))
    return undefined;
  const own = frame.num[block.values[0].register]!;
  const range =
    ask.usual === undefined
      ? ask
      : {
          low: own < ask.usual.low ? own : ask.usual.low,
          high: own > ask.usual.high ? own : ask.usual.high,
        };
  return Number.isFinite(range.low) && Number.isFinite(range.high) ? { block, index, range } : undefined;
}

/** Evaluates the job with two other answers. The key holds the word, and whether the job is stopped. */
type OutcomeAt = (x: number, y: number) => number;

function outcomesOf(job: Job, across: AskedNumber, up: AskedNumber, register: number): OutcomeAt {
  const { plan, frame } = evaluationOf(job);
  const asks = asksOf(plan);
  const values = Float64Array.from(asks, (block) => frame.num[block.answer] ?? Number.NaN);
  const isMoved = (block: Block) => block === across.block || block === up.block;
  const cannotTell = asks.filter(
    (block) => !isMoved(block) && block.cannotTell >= 0 && frame.num[block.cannotTell] === 1,
  );
  const evaluate = worker(plan, new Set(cannotTell));
  const stopped = plan.byId.get("stopped")?.when ?? -1;
  return (x, y) => {
    values[across.index] = x;
    values[up.index] = y;
    const done = evaluate(values);
    const word = done.num[register]!;
    return (word === word ? word + 1 : 0) * 2 + (stopped >= 0 && done.num[stopped] === 1 ? 1 : 0);
  };
}

function fieldsOf(across: Range, up: Range, grid: number, at: OutcomeAt): readonly Field[] {
  const [xs, ys] = [middles(across.low, across.high, grid), middles(up.low, up.high, grid)];
  const keys = ys.map((y) => xs.map((x) => at(x, y)));
  const turned = limits(
    across,
    xs,
    ys.map((y, j) => ({ keys: keys[j]!, of: (x: number) => at(x, y) })),
  );
  const raised = limits(
    up,
    ys,
    xs.map((x, i) => ({ keys: keys.map((line) => line[i]!), of: (y: number) => at(x, y) })),
  );
  return merged(turned, raised, at);
}

function outcomeOf(
  byId: ReadonlyMap<string, Block>,
  id: string | undefined,
): { readonly register: number; readonly words: readonly string[] } | undefined {
  const value = id === undefined ? undefined : byId.get(id)?.values[0];
  const words = value && wordsOf(value.type);
  return value === undefined || words === undefined ? undefined : { register: value.register, words };
}

const wordsOf = (type: Type): readonly string[] | undefined =>
  type.is === "kind" ? type.words : type.is === "yes-no" ? ["no", "yes"] : undefined;

const middles = (low: number, high: number, count: number): readonly number[] =>
  Array.from(
    { length: Math.max(2, Math.min(200, count)) },
    (_, i, all = Math.max(2, Math.min(200, count))) => low + ((high - low) * (i + 0.5)) / all,
  );

interface Line {
  /** The outcome at each sample along the line, and at any other number. */
  readonly keys: readonly number[];
  readonly of: (along: number) => number;
}

/**
 * The ends of all fields along one answer: its range, and every limit at which something turns on any of the
 * lines.
 */
function limits({ low, high }: Range, samples: readonly number[], lines: readonly Line[]): readonly number[] {
  const found: number[] = [];
  const near = (high - low) * 1e-7;
  for (const { keys, of } of lines) {
    for (let i = 0; i + 1 < samples.length; i++) {
      if (keys[i] === keys[i + 1]) continue;
      const [from, to] = [samples[i]!, samples[i + 1]!];
      // The limit that another line had just here is most often this line's as well.
      if (
        found.some(
          (limit) =>
            limit > from && limit < to && of(limit - near) === keys[i] && of(limit + near) === keys[i + 1],
        )
      )
        continue;
      for (const limit of limitsBetween({ at: from, key: keys[i]! }, { at: to, key: keys[i + 1]! }, of))
        if (!found.some((one) => Math.abs(one - limit) < near)) found.push(limit);
    }
  }
  const sorted = found.sort((a, b) => a - b);
  const shown =
    sorted.length <= MOST_LIMITS
      ? sorted
      : sorted.filter(
          (_, i) =>
            Math.floor((i * MOST_LIMITS) / sorted.length) !==
            Math.floor(((i - 1) * MOST_LIMITS) / sorted.length),
        );
  return [low, ...shown, high];
}

interface Sample {
  readonly at: number;
  readonly key: number;
}

/**
 * Every limit between two samples that differ. Bisection finds one; what is left behind it may hold another.
 */
function limitsBetween(
  first: Sample,
  last: Sample,
  of: (along: number) => number,
  depth = 0,
): readonly number[] {
  let [a, b] = [first.at, last.at];
  let isThird = false;
  for (let i = 0; i < 42; i++) {
    const middle = (a + b) / 2;
    const key = of(middle);
    if (key === first.key) a = middle;
    else {
      if (key !== last.key) isThird = true;
      b = middle;
    }
  }
  const here = plain(a, b);
  const behind = b + (last.at - b) * 1e-9;
  const after = isThird ? of(behind) : last.key;
  if (after === last.key || depth > 3) return [here];
  return [here, ...limitsBetween({ at: behind, key: after }, last, of, depth + 1)];
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
