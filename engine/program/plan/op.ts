// The plan's operations. A plan is a flat list of them. Each reads numbered registers of a frame and writes
// one. A register holds a number: SI for amounts, a word's index in its kind, 0 or 1 for yes-no, a template's
// number for a text. The evaluator, the intervals and the traces all run these same operations.
//
// All operations share one shape (opcode, in0 to in2, out, payload), so that inner loops stay fast.
import type { Side } from "../../../core/box.ts";
import type { Domain } from "../../../core/box.ts";
import type { RoundWay } from "../../../core/number.ts";
import type { Span } from "../../../core/span.ts";
import type { FunctionName } from "../../language/check/rule.ts";

export const Opcode = {
  add: 0,
  sub: 1,
  mul: 2,
  div: 3,
  pow: 4,
  neg: 5,
  fn: 6,
  round: 7,
  lt: 8,
  le: 9,
  eq: 10,
  ne: 11,
  and: 12,
  or: 13,
  not: 14,
  max: 15,
  min: 16,
  select: 17,
  known: 18,
  band: 19,
  words: 20,
  pick: 21,
  rowValue: 22,
  interpolate: 23,
  candidateRows: 24,
  candidateCount: 25,
  firstCandidate: 26,
  candidatesAmong: 27,
  list: 28,
  aggregate: 29,
  copy: 30,
  rowAbove: 31,
} as const;

interface Base<N extends keyof typeof Opcode, X> {
  readonly opcode: (typeof Opcode)[N];
  /** The register of the outcome. */
  readonly out: number;
  readonly in0: number;
  readonly in1: number;
  readonly in2: number;
  readonly payload: X;
  /** Where in its statement the rule was written. */
  readonly at: Span;
}

/** in0, in1 and in2 are the registers read; -1 where there is none. */
export type Op =
  | Base<
      "add" | "sub" | "mul" | "div" | "pow" | "lt" | "le" | "eq" | "ne" | "and" | "or" | "max" | "min",
      undefined
    >
  | Base<"neg" | "not" | "known", undefined>
  /** in0, where in1 (or -1) has a value too: a text has one where the values in it do. */
  | Base<"copy", undefined>
  | Base<"fn", FunctionName>
  /** in0 rounded to multiples of in1 counted from `base`. */
  | Base<"round", { readonly way: RoundWay; readonly base: number }>
  /** in0 is yes: in1; no: in2; unknown: either if they agree. */
  | Base<"select", undefined>
  /** in0 between in1 (or -1) and in2 (or -1). */
  | Base<"band", { readonly lowIn: boolean; readonly highIn: boolean }>
  /** Whether the word in0 is in the set. */
  | Base<"words", { readonly words: Uint8Array }>
  /** The row of the chart that applies: its index in `rows`. */
  | Base<"pick", PickTable>
  /** The value of the row picked in in0. */
  | Base<"rowValue", { readonly values: Int32Array }>
  | Base<"interpolate", InterpolationTable>
  /** The candidate rows; the count of their different values. */
  | Base<"candidateRows", CandidateTable>
  | Base<"candidateCount" | "firstCandidate", undefined>
  | Base<"candidatesAmong", undefined>
  /** A row for each number from in0 to in1. */
  | Base<"list", ListBody>
  /**
   * In a list: in0 in the row above; none in the first row, where in1 is 1. `reads`: all registers that the
   * rows read from outside.
   */
  | Base<"rowAbove", { readonly list: string; readonly reads: Int32Array }>
  | Base<
      "aggregate",
      { readonly what: "sum" | "largest" | "smallest" | "count" | "first" | "last"; readonly column: number }
    >;

export interface PickTable {
  readonly name: string;
  /** Registers of the conditions. */
  readonly conditions: Int32Array;
  readonly domains: readonly Domain[];
  readonly rows: readonly (readonly Side[])[];
  /** Flattened tests for known answers: row by row, condition by condition. */
  readonly lows: Float64Array;
  readonly highs: Float64Array;
  /** Where a cell is more than one stretch, or a set of words, it is looked up here instead. */
  readonly odd: readonly (Side | undefined)[];
  readonly hasOdd: boolean;
  readonly firstWins: boolean;
  /** Two rows can apply at once, and the chart does not say which one counts. */
  readonly mayClash: boolean;
  /** Row numbers as written, for the trace. */
  readonly written: Int32Array;
}

export interface InterpolationTable {
  readonly name: string;
  readonly curve: boolean;
  readonly hold: boolean;
  /** Registers of the one or two conditions that are interpolated over. */
  readonly axes: Int32Array;
  /** By the row of the operation that picks the group; a single one where nothing is picked. */
  readonly groups: readonly InterpolationGroup[];
}

export interface InterpolationGroup {
  readonly xs: Float64Array;
  /** One entry, [0], for charts over one number. */
  readonly ys: Float64Array;
  /** Registers of the values: `values[i * ys.length + j]` at xs[i], ys[j]. */
  readonly values: Int32Array;
  /** Written row of each value, for the trace. */
  readonly written: Int32Array;
}

export interface CandidateTable {
  readonly pick: PickTable;
  readonly values: Int32Array;
  /** Slot of the frame that holds the candidate rows. */
  readonly slot: number;
}

export interface ListBody {
  readonly name: string;
  readonly counter: number;
  /**
   * The register that says whether a row is the first (1), or one of many taken together (2); -1 where no
   * rule reads the row above.
   */
  readonly first: number;
  readonly ops: readonly Op[];
  readonly columns: Int32Array;
  readonly slot: number;
}

/** The most rows that a list may have. */
export const MAX_LIST_ROWS = 10_000;

/** Registers that an operation reads through its payload. */
export function extraReads(op: Op): readonly number[] {
  switch (op.opcode) {
    case Opcode.pick:
      return [...op.payload.conditions];
    case Opcode.rowValue:
      return [...op.payload.values];
    case Opcode.interpolate:
      return [...op.payload.axes, ...op.payload.groups.flatMap((group) => [...group.values])];
    case Opcode.candidateRows:
      return [...op.payload.pick.conditions, ...op.payload.values];
    case Opcode.list:
      return [...op.payload.columns];
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
    case Opcode.select:
    case Opcode.known:
    case Opcode.band:
    case Opcode.words:
    case Opcode.candidateCount:
    case Opcode.firstCandidate:
    case Opcode.candidatesAmong:
    case Opcode.aggregate:
    case Opcode.copy:
    case Opcode.rowAbove:
      return [];
  }
}
