// The state while one statement is compiled: its operations, constants and registers so far, and the room
// that is left.
import type { Reason } from "../../../core/reason.ts";
import type { Span } from "../../../core/span.ts";
import type { Rule } from "../../language/check/rule.ts";
import { Opcode, type Op } from "./op.ts";
import type { Registers } from "./plan.ts";

/**
 * A plan beyond this many operations is refused; formulas within formulas could otherwise grow without end.
 */
export const MAX_OPERATIONS = 400_000;

/** One emitter for each block while it is made; its parts become the block's. */
export interface Emitter {
  readonly registers: Registers;
  ops: Op[];
  readonly constants: Map<number, number>;
  readonly nothing: { register: number; reason: Reason }[];
  readonly inputs: Set<number>;
  readonly writes: number[];
  locals: Map<string, number>;
  /** While the cells of a called chart are emitted: registers in place of the values it is read by. */
  standIns: ReadonlyMap<string, number>;
  /** While a call is inlined: where the call is in the text, since the rule is another statement's. */
  within: Span | undefined;
  room: number;
}

/** `operations`: how many the book has so far. They use up the room. */
export const newEmitter = (registers: Registers, operations: number): Emitter => ({
  registers,
  room: MAX_OPERATIONS - operations,
  ...blank(),
});

/** An emitter for another block of the same statement, in the room that is left. */
export const siblingEmitter = (emitter: Emitter): Emitter => ({ ...emitter, ...blank() });

const blank = (): Omit<Emitter, "registers" | "room"> => ({
  ops: [],
  constants: new Map(),
  nothing: [],
  inputs: new Set(),
  writes: [],
  locals: new Map(),
  standIns: NONE,
  within: undefined,
});

/** Emits a rule's operations and returns the register of its value. */
export type EmitRule = (emitter: Emitter, rule: Rule) => number;

/** No names stand in for others. */
export const NONE: ReadonlyMap<string, number> = new Map();

/** Thrown where the room is used up; it is caught at the statement. */
export class PlanFull extends Error {}

/** Adds an operation; throws `PlanFull` where the room is used up. */
export function pushOperation(emitter: Emitter, op: Op): void {
  if (--emitter.room < 0) throw new PlanFull();
  emitter.ops.push(op);
  emitter.writes.push(op.out);
}

/** Copies a value into its register. */
export const emitCopy = (emitter: Emitter, d: number, from: number, at: Span): void =>
  pushOperation(emitter, {
    opcode: Opcode.copy,
    out: d,
    in0: from,
    in1: -1,
    in2: -1,
    payload: undefined,
    at,
  });

type Plain =
  | "add"
  | "sub"
  | "mul"
  | "div"
  | "pow"
  | "lt"
  | "le"
  | "eq"
  | "ne"
  | "and"
  | "or"
  | "max"
  | "min"
  | "neg"
  | "not"
  | "known"
  | "copy";

/** Adds an operation without a payload and returns its register. */
export function emit(emitter: Emitter, k: (typeof Opcode)[Plain], a: number, b: number, at: Span): number {
  const d = emitter.registers.next++;
  pushOperation(emitter, { opcode: k, out: d, in0: a, in1: b, in2: -1, payload: undefined, at } as Op);
  return d;
}

/** The register of a constant. */
export function constant(emitter: Emitter, value: number): number {
  const known = emitter.constants.get(value);
  if (known !== undefined) return known;
  const register = emitter.registers.next++;
  emitter.constants.set(value, register);
  return register;
}

/** Notes that the statement reads this register of another. */
export function readRegister(emitter: Emitter, register: number): number {
  emitter.inputs.add(register);
  return register;
}

/** Inlines another statement's rule, with the names that it knows. */
export function emitCall(
  emitter: Emitter,
  at: Span,
  locals: Map<string, number>,
  standIns: ReadonlyMap<string, number>,
  emitBody: () => number,
): number {
  const saved = { locals: emitter.locals, standIns: emitter.standIns, within: emitter.within };
  Object.assign(emitter, { locals, standIns, within: emitter.within ?? at });
  const register = emitBody();
  Object.assign(emitter, saved);
  return register;
}
