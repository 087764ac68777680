// A plan: one block of operations for each statement, in the order of work. Blocks name places of a frame
// that are handed out once and kept by name, so that after an edit every block but the changed ones serves as
// it is.
import type { Reason } from "../../../core/reason.ts";
import type { Type } from "../../../core/type.ts";
import type { Unit } from "../../../core/unit.ts";
import type { CheckedBook, Entry } from "../../language/check/book.ts";
import type { Op } from "./op.ts";

export interface Plan {
  readonly checked: CheckedBook;
  /** In the order of work. */
  readonly blocks: readonly Block[];
  readonly byId: ReadonlyMap<string, Block>;
  readonly registers: Registers;
  /** Places of the yes-no of each stop, in book order, with the block's id. */
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
  /** Places that never have a value, and why. */
  readonly nothing: readonly { readonly register: number; readonly reason: Reason }[];
  /** Places of other statements that it reads. */
  readonly inputs: Int32Array;
  /** Where its value is; one for each value column of a chart; empty for lists. */
  readonly outputs: Int32Array;
  /** All places that it writes. */
  readonly writes: Int32Array;
  readonly slot: number;
  /** For a line: whether it holds, its time and its wait; -1 where it has none. */
  readonly when: number;
  readonly takes: number;
  readonly waits: number;
  /**
   * The operations of its texts, as a block that is worked after all others; without one where its texts only
   * name values.
   */
  readonly worded?: Block;
  readonly texts: { readonly title?: Template; readonly because?: Template; readonly takeBecause?: Template };
  readonly values: readonly Value[];
  /**
   * For an ask: where the answer is put, and where "cannot tell" is (0 or 1, or -1 where the book takes
   * nothing).
   */
  readonly answer: number;
  readonly cannotTell: number;
  readonly pictures: readonly PictureArgument[];
}

/** An argument of a drawing: where its value is, and for a list where its rows are. */
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

/** Places handed out so far; shared by all editions of a book that come of one another. */
export interface Registers {
  next: number;
  nextSlot: number;
  readonly byName: Map<string, number>;
  readonly slots: Map<string, number>;
  /** Place → the statement's name (and column) whose value it is. */
  readonly owner: Map<number, string>;
  /** Templates of text values; a place holds the number. */
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
