// What a book is held to: its own promises, and what every book owes without being asked: conditions that
// have a value, lines whose numbers have one whenever they apply, and a card for every job that is not
// refused.
import { readable } from "../../language/layers/item.ts";
import { oneLine } from "../../program/eval/show.ts";
import type { Frame } from "../../program/eval/frame.ts";
import { stateOf } from "../../program/eval/frame.ts";
import { Opcode } from "../../program/plan/op.ts";
import { MAY_IMPOSSIBLE, NEVER, type Intervals } from "../../program/intervals/interval-frame.ts";
import type { Block, Plan } from "../../program/plan/plan.ts";
import { type Open, type OpenPlaces, anyOf } from "./open-questions.ts";
import { hasFaultyPart, spoiltNames } from "./spoilt.ts";

export interface Goal {
  /** Row id of the promise or the line; `book` for what the book as a whole owes. */
  readonly id: string;
  readonly sort: "promise" | "condition" | "numbers" | "chart" | "card";
  readonly says: string;
  /** The goal applies where all of these are yes and `unless` is not. */
  readonly guards: readonly number[];
  readonly unless: number;
  /** One of these must be yes; or, for `value`, all of them must have a value. */
  /**
   * `kept`: the promise at the first place; in a job that is stopped it may be without a value, but never no.
   */
  readonly want:
    | { readonly is: "yes" | "value" | "kept"; readonly places: readonly number[] }
    /** A chart has a row, or points, wherever all that it is looked up by has a value. */
    | { readonly is: "row"; readonly places: readonly number[] }
    /** The first place never comes out as this while all the others come out no. */
    | { readonly is: "never"; readonly places: readonly number[]; readonly value: number };
}

export function goalsOf(plan: Plan): readonly Goal[] {
  const stopped = plan.registers.byName.get("stopped!") ?? -1;
  const anySpoilt = spoiltNames(plan);
  const isSpoilt = (block: Block) => hasFaultyPart(block.entry) || anySpoilt(block.entry.statement.needs);
  const goals: Goal[] = plan.promises
    .filter((block) => block.when >= 0 && !isSpoilt(block))
    .map((block) => ({
      id: block.id,
      sort: "promise",
      says: ruleOf(block),
      guards: [],
      unless: -1,
      want: { is: "kept", places: [block.when, stopped] },
    }));
  for (const block of [...plan.stops, ...plan.steps, ...plan.cautions]) {
    if (block.when < 0 || isSpoilt(block)) continue;
    const name = block.entry.statement.name?.text;
    const label = name === undefined ? block.id : `${block.entry.statement.body.keyword} ${readable(name)}`;
    const isStop = block.entry.statement.body.keyword === "stop";
    goals.push({
      id: block.id,
      sort: "condition",
      says: `${label}: whether it applies is never left open`,
      guards: [],
      unless: isStop ? -1 : stopped,
      want: { is: "value", places: [block.when] },
    });
    const numbers = [
      ...(block.texts.title?.pieces ?? []).flatMap((piece) =>
        typeof piece === "string" ? [] : [piece.register],
      ),
      ...(block.takes >= 0 ? [block.takes] : []),
      ...(block.waits >= 0 ? [block.waits] : []),
    ];
    if (numbers.length > 0 && !anySpoilt(block.entry.statement.uses))
      goals.push({
        id: block.id,
        sort: "numbers",
        says: `${label}: every number in it has a value whenever it applies`,
        guards: [block.when],
        unless: isStop ? -1 : stopped,
        want: { is: "value", places: numbers },
      });
  }
  goals.push(...chartGoals(plan, stopped));
  if (plan.steps.length > 0)
    goals.push({
      id: "book",
      sort: "card",
      says: "every job is refused by a stop or has work to do",
      guards: [],
      unless: stopped,
      want: { is: "yes", places: plan.steps.map((block) => block.when) },
    });
  return goals;
}

/**
 * Charts looked up by what is worked out, where it is not seen from the chart alone whether their rows are
 * enough; and those too large to be settled at once.
 */
function chartGoals(plan: Plan, stopped: number): readonly Goal[] {
  return plan.blocks.flatMap((block): Goal[] => {
    const { chart } = block.entry.checked ?? {};
    if (
      chart === undefined ||
      chart.mode === "keep-every-row" ||
      chart.conditions.some((one) => one.parameter) ||
      (!chart.open &&
        chart.conditions.every(
          (one) =>
            plan.checked.entries[plan.checked.byName.get(one.name) ?? -1]?.statement.body.keyword === "ask" &&
            chart.between.length === 0,
        ))
    )
      return [];
    const places = block.ops.flatMap((op) =>
      (op.opcode === Opcode.pick || op.opcode === Opcode.interpolate) &&
      op.payload.name === block.entry.statement.name!.text
        ? [op.out]
        : [],
    );
    return [
      {
        id: block.id,
        sort: "chart",
        says: `${readable(block.entry.statement.name!.text)} has a row for every job that is not refused`,
        guards: [],
        unless: stopped,
        want: { is: "row", places },
      },
    ];
  });
}

const ruleOf = (block: Block): string => {
  const { text, ruleAt, clauses } = block.entry.statement;
  const rule = ruleAt === undefined ? "" : oneLine(text.slice(ruleAt.start, ruleAt.end));
  return clauses.when === undefined
    ? rule
    : `${rule} when ${oneLine(text.slice(clauses.when.at.start, clauses.when.at.end))}`;
};

export const placesOf = (goal: Goal): readonly number[] => [
  ...goal.guards,
  ...(goal.unless >= 0 ? [goal.unless] : []),
  ...goal.want.places,
];

/**
 * Where the goal surely holds for every job of the box whose spans these are: the places that show it
 * and what
 * of them does, or "empty" where no job is in the box at all. What waits for an answer breaks nothing: so it
 * is enough that no job comes out wrong.
 */
export function shownBy(goal: Goal, intervals: Intervals): OpenPlaces | "empty" | undefined {
  const { flags } = intervals;
  const never = (register: number) => (flags[register]! & NEVER) !== 0;
  const neverNo = (register: number) => never(register) || intervals.low[register]! > 0;
  const neverYes = (register: number) => never(register) || intervals.high[register]! < 1;
  const neverImpossible = (register: number) => (flags[register]! & MAY_IMPOSSIBLE) === 0;
  const isSpared = (stopped: number) => neverNo(stopped) && neverImpossible(stopped);
  const guard = goal.guards.find(neverYes);
  if (guard !== undefined) return [[guard, "any"]];
  // A job that is stopped, or may be stopped yet, is spared.
  if (goal.unless >= 0 && isSpared(goal.unless)) return [[goal.unless, "any"]];
  if (intervals.empty) return "empty";
  const { places } = goal.want;
  switch (goal.want.is) {
    case "kept": {
      const [promise, stopped] = places as readonly [number, number];
      if (!neverNo(promise)) return undefined;
      if (neverImpossible(promise)) return [[promise, "any"]];
      return isSpared(stopped) ? anyOf(places) : undefined;
    }
    case "yes": {
      const yes = places.find(isSpared);
      return yes === undefined ? undefined : [[yes, "any"]];
    }
    case "row":
    case "value":
      return places.every(neverImpossible) ? places.map((at) => [at, "impossible"]) : undefined;
    case "never": {
      const [place, ...others] = places as readonly [number, ...number[]];
      const no = others.find(neverNo) ?? (isNever(goal.want.value, place, intervals) ? place : undefined);
      return no === undefined ? undefined : [[no, "any"]];
    }
  }
}

/**
 * What of a goal is open in a box: at its own places, and at `all`, where whether the job is stopped counts
 * too. Where a promise surely has a value, that is asked only if the promise asks.
 */
export function openPlaces(
  goal: Goal,
  { low, flags }: Intervals,
): { readonly places: OpenPlaces; readonly stopped: number; readonly all: OpenPlaces } {
  const { want, guards, unless } = goal;
  if (want.is === "kept") {
    const [promise, stopped] = want.places as readonly [number, number];
    const isNeverNo = (flags[promise]! & NEVER) !== 0 || low[promise]! > 0;
    const places: OpenPlaces = [[promise, isNeverNo ? "impossible" : "any"]];
    const mayFail = (flags[promise]! & MAY_IMPOSSIBLE) !== 0;
    return { places, stopped, all: mayFail ? [...places, [stopped, "any"]] : places };
  }
  const open: Open = want.is === "value" || want.is === "row" ? "impossible" : "any";
  const places: OpenPlaces = [...anyOf(guards), ...want.places.map((at) => [at, open] as const)];
  return { places, stopped: unless, all: unless < 0 ? places : [[unless, "any"], ...places] };
}

/** Whether a place surely never comes out as this value. */
function isNever(value: number, place: number, { low, high, flags, rows }: Intervals): boolean {
  const picked = rows.get(place);
  return (
    (flags[place]! & NEVER) !== 0 ||
    low[place]! > value ||
    high[place]! < value ||
    (picked !== undefined && !picked.includes(value))
  );
}

/** Whether one job breaks it. */
export function breaks(goal: Goal, frame: Frame): boolean {
  const impossible = (register: number) => stateOf(frame, register) === "impossible";
  const spared = (stopped: number) => frame.num[stopped] === 1 || stateOf(frame, stopped) === "unknown";
  if (!goal.guards.every((guard) => frame.num[guard] === 1)) return false;
  if (goal.unless >= 0 && spared(goal.unless)) return false;
  switch (goal.want.is) {
    case "kept": {
      const [promise, stopped] = goal.want.places as readonly [number, number];
      return frame.num[promise] === 0 || (impossible(promise) && !spared(stopped));
    }
    case "yes":
      return goal.want.places.every((register) => frame.num[register] === 0 || impossible(register));
    // Without a row of its own making: an impossible condition is another's fault.
    case "row":
      return goal.want.places.some((register) => impossible(register) && frame.cause[register] === register);
    case "never":
      return (
        frame.num[goal.want.places[0]!] === goal.want.value &&
        goal.want.places.slice(1).every((register) => frame.num[register] === 0)
      );
    case "value":
      return goal.want.places.some(impossible);
  }
}
