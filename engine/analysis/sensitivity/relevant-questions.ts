// Relevant questions: the unanswered asks that can still change what the card says. The others are proved
// irrelevant: whatever is answered, every line comes out the same.
import type { RelevantQuestionsView } from "../../../core/view.ts";
import { type Evaluation, asksOf } from "../../program/eval/evaluate.ts";
import { isKnown } from "../../program/eval/frame.ts";
import { type Range, type Intervals, bits } from "../../program/intervals/interval-frame.ts";
import { Runner } from "../verify/box.ts";
import { rangesOf } from "../verify/job-boxes.ts";
import { anyOf, openAsks } from "../verify/open-questions.ts";
import { type Ask, sliceOf } from "../verify/slice.ts";
import { numbersOf } from "./outcomes.ts";
import type { Block, Plan } from "../../program/plan/plan.ts";

export function relevantQuestions(evaluation: Evaluation): RelevantQuestionsView {
  const { plan } = evaluation;
  const lines = [...plan.stops, ...plan.steps, ...plan.cautions].filter((block) => block.when >= 0);
  const stopped = plan.registers.byName.get("stopped!");
  const slice = sliceOf(
    plan,
    [
      ...(stopped === undefined ? [] : [stopped]),
      ...lines.flatMap((block) => [block.when, ...numbersOf(block)]),
    ],
    true,
  );
  const runner = new Runner(plan, slice);
  const ranges = rangesOf(evaluation, slice, false, "may be answered");
  const intervals = runner.box({ ranges, relations: new Map() });
  const unanswered = slice.asks
    .map((ask, i) => ({ ask, i }))
    .filter(({ ask }) => !isAnswered(evaluation, ask.block));
  const asked = new Set(openAsks(slice, intervals, anyOf(openPlaces(plan, lines, intervals))));
  const open = unanswered.filter(({ i }) => asked.has(i));
  const openWith = (i: number, part: Range): number =>
    openPlaces(
      plan,
      lines,
      runner.box({ ranges: ranges.map((range, j) => (j === i ? part : range)), relations: new Map() }),
    ).length;
  const scores = new Map(
    open.map(({ ask, i }) => [ask.name, averageOf(partsOf(ask), (part) => openWith(i, part))]),
  );
  const order = open.map(({ ask }) => ask.name).sort((a, b) => scores.get(a)! - scores.get(b)!);
  const blank = asksOf(plan).filter((block) => !isAnswered(evaluation, block));
  const names = blank.flatMap((block) => block.entry.statement.name?.text ?? []);
  return { ask: order, needless: names.filter((name) => !order.includes(name)) };
}

/** Whether there is an answer that can be used: also "cannot tell", where the book then takes a value. */
const isAnswered = ({ frame }: Evaluation, { answer, cannotTell }: Block): boolean =>
  isKnown(frame, answer) || (cannotTell >= 0 && frame.num[cannotTell] === 1);

/**
 * Places whose outcome is still open. A job that is surely stopped has none; a line that surely does not
 * apply shows nothing.
 */
function openPlaces(plan: Plan, lines: readonly Block[], intervals: Intervals): readonly number[] {
  const surely = (register: number, truth: 0 | 1) =>
    intervals.flags[register] === 0 &&
    intervals.low[register] === truth &&
    intervals.high[register] === truth;
  if (plan.stops.some((block) => block.when >= 0 && surely(block.when, 1))) return [];
  return lines.flatMap((block) => {
    if (surely(block.when, 0)) return [];
    const numbers = numbersOf(block).filter(
      (register) =>
        !(intervals.flags[register] === 0 && intervals.low[register] === intervals.high[register]),
    );
    return surely(block.when, 1) ? numbers : [block.when, ...numbers];
  });
}

/** How much stays open, on average over what the ask can be answered: the least is asked first. */
const averageOf = (parts: readonly Range[], openWith: (part: Range) => number): number =>
  parts.reduce((sum, part) => sum + openWith(part), 0) / parts.length;

/** A few answers that stand for all: each word, or points between the numbers where rules turn. */
function partsOf(ask: Ask): readonly Range[] {
  if (ask.range.words !== undefined)
    return bits(ask.range.words).map((word) => ({ low: word, high: word, words: 1 << word }));
  const ends = [ask.range.low, ...ask.cuts, ask.range.high];
  const middles = ends
    .slice(1)
    .map((end, i) => (end + ends[i]!) / 2)
    .filter((at, i, all) => i === 0 || at > all[i - 1]!);
  const chosen =
    middles.length > 6 ? middles.filter((_, i) => i % Math.ceil(middles.length / 6) === 0) : middles;
  return chosen.map((at) => ({ low: at, high: at }));
}
