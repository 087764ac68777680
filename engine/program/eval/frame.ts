// A frame holds one job's registers. A register that is NaN has no value, and then its state says whether it
// waits for an answer or can have no value, and why.
import type { Reason } from "../../../core/reason.ts";
import type { PickTable } from "../plan/op.ts";
import type { Block, Plan } from "../plan/plan.ts";

export const UNKNOWN = 1;
export const IMPOSSIBLE = 2;

export interface Frame {
  num: Float64Array;
  /** Valid only where `num` is NaN. */
  state: Uint8Array;
  /** For the impossible: the register where it began. */
  cause: Int32Array;
  /** Why, by the register where it began. */
  readonly reasons: Map<number, Reason>;
  /** For a chart's pick with unanswered conditions: the rows still possible. */
  readonly possibleRows: Map<number, PossibleRows>;
  readonly lists: (ListValues | undefined)[];
  readonly candidateRows: (CandidateRows | undefined)[];
  /** Operations done so far: a job may cost only so many. */
  work: number;
}

export interface PossibleRows {
  readonly table: PickTable;
  readonly rows: readonly number[];
  /** The conditions that are open, and whether one row fits whatever they are. */
  readonly open: readonly number[];
  readonly sure: boolean;
}

interface ListValues {
  readonly count: number;
  readonly first: number;
  readonly columns: readonly Float64Array[];
  /** State and cause of the first row without a value, by column. */
  readonly trouble: readonly ({ readonly state: number; readonly cause: number } | undefined)[];
}

interface CandidateRows {
  readonly left: Uint8Array;
  readonly values: Int32Array;
}

/** The most operations that one job may cost. */
export const MAX_OPERATIONS_PER_JOB = 500_000;

/** A frame with the book's constants set and every answer unknown. */
export function newFrame(plan: Plan): Frame {
  const size = plan.registers.next + 64;
  const frame: Frame = {
    num: new Float64Array(size).fill(Number.NaN),
    state: new Uint8Array(size).fill(UNKNOWN),
    cause: new Int32Array(size),
    reasons: new Map(),
    possibleRows: new Map(),
    lists: [],
    candidateRows: [],
    work: 0,
  };
  for (const block of plan.blocks) setConstants(frame, block);
  return frame;
}

/** Sets a block's constants. */
export function setConstants(frame: Frame, block: Block): void {
  for (const { register, value } of block.constants) frame.num[register] = value;
  for (const { register, reason } of block.nothing) {
    frame.num[register] = Number.NaN;
    frame.state[register] = IMPOSSIBLE;
    frame.cause[register] = register;
    frame.reasons.set(register, reason);
  }
}

export const isKnown = (frame: Frame, register: number): boolean =>
  frame.num[register]! === frame.num[register]!;

export const stateOf = (frame: Frame, register: number): "known" | "unknown" | "impossible" =>
  isKnown(frame, register) ? "known" : frame.state[register] === IMPOSSIBLE ? "impossible" : "unknown";

export const reasonOf = (frame: Frame, register: number): Reason =>
  frame.reasons.get(frame.cause[register]!) ?? { code: "no-value" };

/** Whether a register has no value because an answer cannot be used. That is not the same as no answer. */
export const isRefused = (frame: Frame, register: number): boolean =>
  stateOf(frame, register) === "impossible" && reasonOf(frame, register).code.startsWith("answer/");

/** A frame of the same job with room for the registers that an edit has added. */
export function resizedFrame(frame: Frame, plan: Plan): Frame {
  if (frame.num.length >= plan.registers.next) return frame;
  const size = plan.registers.next + 1024;
  const num = new Float64Array(size).fill(Number.NaN);
  num.set(frame.num);
  const state = new Uint8Array(size).fill(UNKNOWN);
  state.set(frame.state);
  const cause = new Int32Array(size);
  cause.set(frame.cause);
  return { ...frame, num, state, cause };
}

export const copyFrame = (frame: Frame): Frame => ({
  ...frame,
  num: frame.num.slice(),
  state: frame.state.slice(),
  cause: frame.cause.slice(),
  reasons: new Map(frame.reasons),
  possibleRows: new Map(frame.possibleRows),
  lists: [...frame.lists],
  candidateRows: [...frame.candidateRows],
});
