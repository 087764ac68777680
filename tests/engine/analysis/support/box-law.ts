// The law of the spans reading: for any job in a box, every value lies in its span, and a state that it
// reaches is allowed by the flags. The runner of the box is given, so that a broken one can be tried too.
import { pairKey, ABOVE, BELOW, NEAR } from "../../../../engine/program/intervals/compare.ts";
import {
  MAY_IMPOSSIBLE,
  MAY_UNKNOWN,
  NEVER,
  type Range,
  type Intervals,
  bits,
} from "../../../../engine/program/intervals/interval-frame.ts";
import { below, nearly, nextDown, nextUp } from "../../../../core/number.ts";
import type { Book } from "../../../../engine/index.ts";
import { internalsOf } from "../../../../engine/api/book.ts";
import type { Plan } from "../../../../engine/program/plan/plan.ts";
import { Opcode } from "../../../../engine/program/plan/op.ts";
import { type Frame, isKnown, IMPOSSIBLE } from "../../../../engine/program/eval/frame.ts";
import { type AnswerRange, type Box, CANNOT_TELL, Runner } from "../../../../engine/analysis/verify/box.ts";
import { type Ask, type Slice, sliceOf } from "../../../../engine/analysis/verify/slice.ts";
import type { Chance } from "../../../support/chance.ts";

export const planOf = (book: Book): Plan => internalsOf(book).plan;

/** All that a card or a value rests on. */
function wholeSlice(plan: Plan): Slice {
  return sliceOf(
    plan,
    plan.blocks.flatMap((block) =>
      [...block.outputs, ...block.writes, block.when, block.takes, block.waits].filter((place) => place >= 0),
    ),
    true,
  );
}

/**
 * A part of what an ask can be: all of it, a point, a little, or much; now and then it may or must stay open.
 */
function randomRange(by: Chance, ask: Ask, mayStayOpen: boolean): AnswerRange {
  const range = randomAnswers(by, ask, mayStayOpen);
  return ask.cannotTell >= 0 && by.odds(0.4)
    ? { ...range, cannotTell: by.pick(["yes", "maybe"] as const) }
    : range;
}

function randomAnswers(by: Chance, ask: Ask, mayStayOpen: boolean): Range {
  const flags = mayStayOpen && by.odds(0.15) ? (by.odds(0.5) ? MAY_UNKNOWN : MAY_UNKNOWN | NEVER) : 0;
  const { range } = ask;
  if (range.words !== undefined) {
    const words = bits(range.words);
    const some = by.odds(0.3) ? words : words.filter(() => by.odds(0.5));
    const left = some.length > 0 ? some : [by.pick(words)];
    return {
      low: left[0]!,
      high: left.at(-1)!,
      words: left.reduce((mask, word) => mask | (1 << word), 0),
      flags,
    };
  }
  const whole = ask.type.is === "count";
  const at = () => {
    const x =
      ask.cuts.length > 0 && by.odds(0.4)
        ? by.pick(ask.cuts)
        : range.low + (range.high - range.low) * by.next();
    return whole ? Math.round(x) : x;
  };
  const [a, b] = [at(), at()];
  const tiny = Math.min(range.high, a + (range.high - range.low) * 1e-9 * by.next());
  const [low, high] = by.pick([
    [range.low, range.high],
    [Math.min(a, b), Math.max(a, b)],
    [a, a],
    [a, whole ? a : tiny],
  ] as const);
  return { low, high, flags };
}

/** An answer inside: often an end, a number at which a rule turns, or just beside one. NaN is no answer. */
function randomIn(by: Chance, ask: Ask, range: AnswerRange): number {
  if (range.cannotTell === "yes" || (range.cannotTell === "maybe" && by.odds(0.5))) return CANNOT_TELL;
  const flags = range.flags ?? 0;
  if ((flags & NEVER) !== 0 || ((flags & MAY_UNKNOWN) !== 0 && by.odds(0.4))) return Number.NaN;
  if (range.words !== undefined) return by.pick(bits(range.words));
  const clamp = (x: number) => Math.min(range.high, Math.max(range.low, x));
  if (ask.type.is === "count") return clamp(Math.round(range.low + (range.high - range.low) * by.next()));
  switch (by.whole(5)) {
    case 0:
      return by.pick([range.low, range.high]);
    case 1: {
      const inside = ask.cuts.filter((cut) => cut >= range.low && cut <= range.high);
      return inside.length === 0
        ? (range.low + range.high) / 2
        : clamp(by.pick([nextDown, nextUp, (x: number) => x])(by.pick(inside)));
    }
    default:
      return clamp(range.low + (range.high - range.low) * by.next());
  }
}

/** What of a job does not lie in the spans, in a sentence; undefined where all does. */
function outside(slice: Slice, intervals: Intervals, frame: Frame): string | undefined {
  for (const block of slice.blocks) {
    for (const op of block.ops) {
      const at = op.out;
      const what = () =>
        `${block.id}, place ${at}, operation ` +
        Object.entries(Opcode).find(([, k]) => k === op.opcode)![0] +
        (op.opcode === Opcode.fn ? ` ${op.payload}` : "");
      const flags = intervals.flags[at]!;
      if (!isKnown(frame, at)) {
        const impossible = frame.state[at] === IMPOSSIBLE;
        if ((flags & (impossible ? MAY_IMPOSSIBLE : MAY_UNKNOWN)) === 0)
          return `${what()} is ${impossible ? "impossible" : "unknown"}, flags are ${flags}`;
        continue;
      }
      const value = frame.num[at]!;
      if ((flags & NEVER) !== 0) return `${what()} is ${value} though it should never have a number`;
      if (!(value >= intervals.low[at]! && value <= intervals.high[at]!))
        return `${what()} is ${value}, outside ${intervals.low[at]} to ${intervals.high[at]}`;
      if (intervals.words[at] !== 0 && (intervals.words[at]! & (1 << value)) === 0)
        return `${what()} is word ${value}, not one of ${bits(intervals.words[at]!).join()}`;
      const rows = intervals.rows.get(at);
      if (op.opcode === Opcode.pick && rows !== undefined && !rows.includes(value))
        return `${what()} picks row ${value}, not one of ${rows.join()}`;
    }
  }
  return undefined;
}

export interface LawOptions {
  readonly boxes: number;
  readonly jobs: number;
  /** Runs a box; left out, the real one does. */
  readonly spansOf?: (runner: Runner, box: Box) => Intervals;
}

/** Random boxes of a book and random jobs in each: the first that breaks the law, in a sentence. */
export function boxLaw(
  by: Chance,
  book: Book,
  { boxes, jobs, spansOf = (runner, box) => runner.box(box) }: LawOptions,
): string | undefined {
  const plan = planOf(book);
  const slice = wholeSlice(plan);
  const sharp = plan.blocks.flatMap((block) => [...block.writes]);
  const runner = new Runner(plan, slice, sharp);
  const pairs = slice.ops.flatMap((op) =>
    op.opcode === Opcode.lt || op.opcode === Opcode.le || op.opcode === Opcode.eq || op.opcode === Opcode.ne
      ? [[op.in0, op.in1] as const]
      : [],
  );
  for (let b = 0; b < boxes; b++) {
    const ranges = slice.asks.map((ask) => randomRange(by, ask, true));
    for (let j = 0; j < jobs; j++) {
      const values = slice.asks.map((ask, i) => randomIn(by, ask, ranges[i]!));
      const frame = runner.job(values);
      // Now and then it is assumed how two values compare, as they do in this very job.
      const relations = new Map<number, number>();
      if (pairs.length > 0 && by.odds(0.5)) {
        const [p, q] = by.pick(pairs);
        const [x, y] = p < q ? [frame.num[p]!, frame.num[q]!] : [frame.num[q]!, frame.num[p]!];
        if (x === x && y === y)
          relations.set(pairKey(p, q), nearly(x, y) ? NEAR : below(x, y) ? BELOW : ABOVE);
      }
      const intervals = spansOf(runner, { ranges, relations });
      const wrong = intervals.empty
        ? "the box is called empty though a job is in it"
        : outside(slice, intervals, frame);
      if (wrong !== undefined)
        return (
          `${wrong}\nasks ` +
          slice.asks
            .map(
              (ask, i) =>
                `${ask.name} ${ranges[i]!.low} to ${ranges[i]!.high} ` +
                `flags ${ranges[i]!.flags ?? 0}: ${values[i]}`,
            )
            .join("; ") +
          `\n${relations.size > 0 ? "with a relation assumed\n" : ""}`
        );
    }
  }
  return undefined;
}
