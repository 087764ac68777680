// What an outcome rests on: the values of other statements that an operation really used. In the deciding
// reading, what could be left out without changing the outcome is left out: the other side of an `or` that is
// yes, the branch not taken, a chart's condition without which the same value comes out.
import { allows } from "../../../core/box.ts";
import { findHole } from "../../../core/find-hole.ts";
import { nearly } from "../../../core/number.ts";
import { Opcode, type Op, type PickTable, extraReads } from "../plan/op.ts";
import type { Block, Plan } from "../plan/plan.ts";
import { type Frame, IMPOSSIBLE, isKnown } from "./frame.ts";
import { producers } from "./producers.ts";

/**
 * Names of the statements that decide a register of this block, in the order met. They have `.column`, `!` or
 * `?` behind them as registers do.
 */
export function decidingInputs(
  plan: Plan,
  frame: Frame,
  block: Block,
  register: number,
  deciding: boolean,
): readonly string[] {
  const made = producers(plan);
  const found = new Set<string>();
  const seen = new Set<number>();
  const walk = (at: number, values?: Int32Array): void => {
    if (at < 0 || seen.has(at)) return;
    seen.add(at);
    const producer = made.get(at);
    if (producer === undefined || producer.block !== block) {
      const owner = plan.registers.owner.get(at);
      if (owner !== undefined) found.add(owner);
      return;
    }
    for (const part of deciding ? decidingParts(frame, producer.op, values) : allParts(producer.op)) {
      walk(part, producer.op.opcode === Opcode.rowValue ? producer.op.payload.values : undefined);
    }
  };
  walk(register);
  return [...found];
}

const allParts = (op: Op): readonly number[] => {
  const plain =
    op.opcode === Opcode.aggregate ||
    op.opcode === Opcode.candidateCount ||
    op.opcode === Opcode.firstCandidate ||
    op.opcode === Opcode.candidatesAmong
      ? [op.in1, op.in2]
      : [op.in0, op.in1, op.in2];
  return [...plain, ...extraReads(op)];
};

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one flat switch over all operations.
function decidingParts(frame: Frame, op: Op, values: Int32Array | undefined): readonly number[] {
  const num = (register: number) => frame.num[register]!;
  // Where there is no value, the part that keeps it from one is what decided.
  if (
    !isKnown(frame, op.out) &&
    op.opcode !== Opcode.pick &&
    op.opcode !== Opcode.rowValue &&
    op.opcode !== Opcode.list
  ) {
    const blame = allParts(op).filter((register) => register >= 0 && !isKnown(frame, register));
    const first =
      frame.state[op.out] === IMPOSSIBLE
        ? blame.filter(
            (register) =>
              frame.state[register] === IMPOSSIBLE && frame.cause[register] === frame.cause[op.out],
          )
        : blame;
    if (first.length > 0)
      return op.opcode === Opcode.select && isKnown(frame, op.in0)
        ? [op.in0, num(op.in0) === 1 ? op.in1 : op.in2]
        : first;
  }
  switch (op.opcode) {
    case Opcode.select: {
      const [yes, no] = [num(op.in1), num(op.in2)];
      if (yes === yes && no === no && nearly(yes, no)) return [op.in1, op.in2];
      return isKnown(frame, op.in0) ? [op.in0, num(op.in0) === 1 ? op.in1 : op.in2] : [op.in0];
    }
    case Opcode.and:
      return num(op.out) === 0 ? [num(op.in0) === 0 ? op.in0 : op.in1] : [op.in0, op.in1];
    case Opcode.or:
      return num(op.out) === 1 ? [num(op.in0) === 1 ? op.in0 : op.in1] : [op.in0, op.in1];
    case Opcode.pick:
      return isKnown(frame, op.out)
        ? needed(frame, op.payload, num(op.out), values).map((c) => op.payload.conditions[c]!)
        : [...op.payload.conditions].filter(
            (register) => !isKnown(frame, register) || frame.state[op.out] === IMPOSSIBLE,
          );
    case Opcode.rowValue:
      return isKnown(frame, op.in0) ? [op.in0, op.payload.values[num(op.in0)]!] : [op.in0];
    case Opcode.interpolate:
      return [
        op.in0,
        ...op.payload.axes,
        ...(op.payload.groups[op.in0 < 0 || !isKnown(frame, op.in0) ? 0 : num(op.in0)]?.values ?? []),
      ];
    case Opcode.candidateRows:
      return op.payload.pick.conditions.length === 0
        ? []
        : [...op.payload.pick.conditions].filter((register) => isKnown(frame, register));
    case Opcode.rowAbove:
      return [op.in0];
    case Opcode.aggregate:
    case Opcode.candidateCount:
    case Opcode.firstCandidate:
      return [op.in1];
    case Opcode.candidatesAmong:
      return [op.in1, op.in2];
    case Opcode.list:
      return [op.in0, op.in1, ...op.payload.ops.flatMap((inner) => allParts(inner))];
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
    case Opcode.not:
    case Opcode.max:
    case Opcode.min:
    case Opcode.known:
    case Opcode.band:
    case Opcode.words:
    case Opcode.copy:
      return [op.in0, op.in1, op.in2];
  }
}

/** The conditions without which another row, with another value, might have fitted. */
function needed(
  frame: Frame,
  table: PickTable,
  row: number,
  values: Int32Array | undefined,
): readonly number[] {
  let keep = [...table.conditions.keys()].filter((c) => table.rows[row]![c] !== "any" || table.firstWins);
  const fitting = (conditions: readonly number[]) =>
    table.rows.flatMap((sides, r) => {
      if (
        !conditions.every((c) => {
          const v = frame.num[table.conditions[c]!]!;
          return v !== v || allows(sides[c]!, v);
        })
      )
        return [];
      return [r];
    });
  const sameValue = (rows: readonly number[]) =>
    rows.every(
      (r) => r === row || (values !== undefined && nearly(frame.num[values[r]!]!, frame.num[values[row]!]!)),
    );
  for (const c of [...keep].reverse()) {
    const rest = keep.filter((one) => one !== c);
    const rows = fitting(rest);
    const dropped = [...table.conditions.keys()].filter((one) => !rest.includes(one));
    if (!sameValue(rows)) continue;
    const whole =
      findHole(
        dropped.map((one) => table.domains[one]!),
        rows.map((r) => dropped.map((one) => table.rows[r]![one]!)),
        5_000,
      ).is === "none";
    if (whole) keep = rest;
  }
  return keep;
}
