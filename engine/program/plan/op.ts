// The plan's operations. A plan is a flat list of them; each reads numbered places (registers) of a frame and
// writes one. A place holds a number: SI for amounts, a word's place in its kind, 0 or 1 for yes-no, a
// template's number for a text. Every reading walks these same operations and none has rules of its own.
//
// All operations share one shape (k, d, a, b, c, x), so that a reading's inner loop stays quick.
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
  /** Where the outcome goes. */
  readonly out: number;
  readonly in0: number;
  readonly in1: number;
  readonly in2: number;
  readonly payload: X;
  /** Place in the text of the statement that the rule was written in. */
  readonly at: Span;
}

/** a, b (and c) are the places read; -1 where there is none. */
export type Op =
  | Base<
      "add" | "sub" | "mul" | "div" | "pow" | "lt" | "le" | "eq" | "ne" | "and" | "or" | "max" | "min",
      undefined
    >
  | Base<"neg" | "not" | "known" | "copy", undefined>
  | Base<"fn", FunctionName>
  /** a rounded to multiples of b counted from `base`. */
  | Base<"round", { readonly way: RoundWay; readonly base: number }>
  /** a known yes: b, known no: c, unknown: either if they agree. */
  | Base<"select", undefined>
  /** a within b (or -1) and c (or -1). */
  | Base<"band", { readonly lowIn: boolean; readonly highIn: boolean }>
  /** Whether word a is in the set. */
  | Base<"words", { readonly words: Uint8Array }>
  /** The row of the chart that fits: its place in `rows`. */
  | Base<"pick", PickTable>
  /** The value of the row picked at a. */
  | Base<"rowValue", { readonly values: Int32Array }>
  | Base<"interpolate", InterpolationTable>
  /** Which rows are left; the count of different values. */
  | Base<"candidateRows", CandidateTable>
  | Base<"candidateCount" | "firstCandidate", undefined>
  | Base<"candidatesAmong", undefined>
  /** n from a to b. */
  | Base<"list", ListBody>
  /**
   * In a list: a in the row above; none in the first row, where b is 1. `reads`: all that the rows read from
   * outside.
   */
  | Base<"rowAbove", { readonly list: string; readonly reads: Int32Array }>
  | Base<
      "aggregate",
      { readonly what: "sum" | "largest" | "smallest" | "count" | "first" | "last"; readonly column: number }
    >;

export interface PickTable {
  readonly name: string;
  /** Places of the conditions. */
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
  /** Row numbers as written, for the trace. */
  readonly written: Int32Array;
}

export interface InterpolationTable {
  readonly name: string;
  readonly curve: boolean;
  readonly hold: boolean;
  /** Places of the one or two conditions gone between. */
  readonly axes: Int32Array;
  /** Place of the picked group, or -1 where there is but one. */
  readonly groups: readonly InterpolationGroup[];
}

export interface InterpolationGroup {
  readonly xs: Float64Array;
  /** One entry, [0], for charts over one number. */
  readonly ys: Float64Array;
  /** Places of the values: `values[i * ys.length + j]` at xs[i], ys[j]. */
  readonly values: Int32Array;
  /** Written row of each value, for the trace. */
  readonly written: Int32Array;
}

export interface CandidateTable {
  readonly pick: PickTable;
  readonly values: Int32Array;
  /** Slot of the frame in which the rows that are left are kept. */
  readonly slot: number;
}

export interface ListBody {
  readonly name: string;
  readonly counter: number;
  /**
   * Where it stands whether a row is the first (1), or one of many taken together (2); -1 where no rule looks
   * at the row above.
   */
  readonly first: number;
  readonly ops: readonly Op[];
  readonly columns: Int32Array;
  readonly slot: number;
}

/** The most rows that a list may have. */
export const MAX_LIST_ROWS = 10_000;

/** Places that an operation reads through its table. */
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
