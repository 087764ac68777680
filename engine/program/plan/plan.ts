// A plan: one block of operations for each statement, in evaluation order. The registers that blocks name are
// allocated once and kept by name, so that after an edit all unchanged blocks stay as they are.
import type { Reason } from "../../../core/reason.ts";
import type { Type } from "../../../core/type.ts";
import type { Unit } from "../../../core/unit.ts";
import type { CheckedBook, Entry } from "../../language/check/book.ts";
import type { Op } from "./op.ts";

export interface Plan {
  readonly checked: CheckedBook;
  /** In evaluation order. */
  readonly blocks: readonly Block[];
  readonly byId: ReadonlyMap<string, Block>;
  readonly registers: Registers;
  /** The blocks of all stops, in book order. */
  readonly stops: readonly Block[];
  readonly steps: readonly Block[];
  readonly cautions: readonly Block[];
  readonly promises: readonly Block[];
}

export interface Block {
  readonly id: string;
  readonly entry: Entry;
  /** Same inputs, same block: what an edit compares. */
  readonly key: string;
  readonly ops: readonly Op[];
  /** Constants, set once when a frame is made or the block is new. */
  readonly constants: readonly { readonly register: number; readonly value: number }[];
  /** Registers that never have a value, and why. */
  readonly nothing: readonly { readonly register: number; readonly reason: Reason }[];
  /** Registers of other statements that it reads. */
  readonly inputs: Int32Array;
  /** Where its value is; one for each value column of a chart; empty for lists. */
  readonly outputs: Int32Array;
  /** All registers that it writes. */
  readonly writes: Int32Array;
  readonly slot: number;
  /** For a line: whether it holds, its time and its wait; -1 where it has none. */
  readonly when: number;
  readonly takes: number;
  readonly waits: number;
  /**
   * The operations of its texts, as a block that runs after all others; absent where its texts only name
   * values.
   */
  readonly worded?: Block;
  readonly texts: {
    readonly title?: Template;
    readonly because?: Template;
    readonly then?: Template;
    readonly takeBecause?: Template;
    readonly blankBecause?: Template;
  };
  readonly values: readonly Value[];
  /**
   * For an ask: the register of the answer, and that of "cannot tell" (0 or 1; -1 where the book takes
   * nothing).
   */
  readonly answer: number;
  readonly cannotTell: number;
  readonly pictures: readonly PictureArgument[];
}

/** An argument of a drawing: its value, and for a list the slot of its rows. */
export interface PictureArgument {
  readonly name: string;
  /** The value's own name, or the rule as written. */
  readonly of: string;
  readonly value: Value;
  readonly slot: number;
}

/** Where a value is and how it is written. */
export interface Value {
  readonly register: number;
  readonly type: Type;
  readonly unit: Unit | undefined;
}

export interface Template {
  readonly pieces: readonly (string | (Value & { readonly name?: string }))[];
}

/** Registers allocated so far; shared by all versions of a book while it is edited. */
export interface Registers {
  next: number;
  nextSlot: number;
  readonly byName: Map<string, number>;
  readonly slots: Map<string, number>;
  /** Register → the statement's name (and column) whose value it holds. */
  readonly owner: Map<number, string>;
  /** Templates of text values; a register holds the index. */
  readonly templates: Template[];
}

export const newRegisters = (): Registers => ({
  next: 1,
  nextSlot: 0,
  byName: new Map(),
  slots: new Map(),
  owner: new Map(),
  templates: [],
});
