// What a register is when it holds no number: unknown or impossible, and why.
import { nearly } from "../../../core/number.ts";
import type { Reason } from "../../../core/reason.ts";
import { Opcode, type Op } from "../plan/op.ts";
import { type Frame, IMPOSSIBLE, UNKNOWN, isKnown } from "./frame.ts";

/** Marks a register as impossible, for this reason. Returns NaN. */
export function impossible(frame: Frame, register: number, reason: Reason): number {
  frame.state[register] = IMPOSSIBLE;
  frame.cause[register] = register;
  frame.reasons.set(register, reason);
  return Number.NaN;
}

/** Gives a register the state and the cause of another one without a value. Returns NaN. */
export function sameState(frame: Frame, register: number, from: number): number {
  frame.state[register] = frame.state[from]!;
  frame.cause[register] = frame.cause[from]!;
  return Number.NaN;
}

/**
 * An operation that needs all its operands: impossible if one is, else unknown if one is, else a fault of its
 * own.
 */
export function strict(frame: Frame, op: Op): void {
  let unknown = false;
  for (const register of [op.in0, op.in1, op.in2]) {
    if (register < 0 || isKnown(frame, register)) continue;
    if (frame.state[register] === IMPOSSIBLE) {
      sameState(frame, op.out, register);
      return;
    }
    unknown = true;
  }
  if (unknown) frame.state[op.out] = UNKNOWN;
  else impossible(frame, op.out, { code: faultCode(frame, op) });
}

/** `and` and `or`: an unknown operand may still settle it, so unknown comes before impossible. */
export function loose(frame: Frame, op: Op): void {
  const open = [op.in0, op.in1].filter((register) => !isKnown(frame, register));
  sameState(frame, op.out, open.find((register) => frame.state[register] === UNKNOWN) ?? open[0]!);
}

type ArithmeticFault =
  | "divides-by-zero"
  | "too-large"
  | "root-of-negative"
  | "log-of-nonpositive"
  | "fractional-power-of-negative"
  | "rounds-to-nothing";

/** Why an operation on known numbers has no finite outcome. */
function faultCode(frame: Frame, op: Op): ArithmeticFault {
  const x = op.in0 >= 0 ? frame.num[op.in0]! : 0;
  switch (op.opcode) {
    case Opcode.div:
      return frame.num[op.in1] === 0 ? "divides-by-zero" : "too-large";
    case Opcode.fn:
      return op.payload === "sqrt"
        ? "root-of-negative"
        : op.payload === "ln" || op.payload === "log10"
          ? "log-of-nonpositive"
          : "too-large";
    case Opcode.pow:
      return x === 0 ? "divides-by-zero" : x < 0 ? "fractional-power-of-negative" : "too-large";
    case Opcode.round:
      return "rounds-to-nothing";
    case Opcode.add:
    case Opcode.sub:
    case Opcode.mul:
    case Opcode.neg:
    case Opcode.lt:
    case Opcode.le:
    case Opcode.eq:
    case Opcode.ne:
    case Opcode.and:
    case Opcode.or:
    case Opcode.not:
    case Opcode.max:
    case Opcode.min:
    case Opcode.select:
    case Opcode.known:
    case Opcode.band:
    case Opcode.words:
    case Opcode.pick:
    case Opcode.rowValue:
    case Opcode.interpolate:
    case Opcode.candidateRows:
    case Opcode.candidateCount:
    case Opcode.firstCandidate:
    case Opcode.candidatesAmong:
    case Opcode.list:
    case Opcode.aggregate:
    case Opcode.copy:
    case Opcode.rowAbove:
      return "too-large";
  }
}

/** A `select` whose condition is open: that does not matter where both alternatives are the same. */
export function either(frame: Frame, { in0: when, in1: yes, in2: no, out: register }: Op): number {
  if (frame.state[when] === IMPOSSIBLE) return sameState(frame, register, when);
  const [x, y] = [frame.num[yes]!, frame.num[no]!];
  if (x === x && y === y && nearly(x, y)) return x;
  if (x !== x && y !== y && frame.state[yes] === IMPOSSIBLE && frame.state[no] === IMPOSSIBLE)
    return sameState(frame, register, yes);
  frame.state[register] = UNKNOWN;
  return Number.NaN;
}
