// What each operation of a plan reads, by the place that it writes: worked out once for all proofs of the
// plan.
import { Opcode, type Op, extraReads } from "../../program/plan/op.ts";
import type { Plan } from "../../program/plan/plan.ts";

/** By place; nothing for the answer of an ask, and for constants. */
export interface Graph {
  readonly made: readonly (Op | undefined)[];
  /** All places that the operation reads, those that the rows of a gathered list read from outside too. */
  readonly parts: readonly (readonly number[] | undefined)[];
}

const graphs = new WeakMap<Plan, Graph>();

export function graphOf(plan: Plan): Graph {
  const known = graphs.get(plan);
  if (known !== undefined) return known;
  const made: (Op | undefined)[] = new Array(plan.registers.next + 1).fill(undefined);
  const rows = new Map<number, readonly number[]>();
  const note = (ops: readonly Op[]) => {
    for (const op of ops) {
      made[op.out] = op;
      if (op.opcode !== Opcode.list) continue;
      note(op.payload.ops);
      rows.set(op.payload.slot, readsOfRows(op.payload));
    }
  };
  for (const block of plan.blocks) note(block.ops);
  const parts = made.map((op) => op && allParts(op, rows));
  const graph = { made, parts };
  graphs.set(plan, graph);
  return graph;
}

function allParts(op: Op, rows: ReadonlyMap<number, readonly number[]>): readonly number[] {
  const own = partsOf(op).filter((at) => at >= 0);
  return op.opcode === Opcode.aggregate ? [...own, ...(rows.get(op.in0) ?? [])] : own;
}

/** What the rows of a list read from outside of it. */
function readsOfRows({ ops, counter, first }: Extract<Op, { opcode: typeof Opcode.list }>["payload"]) {
  const own = new Set([counter, first, ...ops.map((inner) => inner.out)]);
  return [...new Set(ops.flatMap(partsOf))].filter((register) => register >= 0 && !own.has(register));
}

/** All places that an operation reads. */
function partsOf(op: Op): readonly number[] {
  switch (op.opcode) {
    case Opcode.pick:
      return [...op.payload.conditions];
    case Opcode.rowValue:
      return [op.in0, ...op.payload.values];
    // The first number of these is a slot of the frame, not a place.
    case Opcode.aggregate:
    case Opcode.candidateCount:
    case Opcode.firstCandidate:
    case Opcode.candidatesAmong:
      return [op.in1, op.in2];
    case Opcode.rowAbove:
      return [op.in0, ...op.payload.reads];
    case Opcode.interpolate:
    case Opcode.candidateRows:
      return [op.in0, op.in1, op.in2, ...extraReads(op)];
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
    case Opcode.select:
    // Its place holds how many rows there are.
    case Opcode.list:
      return [op.in0, op.in1, op.in2];
  }
}
