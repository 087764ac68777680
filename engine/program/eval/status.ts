// The state of a job, and why. This is the safety rule: the steps of a card are released only in state
// `ready`, so every doubt must end in another state.
import type { JobState } from "../../../core/job-state.ts";
import type { Reason } from "../../../core/reason.ts";
import { reasonText } from "../../../core/reason-words.ts";
import type { Block } from "../plan/plan.ts";
import type { Evaluation } from "./evaluate.ts";
import { isKnown, stateOf } from "./frame.ts";
import { waitsFor } from "./producers.ts";
import { shownReason } from "./reasons.ts";

export interface JobStatus {
  readonly state: JobState;
  /** Registers whose values the card needs and that still wait for answers. */
  readonly open: readonly number[];
  /** Why values that the card needs can never be known: each reason once, with the ids of the lines. */
  readonly blocked: readonly Blocked[];
}

/** What the tolerances of a job's answers leave open: `engine/analysis/sensitivity` finds it. */
export interface Turning {
  /** Rows (ids) of the stops, steps, cautions and chosen words that may come out otherwise. */
  readonly rows: ReadonlySet<string>;
  /** Asks to measure again, the one that settles most first. */
  readonly again: readonly string[];
}

interface Blocked {
  readonly reason: Reason;
  readonly ids: readonly string[];
}

/**
 * The card needs the condition of every stop and step. For a step or caution that applies it also needs each
 * value in its text, its time and its wait. A caution whose condition is open is shown as one that may apply
 * and holds nothing back; one whose condition can have no value does.
 *
 * - `stopped`: the condition of a stop is known to hold, whatever else is open.
 * - `referred`: otherwise, that of a referral is.
 * - `impossible`: otherwise, something that the card needs can have no value, or an answer cannot be used,
 *   whether or not the card needs it: a wrong answer must never read as a missing one.
 * - `waiting`: otherwise, something that the card needs waits for an answer; or a stop, a step or a chosen
 *   word may come out otherwise within the tolerances of the answers, and waits to be measured again.
 * - `ready`: everything that the card needs is known.
 */
export function jobStatus(evaluation: Evaluation, turning?: Turning): JobStatus {
  const { plan, frame } = evaluation;
  const open: number[] = [];
  const blocked = new Map<string, { reason: Reason; ids: string[] }>();
  const need = (register: number, id: string) => {
    if (isKnown(frame, register)) return;
    if (stateOf(frame, register) === "unknown") {
      open.push(register);
      return;
    }
    block(shownReason(plan, frame, register), id);
  };
  const block = (reason: Reason, id: string) => {
    const known = blocked.get(reasonText(reason));
    if (known === undefined) blocked.set(reasonText(reason), { reason, ids: [id] });
    else if (!known.ids.includes(id)) known.ids.push(id);
  };
  for (const { id, reason } of refusedAnswers(evaluation)) block(reason, id);
  for (const line of [...plan.stops, ...plan.steps]) need(line.when, line.id);
  for (const line of plan.cautions) if (stateOf(frame, line.when) === "impossible") need(line.when, line.id);
  for (const line of [
    ...linesThatApply(evaluation, plan.steps),
    ...linesThatApply(evaluation, plan.cautions),
  ]) {
    for (const piece of line.texts.title?.pieces ?? [])
      if (typeof piece !== "string") need(piece.register, line.id);
    if (line.takes >= 0) need(line.takes, line.id);
    if (line.waits >= 0) need(line.waits, line.id);
  }
  const reasons = [...blocked.values()];
  const state = stateFrom(evaluation, open, reasons);
  const held = state === "ready" && turning !== undefined && holdsBack(evaluation, turning);
  return { state: held ? "waiting" : state, open, blocked: reasons };
}

/** A caution that may turn is shown as one that may apply, and holds nothing back. */
function holdsBack({ plan }: Evaluation, turning: Turning): boolean {
  const cautions = new Set(plan.cautions.map((block) => block.id));
  return [...turning.rows].some((id) => !cautions.has(id));
}

/**
 * Answers that cannot be used, with the rows of their asks. An answer to no ask of the book is not among
 * them.
 */
const refusedAnswers = ({ plan, given }: Evaluation): { readonly id: string; readonly reason: Reason }[] =>
  [...given].flatMap(([name, one]) => {
    const entry = plan.checked.entries[plan.checked.byName.get(name) ?? -1];
    return one.is === "unusable" && one.reason.code !== "answer/not-asked" && entry !== undefined
      ? [{ id: entry.id, reason: one.reason }]
      : [];
  });

function stateFrom(evaluation: Evaluation, open: JobStatus["open"], blocked: JobStatus["blocked"]): JobState {
  const stops = linesThatApply(evaluation, evaluation.plan.stops);
  if (stops.length > 0) return stops.every(refers) ? "referred" : "stopped";
  if (blocked.length > 0) return "impossible";
  return open.length > 0 ? "waiting" : "ready";
}

/** Whether the line is a referral: it refuses nothing, and somebody else decides. */
export const refers = ({ entry: { statement } }: Block): boolean =>
  statement.body.keyword === "stop" && statement.body.refers === true;

/** Of these stops, steps or cautions, those whose condition is known to hold. */
export const linesThatApply = ({ frame }: Evaluation, lines: readonly Block[]): readonly Block[] =>
  lines.filter((line) => frame.num[line.when] === 1);

/** The asks that the open registers wait for: those that most of them wait for first, then in book order. */
export function asksWaitedFor({ plan, frame }: Evaluation, open: JobStatus["open"]): string[] {
  const votes = new Map<string, number>();
  for (const register of open)
    for (const ask of waitsFor(plan, frame, register)) votes.set(ask, (votes.get(ask) ?? 0) + 1);
  const order = new Map(plan.checked.entries.map((entry, i) => [entry.statement.name?.text, i]));
  return [...votes]
    .sort(([a, x], [b, y]) => y - x || (order.get(a) ?? 0) - (order.get(b) ?? 0))
    .map(([ask]) => ask);
}
