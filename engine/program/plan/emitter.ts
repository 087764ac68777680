// What is made of one statement while it is compiled: operations, constants and places, and the room that is
// left for them.
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
  /** While the cells of a called chart are laid: places that stand in for the values it is read by. */
  standIns: ReadonlyMap<string, number>;
  /** While what a call lays in is laid: the place of the call, since the text is another statement's. */
  within: Span | undefined;
  room: number;
}

/** `laid`: the operations that the book has so far, which leave the less room. */
export const newEmitter = (registers: Registers, laid: number): Emitter => ({
  registers: registers,
  room: MAX_OPERATIONS - laid,
  ...blank(),
});

/** A emitter of another block of the same statement, in the room that is left. */
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

/** Lays a rule's operations and gives the place of its value. */
export type EmitRule = (emitter: Emitter, rule: Rule) => number;

/** No names stand in for others. */
export const NONE: ReadonlyMap<string, number> = new Map();

/** Thrown where the room is used up; it is caught at the statement. */
export class PlanFull extends Error {}

/** Adds an operation; throws `Full` where the room is used up. */
export function pushOperation(emitter: Emitter, op: Op): void {
  if (--emitter.room < 0) throw new PlanFull();
  emitter.ops.push(op);
  emitter.writes.push(op.out);
}

/** Puts a value where it is to stand. */
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

/** Adds an operation that needs no table, and gives its place. */
export function emit(emitter: Emitter, k: (typeof Opcode)[Plain], a: number, b: number, at: Span): number {
  const d = emitter.registers.next++;
  pushOperation(emitter, { opcode: k, out: d, in0: a, in1: b, in2: -1, payload: undefined, at } as Op);
  return d;
}

/** The place of a number that stands in the rules. */
export function constant(emitter: Emitter, value: number): number {
  const known = emitter.constants.get(value);
  if (known !== undefined) return known;
  const register = emitter.registers.next++;
  emitter.constants.set(value, register);
  return register;
}

/** Notes that the statement reads this place of another. */
export function readRegister(emitter: Emitter, register: number): number {
  emitter.inputs.add(register);
  return register;
}

/** Lays what another statement says, under the names that it knows. */
export function emitCall(
  emitter: Emitter,
  at: Span,
  locals: Map<string, number>,
  standIns: ReadonlyMap<string, number>,
  laying: () => number,
): number {
  const saved = { locals: emitter.locals, standIns: emitter.standIns, within: emitter.within };
  Object.assign(emitter, { locals, standIns, within: emitter.within ?? at });
  const register = laying();
  Object.assign(emitter, saved);
  return register;
}
