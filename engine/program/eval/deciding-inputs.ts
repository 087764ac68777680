// What an outcome rests on: the values of other statements that an operation really used. In the deciding reading,
// what could be left out without changing the outcome is left out: the other side of an `or` that is yes, the
// branch not taken, a chart's condition without which the same value comes out.
import { allows, findHole } from "../../../core/box.ts";
import { nearly } from "../../../core/number.ts";
import { K, type Op, type PickTable, extraReads } from "../plan/op.ts";
import type { Block, Plan } from "../plan/plan.ts";
import { type Frame, IMPOSSIBLE, isKnown } from "./frame.ts";
import { producers } from "./producers.ts";

/** Names of the statements (with `.column`, `!` or `?` behind them as places are named) on which a place of this block rests, in the order met. */
export function restsOn(plan: Plan, frame: Frame, block: Block, place: number, deciding: boolean): readonly string[] {
  const made = producers(plan);
  const found = new Set<string>();
  const seen = new Set<number>();
  const walk = (at: number, values?: Int32Array): void => {
    if (at < 0 || seen.has(at)) return;
    seen.add(at);
    const maker = made.get(at);
    if (maker === undefined || maker.block !== block) {
      const owner = plan.places.owner.get(at);
      if (owner !== undefined) found.add(owner);
      return;
    }
    for (const part of deciding ? decidingParts(frame, maker.op, values) : allParts(maker.op)) {
      walk(part, maker.op.k === K.rowValue ? maker.op.x.values : undefined);
    }
  };
  walk(place);
  return [...found];
}

const allParts = (op: Op): readonly number[] => {
  const plain = op.k === K.gather || op.k === K.leftCount || op.k === K.leftFirst || op.k === K.leftAmong ? [op.b, op.c] : [op.a, op.b, op.c];
  return [...plain, ...extraReads(op)];
};

function decidingParts(frame: Frame, op: Op, values: Int32Array | undefined): readonly number[] {
  const num = (place: number) => frame.num[place]!;
  // Where there is no value, the part that keeps it from one is what decided.
  if (!isKnown(frame, op.d) && op.k !== K.pick && op.k !== K.rowValue && op.k !== K.list) {
    const blame = allParts(op).filter((place) => place >= 0 && !isKnown(frame, place));
    const first = frame.state[op.d] === IMPOSSIBLE ? blame.filter((place) => frame.state[place] === IMPOSSIBLE && frame.cause[place] === frame.cause[op.d]) : blame;
    if (first.length > 0) return op.k === K.select && isKnown(frame, op.a) ? [op.a, num(op.a) === 1 ? op.b : op.c] : first;
  }
  switch (op.k) {
    case K.select: {
      const [yes, no] = [num(op.b), num(op.c)];
      if (yes === yes && no === no && nearly(yes, no)) return [op.b, op.c];
      return isKnown(frame, op.a) ? [op.a, num(op.a) === 1 ? op.b : op.c] : [op.a];
    }
    case K.and: return num(op.d) === 0 ? [num(op.a) === 0 ? op.a : op.b] : [op.a, op.b];
    case K.or: return num(op.d) === 1 ? [num(op.a) === 1 ? op.a : op.b] : [op.a, op.b];
    case K.pick: return isKnown(frame, op.d) ? needed(frame, op.x, num(op.d), values).map((c) => op.x.conditions[c]!) : [...op.x.conditions].filter((place) => !isKnown(frame, place) || frame.state[op.d] === IMPOSSIBLE);
    case K.rowValue: return isKnown(frame, op.a) ? [op.a, op.x.values[num(op.a)]!] : [op.a];
    case K.between: return [op.a, ...op.x.axes, ...(op.x.groups[op.a < 0 || !isKnown(frame, op.a) ? 0 : num(op.a)]?.values ?? [])];
    case K.keep: return op.x.pick.conditions.length === 0 ? [] : [...op.x.pick.conditions].filter((place) => isKnown(frame, place));
    case K.before: return [op.a];
    case K.gather: case K.leftCount: case K.leftFirst: return [op.b];
    case K.leftAmong: return [op.b, op.c];
    case K.list: return [op.a, op.b, ...op.x.ops.flatMap((inner) => allParts(inner))];
    case K.add: case K.sub: case K.mul: case K.div: case K.pow: case K.neg: case K.fn: case K.round: case K.lt: case K.le: case K.eq: case K.ne:
    case K.not: case K.max: case K.min: case K.known: case K.band: case K.words: case K.copy:
      return [op.a, op.b, op.c];
  }
}

/** The conditions without which another row, with another value, might have fitted. */
function needed(frame: Frame, table: PickTable, row: number, values: Int32Array | undefined): readonly number[] {
  let keep = [...table.conditions.keys()].filter((c) => table.rows[row]![c] !== "any" || table.firstWins);
  const fitting = (conditions: readonly number[]) => table.rows.flatMap((sides, r) => {
    if (!conditions.every((c) => { const v = frame.num[table.conditions[c]!]!; return v !== v || allows(sides[c]!, v); })) return [];
    return [r];
  });
  const sameValue = (rows: readonly number[]) => rows.every((r) => r === row || (values !== undefined && nearly(frame.num[values[r]!]!, frame.num[values[row]!]!)));
  for (const c of [...keep].reverse()) {
    const rest = keep.filter((one) => one !== c);
    const rows = fitting(rest);
    const dropped = [...table.conditions.keys()].filter((one) => !rest.includes(one));
    if (!sameValue(rows)) continue;
    const whole = findHole(dropped.map((one) => table.domains[one]!), rows.map((r) => dropped.map((one) => table.rows[r]![one]!)), 5_000).is === "none";
    if (whole) keep = rest;
  }
  return keep;
}
