// Builds the block of a statement from what was emitted.
import type { Entry } from "../../language/check/book.ts";
import type { Emitter } from "./emitter.ts";
import type { Block, Value } from "./plan.ts";

/** The registers of a statement's value and conditions; absent where it has none. */
export interface Parts {
  readonly outputs?: readonly number[];
  readonly when?: number;
  readonly takes?: number;
  readonly waits?: number;
  readonly answer?: number;
  readonly cannotTell?: number;
  readonly slot?: number;
  readonly values?: readonly Value[];
  readonly pictures?: Block["pictures"];
}

/** What was emitted, as the block that a plan holds. */
export function blockOf(emitter: Emitter, entry: Entry, key: string, parts: Parts): Block {
  return {
    id: entry.id,
    entry,
    key,
    ops: emitter.ops,
    texts: {},
    constants: [...emitter.constants].map(([value, register]) => ({ register, value })),
    nothing: emitter.nothing,
    inputs: numbers(emitter.inputs, emitter.inputs.size),
    outputs: numbers(parts.outputs ?? [], parts.outputs?.length ?? 0),
    writes: numbers(emitter.writes, emitter.writes.length),
    slot: parts.slot ?? -1,
    when: parts.when ?? -1,
    takes: parts.takes ?? -1,
    waits: parts.waits ?? -1,
    answer: parts.answer ?? -1,
    cannotTell: parts.cannotTell ?? -1,
    values: parts.values ?? [],
    pictures: parts.pictures ?? [],
  };
}

/** In place of a statement where a block belongs to none, or to several. */
export const apartFrom = (id: string): Entry => ({ id, texts: { faults: [] } }) as unknown as Entry;

/** Like Int32Array.from, which takes ten times as long for the few numbers of a block. */
function numbers(of: Iterable<number>, count: number): Int32Array {
  if (count === 0) return NO_REGISTERS;
  const made = new Int32Array(count);
  let i = 0;
  for (const one of of) made[i++] = one;
  return made;
}

const NO_REGISTERS = new Int32Array(0);
