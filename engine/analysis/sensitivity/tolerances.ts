// What the tolerances of a job's answers leave open: ranges of values, decisions that can come out either
// way, and which measurement to take again.
import { writeValue } from "../../../core/format.ts";
import { nearly } from "../../../core/number.ts";
import type { Doubt } from "../../../core/reason.ts";
import { doubtText } from "../../../core/reason-words.ts";
import type { OpenDecision, ToleranceView, UnitSystem } from "../../../core/view.ts";
import { type Intervals, bits, wordsOf } from "../../program/intervals/interval-frame.ts";
import type { Evaluation } from "../../program/eval/evaluate.ts";
import type { Plan, Value } from "../../program/plan/plan.ts";
import { cardLine } from "../../program/eval/show.ts";
import type { Turning } from "../../program/eval/status.ts";
import { Runner } from "../verify/box.ts";
import { rangesOf } from "../verify/job-boxes.ts";
import { sliceOf } from "../verify/slice.ts";
import { type Outcome, lineOf, outcomesOf } from "./outcomes.ts";
import { nearestTurns } from "./sensitivity.ts";

/** Asks whose answer has a tolerance. */
const withTolerance = ({ given }: Evaluation): readonly string[] =>
  [...given].flatMap(([ask, one]) => (one.is === "value" && (one.slack ?? 0) > 0 ? [ask] : []));

/**
 * Which lines and words may come out otherwise, and what to measure again; undefined where no answer has a
 * tolerance.
 */
export function turningOf(evaluation: Evaluation, known?: ToleranceView): Turning | undefined {
  const loose = withTolerance(evaluation);
  if (loose.length === 0) return undefined;
  const { open, measureAgain: first } = known ?? toleranceEffects(evaluation, "book")!;
  const again = first === undefined ? loose : [first, ...loose.filter((ask) => ask !== first)];
  return { rows: new Set(open.map((one) => one.id)), again: open.length === 0 ? [] : again };
}

/** The values that a book shows by name, those of a chart's columns each by itself. */
function valuesOf(plan: Plan): readonly (Value & { readonly name: string })[] {
  return plan.checked.entries.flatMap((entry) => {
    const { statement, checked, from } = entry;
    const block = plan.byId.get(entry.id);
    const type = checked.signature?.type;
    const name = statement.name?.text ?? "";
    // The second statement of one name has its finding and no value of its own.
    const first = plan.checked.entries[plan.checked.byName.get(name) ?? -1]?.id === entry.id;
    const shows = ["ask", "figure", "chart"].includes(statement.body.keyword) && type?.is !== "kept";
    if (block === undefined || !first || !shows || from?.hidden !== undefined) return [];
    return block.values.map((value, i) => ({
      ...value,
      name: block.values.length > 1 && type?.is === "row" ? `${name}.${type.columns[i]!.name}` : name,
    }));
  });
}

/** Undefined where no answer has a tolerance. */
export function toleranceEffects(evaluation: Evaluation, units: UnitSystem): ToleranceView | undefined {
  if (withTolerance(evaluation).length === 0) return undefined;
  const { plan } = evaluation;
  const outcomes = outcomesOf(plan);
  const values = valuesOf(plan);
  const slice = sliceOf(plan, [
    ...outcomes.map((one) => one.place),
    ...values.map((value) => value.register),
  ]);
  const runner = new Runner(plan, slice);
  const ranges = rangesOf(evaluation, slice, true, "stays");
  const intervals = runner.box({ ranges, relations: new Map() });
  const ranged: Record<string, string> = {};
  for (const { name, register, type, unit } of values) {
    const [low, high] = [intervals.low[register]!, intervals.high[register]!];
    // What has no number in this job has no range either; and the last bits of a sum are no spread.
    if (evaluation.frame.num[register] !== evaluation.frame.num[register] || Math.abs(high - low) < 1e-200)
      continue;
    if (
      (intervals.flags[register]! & 5) !== 0 ||
      nearly(low, high) ||
      !Number.isFinite(low) ||
      !Number.isFinite(high) ||
      type.is === "kind" ||
      type.is === "yes-no" ||
      type.is === "text"
    )
      continue;
    ranged[name] = `${writeValue(low, type, unit, units)} to ${writeValue(high, type, unit, units)}`;
  }
  const openNow = openOutcomes(intervals, outcomes, evaluation);
  const open = openNow.map((one) => doubtView(one, intervals, evaluation, units));
  let measureAgain: string | undefined;
  let fewest = openNow.length;
  slice.asks.forEach((ask, i) => {
    const given = evaluation.given.get(ask.name);
    if (given?.is !== "value" || !((given.slack ?? 0) > 0)) return;
    const narrowed = ranges.map((range, j) => (j === i ? { low: given.value, high: given.value } : range));
    const left = openOutcomes(
      runner.box({ ranges: narrowed, relations: new Map() }),
      outcomes,
      evaluation,
    ).length;
    if (left < fewest) {
      fewest = left;
      measureAgain = ask.name;
    }
  });
  if (measureAgain === undefined) return { spans: ranged, open };
  const turnsAt = turnsWithin(evaluation, measureAgain, units);
  return { spans: ranged, open, measureAgain, ...(turnsAt ? { turnsAt } : {}) };
}

/** The nearest other value of a measurement, within its tolerance, at which something turns. */
function turnsWithin(evaluation: Evaluation, ask: string, units: UnitSystem): ToleranceView["turnsAt"] {
  const given = evaluation.given.get(ask);
  const block = evaluation.plan.byId.get(`ask ${ask}`)?.values[0];
  if (given?.is !== "value" || block === undefined) return undefined;
  const away = (value: number): number => Math.abs(value - given.value);
  const nearest = nearestTurns(evaluation, ask)
    .filter((value) => away(value) <= (given.slack ?? 0) * (1 + 1e-9))
    .sort((a, b) => away(a) - away(b))[0];
  if (nearest === undefined) return undefined;
  const { type, unit } = block;
  return {
    value: writeValue(nearest, type, unit, units),
    // A difference of temperatures counts from no zero, and keeps the book's unit.
    away: unit?.zero
      ? writeValue(away(nearest), type, { ...unit, zero: 0 })
      : writeValue(away(nearest), type, unit, units),
  };
}

/** Outcomes that are settled by the answers as given, and are not once their tolerances are allowed. */
const openOutcomes = (
  intervals: Intervals,
  outcomes: readonly Outcome[],
  evaluation: Evaluation,
): readonly Outcome[] =>
  outcomes.filter(
    ({ place: register }) =>
      evaluation.frame.num[register] === evaluation.frame.num[register] &&
      !(intervals.flags[register] === 0 && intervals.low[register] === intervals.high[register]),
  );

function doubtView(
  one: Outcome,
  intervals: Intervals,
  evaluation: Evaluation,
  units: UnitSystem,
): OpenDecision {
  const doubt = doubtOf(one, intervals);
  const stop = one.what === "stop" ? evaluation.plan.byId.get(one.id) : undefined;
  const text = stop && cardLine(evaluation, stop, units).text;
  return { id: one.id, says: doubtText(doubt), doubt, ...(text === undefined ? {} : { text }) };
}

function doubtOf(one: Outcome, intervals: Intervals): Doubt {
  if (one.what !== "value")
    return { code: one.what === "stop" ? "whether-holds" : "whether-applies", line: lineOf(one) };
  const { type } = one;
  const words = type.is === "kind" ? bits(wordsOf(intervals, one.place)).map((word) => type.words[word]) : [];
  return { code: "may-be", name: one.name, words: words.filter((word) => word !== undefined) };
}
