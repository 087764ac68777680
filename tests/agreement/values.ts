// Whether a job comes out of the program as it does of the evaluator: each value, each line, and the state of
// the job.
import type { Book } from "../../engine/index.ts";
import { showJob, workJob } from "../../engine/index.ts";
import type { JobView, Shown } from "../../core/view.ts";
import { type Typed, answering } from "./answers.ts";
import type { Value } from "./domain.ts";
import { type ExactAmount, type ExactTruth, asNumber, exact } from "./exact.ts";
import { type Meaning, meaningOf } from "./meaning.ts";
import type { Kind, SmallBook, Statement } from "./syntax.ts";

export type ExactMeaning = Meaning<ExactTruth, ExactAmount>;
type State = "known" | "unknown" | "impossible";

/** The evaluator's own job; undefined where an answer cannot be used, unless that is allowed. */
export function evaluated(
  book: SmallBook,
  typed: Typed,
  unusable: "refused" | "allowed" = "refused",
): ExactMeaning | undefined {
  const answer = answering(book, typed, unusable);
  return answer && meaningOf(book, exact, answer);
}

/** Undefined where it is too close to call. */
function stateOf({ known, impossible }: Value<ExactTruth, unknown>): State | undefined {
  if (known === true) return "known";
  if (impossible === true) return "impossible";
  return known === false && impossible === false ? "unknown" : undefined;
}

/** What is compared, how much of it was too close to call, and where the two differ. */
export interface Compared {
  compared: number;
  close: number;
  readonly differences: string[];
}

export function compareValues(small: SmallBook, book: Book, typed: Typed): Compared {
  const view = showJob(workJob(book, typed));
  const own = evaluated(small, typed, "allowed")!;
  const usable = evaluated(small, typed) !== undefined;
  const seen: Compared = { compared: 0, close: 0, differences: [] };
  const note = (name: string, theirs: string, ours: string | undefined) => {
    if (ours === undefined) {
      seen.close++;
      return;
    }
    seen.compared++;
    if (theirs !== ours) seen.differences.push(`${name}: the program has ${theirs}, the evaluator ${ours}`);
  };
  const shown = new Map(view.values.map((one) => [one.name, one] as const));
  for (const statement of small.statements) {
    const name = "name" in statement ? statement.name : "";
    const theirs = shown.get(name);
    const held = own.amounts.get(name) ?? own.truths.get(name);
    if (theirs === undefined || held === undefined) continue;
    const state = stateOf(held);
    note(
      name,
      theirs.state === "known" && state === "known" ? theirValue(theirs, held.value) : theirs.state,
      state === "known" ? written(held.value, kindOf(statement)) : state,
    );
  }
  if (usable) note("state", view.state, jobState(small, own));
  // With an answer that cannot be used the card waits for a better one, whether or not it rests on it.
  else note("card", view.state === "ready" ? "released" : "withheld", "withheld");
  note("broken", String(view.broken.length), brokenCount(own));
  return seen;
}

/** The program's number, told as the evaluator's where the two are one within 1e-9. */
function theirValue(theirs: Shown, own: ExactAmount | ExactTruth): string {
  if (typeof theirs.value !== "number" || typeof own !== "object") return String(theirs.value);
  const value = theirs.value * (theirs.unit === "inch" ? 25.4 : 1);
  const exactly = asNumber(own.at);
  return Math.abs(value - exactly) <= 1e-9 * Math.abs(exactly) + own.off ? String(exactly) : String(value);
}

function written(value: ExactAmount | ExactTruth, kind: Kind | undefined): string | undefined {
  if (value === undefined) return undefined;
  if (typeof value === "boolean") return String(value);
  return kind === undefined
    ? String(asNumber(value.at))
    : kind.words[Number(value.at.top / value.at.bottom)]!;
}

function kindOf(one: Statement): Kind | undefined {
  if (one.is === "ask") return one.answered.is === "kind" ? one.answered.kind : undefined;
  const sort = one.is === "figure" ? one.sort : one.is === "chart" ? one.gives : undefined;
  return sort !== undefined && "kind" in sort ? sort.kind : undefined;
}

const brokenCount = ({ promises }: ExactMeaning): string | undefined => {
  const no = promises.map((one) => exact.and(one.known, exact.not(one.value)));
  return no.includes(undefined) ? undefined : String(no.filter((one) => one === true).length);
};

/**
 * Stopped, impossible, waiting or ready, by section 5 of the reference. A caution whose condition is open
 * holds nothing back.
 */
function jobState(small: SmallBook, own: ExactMeaning): JobView["state"] | undefined {
  const stops: (State | "yes" | "no" | undefined)[] = [];
  const others: (State | undefined)[] = [];
  for (const one of small.statements) {
    if (one.is !== "step" && one.is !== "caution" && one.is !== "stop") continue;
    const when = own.lines.get(`${one.is} ${one.name}`)!;
    const state = stateOf(when);
    const applies = state === "known" ? when.value : false;
    if (applies === undefined) return undefined;
    if (one.is === "stop") {
      stops.push(state === "known" ? (applies ? "yes" : "no") : state);
      continue;
    }
    if (one.is === "step" || state !== "unknown") others.push(state);
    if (applies && one.shows !== undefined) others.push(stateOf(own.amounts.get(one.shows)!));
  }
  if (stops.includes("yes")) return "stopped";
  const all = [...stops, ...others];
  if (all.includes(undefined)) return undefined;
  return all.includes("impossible") ? "impossible" : all.includes("unknown") ? "waiting" : "ready";
}
