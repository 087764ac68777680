// Jobs that show a break: tried in a box, typed as a technician would type them, and made plainer while they
// still show it. A job is only shown as it reads when it is typed: no finer than an ask is measured, or with
// a few digits.
import { roundTo } from "../../../core/number.ts";
import { readAnswer } from "../../program/eval/answer.ts";
import { NEVER, type Range, bits } from "../../program/intervals/interval-frame.ts";
import { type AnswerRange, type Box, CANNOT_TELL, plainest, usualPart } from "./box.ts";
import { typed } from "./job-boxes.ts";
import type { Ask, Slice } from "./slice.ts";

type Job = readonly number[];

/** A few jobs of a box: its plainest, and its corners all low and all high. */
export function samples(slice: Slice, box: Box): readonly Job[] {
  const of = (value: (range: AnswerRange, ask: Ask) => number) =>
    box.ranges.map((range, i) => withoutAnswer(range) ?? value(range, slice.asks[i]!));
  const ends = (which: "low" | "high") =>
    of((range, ask) =>
      range.words !== undefined
        ? which === "low"
          ? bits(range.words)[0]!
          : bits(range.words).at(-1)!
        : (measured(ask, range[which], range) ?? range[which]),
    );
  return [of((range, ask) => plainest(ask, range)), ends("low"), ends("high")];
}

/** A few jobs whose answers are all usual where that is said; none where nothing is said of the asks. */
export const usualJobs = (slice: Slice, whole: Box): readonly Job[] =>
  slice.asks.every((ask) => ask.usual === undefined)
    ? []
    : samples(slice, {
        relations: whole.relations,
        ranges: slice.asks.map((ask): Range => {
          const words = ask.usual?.words?.reduce((set, word) => set | (1 << word), 0);
          const { low, high } = ask.usual ?? ask.range;
          return ask.range.words === undefined
            ? { low, high }
            : { low, high, words: words ?? ask.range.words };
        }),
      });

/** What stands for an answer in jobs of a range that has none. */
function withoutAnswer(range: AnswerRange): number | undefined {
  if (range.cannotTell === "yes") return CANNOT_TELL;
  return ((range.flags ?? 0) & NEVER) !== 0 ? Number.NaN : undefined;
}

/** The number nearest to one that lies on the ask's resolution, within a range; undefined where none does. */
function measured(ask: Ask, value: number, range: Range): number | undefined {
  const [unit, zero] = [ask.unit?.factor ?? 1, ask.unit?.zero ?? 0];
  for (const way of ["near", "up", "down"] as const) {
    const steps = roundTo((value - zero) / unit, ask.resolution / unit, way);
    const at = Number(steps.toPrecision(12)) * unit + zero;
    if (at >= range.low && at <= range.high && at >= ask.range.low && at <= ask.range.high) return at;
  }
  return undefined;
}

/** Digits behind which no answer is told from another, counted from the first of the range. */
const FINEST = 9;

/** The number nearest to one, with no more digits than anybody types, and those above and below it. */
function short(ask: Ask, value: number): readonly number[] {
  const [unit, zero] = [ask.unit?.factor ?? 1, ask.unit?.zero ?? 0];
  const span = (ask.range.high - ask.range.low) / unit;
  const step = 10 ** (Math.ceil(Math.log10(span)) - FINEST);
  const count = (value - zero) / unit / step;
  return [Math.round(count), Math.floor(count), Math.ceil(count)].map(
    (whole) => Number((whole * step).toPrecision(12)) * unit + zero,
  );
}

/** The value that is read where a value is typed as it is shown; undefined where it is refused. */
function readBack(ask: Ask, value: number): number | undefined {
  if (!Number.isFinite(value)) return value;
  const given = readAnswer(ask.name, ask.block.entry.checked, typed(ask, value));
  return given?.is === "value" ? given.value : undefined;
}

/**
 * A job as it can be typed: each answer with few digits, then on its resolution, then a little more or less.
 * Each is what would be read.
 */
export function asTyped({ asks }: Slice, job: Job): readonly Job[] {
  const all = (value: (ask: Ask, value: number) => number | undefined): readonly Job[] => {
    const values = asks.map((ask, i) => {
      const old = job[i]!;
      const next = Number.isFinite(old) && ask.range.words === undefined ? value(ask, old) : old;
      return next === undefined ? undefined : readBack(ask, next);
    });
    return values.every((one) => one !== undefined) ? [values as Job] : [];
  };
  return [
    ...all((ask, value) => measured(ask, value, ask.range)),
    ...[0, 1, 2].flatMap((i) => all((ask, value) => short(ask, value)[i])),
  ];
}

/**
 * The same break in a job that looks more like one that somebody has met: each answer in turn is moved to
 * that of a worked example, else to a round number as near to the middle of its range as the break allows.
 */
export function plainer(
  { asks }: Slice,
  job: Job,
  examples: readonly Job[],
  breaksBy: (job: Job) => boolean,
): Job {
  let now = job;
  // Moving one answer can make room for another.
  for (let turn = 0; turn < 2; turn++)
    for (const [i, ask] of asks.entries())
      for (const candidate of candidates(
        ask,
        now[i]!,
        examples.map((one) => one[i]!),
      )) {
        const value = readBack(ask, candidate);
        if (value === undefined) continue;
        if (Object.is(value, now[i])) break;
        const next = now.map((old, j) => (j === i ? value : old));
        if (!breaksBy(next)) continue;
        now = next;
        break;
      }
  return now;
}

/** What to try for an answer, the plainest first; the last of them is as good as the answer itself. */
function candidates(ask: Ask, now: number, examples: readonly number[]): readonly number[] {
  const { low, high, words } = ask.range;
  if (words !== undefined) return [...examples, ...(ask.usual?.words ?? []), ...bits(words)];
  const usual = usualPart(ask, ask.range);
  const middle = (usual.low + usual.high) / 2;
  const around = (at: number, width: number) =>
    plainest(ask, { low: Math.max(low, at - width), high: Math.min(high, at + width) });
  const found = [...examples, plainest(ask, ask.range)];
  if (!Number.isFinite(now)) return found;
  for (const part of [0, 0.25, 0.5, 0.75])
    found.push(around(middle + (now - middle) * part, (high - low) / 16));
  for (let width = (high - low) / 16; width > ask.resolution; width /= 2) found.push(around(now, width));
  return found;
}
