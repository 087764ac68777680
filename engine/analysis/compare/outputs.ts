// What a job gives, as texts by name, for two books to be compared by: everything, or some of it without
// writing out the rest.
import type { JobView, Shown } from "../../../core/view.ts";
import type { Plan } from "../../program/plan/plan.ts";
import { cardLine, shownOf } from "../../program/eval/show.ts";
import { jobStatus, type Turning } from "../../program/eval/status.ts";
import type { Evaluation } from "../../program/eval/evaluate.ts";

/**
 * Everything that a job gives, by name: its state, its values, the lines that hold, the steps that are
 * released.
 */
export function outputsOf(view: JobView): ReadonlyMap<string, string> {
  const out = new Map<string, string>([["state", view.state]]);
  for (const value of view.values) out.set(value.name, valueText(value));
  for (const line of [...view.stops, ...view.cautions]) out.set(lineName(line.id), line.text);
  // Steps are only looked at where both are released; a state that changed says enough.
  for (const line of view.steps) out.set(lineName(line.id), stepText(line));
  if (view.steps.length > 0) out.set("order of steps", view.steps.map((line) => lineName(line.id)).join(" "));
  return out;
}

/**
 * Those of `outputsOf` that bear these names: a change made alone is only asked for what differs, which is a
 * small part of a card.
 */
export function someOutputs(
  evaluation: Evaluation,
  names: ReadonlySet<string>,
  turning: Turning | undefined,
): ReadonlyMap<string, string> {
  const { plan, frame } = evaluation;
  const out = new Map<string, string>();
  const blocks = new Set([...names].map((name) => name.split(".", 1)[0]!));
  for (const name of blocks)
    for (const value of shownBy(plan, evaluation, name))
      if (names.has(value.name)) out.set(value.name, valueText(value));
  for (const block of [...plan.stops, ...plan.cautions])
    if (names.has(lineName(block.id)) && frame.num[block.when] === 1)
      out.set(lineName(block.id), cardLine(evaluation, block, "book").text);
  if (![...names].some((name) => name === "state" || name === "order of steps" || name.startsWith("step ")))
    return out;
  const { state } = jobStatus(evaluation, turning);
  out.set("state", state);
  if (state !== "ready") return out;
  const steps = plan.steps.filter((block) => frame.num[block.when] === 1);
  for (const block of steps)
    if (names.has(lineName(block.id)))
      out.set(lineName(block.id), stepText(cardLine(evaluation, block, "book")));
  if (steps.length > 0) out.set("order of steps", steps.map((block) => lineName(block.id)).join(" "));
  return out;
}

function shownBy(plan: Plan, evaluation: Evaluation, name: string): readonly Shown[] {
  const entry = plan.checked.entries[plan.checked.byName.get(name) ?? -1];
  const block = entry === undefined || entry.from?.hidden !== undefined ? undefined : plan.byId.get(entry.id);
  return block === undefined ? [] : shownOf(evaluation, block, "book");
}

const valueText = (value: Shown): string =>
  Array.isArray(value.value)
    ? JSON.stringify(value.value)
    : value.state === "known"
      ? value.text
      : value.state;
const stepText = (line: {
  readonly text: string;
  readonly takes?: string;
  readonly waits?: string;
}): string => [line.text, line.takes, line.waits].filter(Boolean).join(" · ");
/**
 * Of lines over one another in layers one holds at a time: whichever it is, a job that reads the same does
 * the same.
 */
const lineName = (id: string): string => id.replace(/@\S*$/, "");
