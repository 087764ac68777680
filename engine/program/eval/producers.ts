// Which operation made a place, and which asks an unknown place waits for.
import { K, type Op } from "../plan/op.ts";
import type { Block, Plan } from "../plan/plan.ts";
import { type Frame, IMPOSSIBLE, isKnown } from "./frame.ts";

export interface Maker {
  readonly op: Op;
  readonly block: Block;
}

const kept = new WeakMap<Plan, Map<number, Maker>>();

/** Every place that an operation writes, with that operation. Made once for a plan. */
export function producers(plan: Plan): ReadonlyMap<number, Maker> {
  const known = kept.get(plan);
  if (known !== undefined) return known;
  const made = new Map<number, Maker>();
  const note = (ops: readonly Op[], block: Block) => {
    for (const op of ops) {
      made.set(op.d, { op, block });
      if (op.k === K.list) note(op.x.ops, block);
    }
  };
  for (const block of plan.blocks) note(block.ops, block);
  kept.set(plan, made);
  return made;
}

/** Asks, by name, that an unknown place waits for: what decides first comes first, and what it might make needless is left out. */
export function waitsFor(plan: Plan, frame: Frame, place: number, found = new Set<string>(), seen = new Set<number>()): Set<string> {
  const made = producers(plan);
  const stack = [place];
  for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
    if (seen.has(at) || isKnown(frame, at) || frame.state[at] === IMPOSSIBLE) continue;
    seen.add(at);
    const maker = made.get(at);
    if (maker === undefined) {
      const owner = plan.places.owner.get(at);
      if (owner !== undefined) found.add(owner.replace(/\?+$/, ""));
      continue;
    }
    stack.push(...openParts(frame, maker.op).reverse());
    if (maker.op.k === K.gather && isKnown(frame, maker.op.b)) {
      // The list has its rows, but a column of them waits: its last row stands for all.
      const list = made.get(maker.op.b)?.op;
      if (list?.k === K.list) stack.push(list.x.columns[maker.op.x.column]!);
    }
  }
  return found;
}

/** The unknown places that keep an operation from an outcome. */
function openParts(frame: Frame, op: Op): number[] {
  const unknown = (place: number) => place >= 0 && !isKnown(frame, place) && frame.state[place] !== IMPOSSIBLE;
  switch (op.k) {
    case K.select: return unknown(op.a) ? [op.a] : [frame.num[op.a] === 1 ? op.b : op.c].filter(unknown);
    case K.pick: {
      const rows = frame.maybe.get(op.d)?.rows ?? [];
      return [...op.x.conditions].filter((place, c) => unknown(place) && rows.some((r) => op.x.rows[r]![c] !== "any"));
    }
    case K.rowValue: return unknown(op.a) ? [op.a] : [op.x.values[frame.num[op.a]!]!].filter(unknown);
    case K.between: return [op.a, ...op.x.axes, ...(op.a < 0 || isKnown(frame, op.a) ? op.x.groups[op.a < 0 ? 0 : frame.num[op.a]!]!.values : [])].filter(unknown);
    case K.gather: case K.leftCount: case K.leftFirst: return [op.b].filter(unknown);
    case K.leftAmong: return [op.b, op.c].filter(unknown);
    case K.list: return [op.a, op.b].filter(unknown);
    // Which row above kept it from a value is not known any more: any of what the rows read may have.
    case K.before: return [op.a, ...op.x.reads].filter(unknown);
    case K.keep: return [];
    case K.add: case K.sub: case K.mul: case K.div: case K.pow: case K.neg: case K.fn: case K.round: case K.lt: case K.le: case K.eq: case K.ne:
    case K.and: case K.or: case K.not: case K.max: case K.min: case K.known: case K.band: case K.words: case K.copy:
      return [op.a, op.b, op.c].filter(unknown);
  }
}
