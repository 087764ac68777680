// Which operation produced a register, and which asks an unknown register waits for.
import { Opcode, type Op } from "../plan/op.ts";
import type { Block, Plan } from "../plan/plan.ts";
import { type Frame, IMPOSSIBLE, isKnown } from "./frame.ts";

export interface Producer {
  readonly op: Op;
  readonly block: Block;
}

const producersOfPlan = new WeakMap<Plan, Map<number, Producer>>();

/** Every register that an operation writes, with that operation. Made once for a plan. */
export function producers(plan: Plan): ReadonlyMap<number, Producer> {
  const known = producersOfPlan.get(plan);
  if (known !== undefined) return known;
  const made = new Map<number, Producer>();
  const note = (ops: readonly Op[], block: Block) => {
    for (const op of ops) {
      made.set(op.out, { op, block });
      if (op.opcode === Opcode.list) note(op.payload.ops, block);
    }
  };
  for (const block of plan.blocks) note(block.ops, block);
  producersOfPlan.set(plan, made);
  return made;
}

/**
 * Asks, by name, that an unknown register waits for: what decides first comes first, and what it might make
 * needless is left out.
 */
export function waitsFor(
  plan: Plan,
  frame: Frame,
  register: number,
  found = new Set<string>(),
  seen = new Set<number>(),
): Set<string> {
  const made = producers(plan);
  const stack = [register];
  for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
    if (seen.has(at) || isKnown(frame, at) || frame.state[at] === IMPOSSIBLE) continue;
    seen.add(at);
    const producer = made.get(at);
    if (producer === undefined) {
      const owner = plan.registers.owner.get(at);
      if (owner !== undefined) found.add(owner.replace(/\?+$/, ""));
      continue;
    }
    stack.push(...openParts(frame, producer.op).reverse());
    if (producer.op.opcode === Opcode.aggregate && isKnown(frame, producer.op.in1)) {
      // The list has its rows, but a column of them waits: its last row stands for all.
      const list = made.get(producer.op.in1)?.op;
      if (list?.opcode === Opcode.list) stack.push(list.payload.columns[producer.op.payload.column]!);
    }
  }
  return found;
}

/** The unknown registers that keep an operation from an outcome. */
function openParts(frame: Frame, op: Op): number[] {
  const unknown = (register: number) =>
    register >= 0 && !isKnown(frame, register) && frame.state[register] !== IMPOSSIBLE;
  switch (op.opcode) {
    case Opcode.select:
      return unknown(op.in0) ? [op.in0] : [frame.num[op.in0] === 1 ? op.in1 : op.in2].filter(unknown);
    case Opcode.pick: {
      const rows = frame.possibleRows.get(op.out)?.rows ?? [];
      return [...op.payload.conditions].filter(
        (register, c) => unknown(register) && rows.some((r) => op.payload.rows[r]![c] !== "any"),
      );
    }
    case Opcode.rowValue:
      return unknown(op.in0) ? [op.in0] : [op.payload.values[frame.num[op.in0]!]!].filter(unknown);
    case Opcode.interpolate:
      return [
        op.in0,
        ...op.payload.axes,
        ...(op.in0 < 0 || isKnown(frame, op.in0)
          ? op.payload.groups[op.in0 < 0 ? 0 : frame.num[op.in0]!]!.values
          : []),
      ].filter(unknown);
    case Opcode.aggregate:
    case Opcode.candidateCount:
    case Opcode.firstCandidate:
      return [op.in1].filter(unknown);
    case Opcode.candidatesAmong:
      return [op.in1, op.in2].filter(unknown);
    case Opcode.list:
      return [op.in0, op.in1].filter(unknown);
    // Which row above kept it from a value is not known any more: any of what the rows read may have.
    case Opcode.rowAbove:
      return [op.in0, ...op.payload.reads].filter(unknown);
    case Opcode.candidateRows:
      return [];
    case Opcode.add:
    case Opcode.sub:
    case Opcode.mul:
    case Opcode.div:
    case Opcode.pow:
    case Opcode.neg:
    case Opcode.fn:
    case Opcode.round:
    case Opcode.lt:
    case Opcode.le:
    case Opcode.eq:
    case Opcode.ne:
    case Opcode.and:
    case Opcode.or:
    case Opcode.not:
    case Opcode.max:
    case Opcode.min:
    case Opcode.known:
    case Opcode.band:
    case Opcode.words:
    case Opcode.copy:
      return [op.in0, op.in1, op.in2].filter(unknown);
  }
}
