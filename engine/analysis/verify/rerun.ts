// Which operations of a slice are run again where only some of its answers, or of the assumed relations, are
// others than in the run before. The rest of the spans are still there.
import { Opcode, type Op } from "../../program/plan/op.ts";
import type { Box } from "./box.ts";
import { asksByRegister } from "./open-questions.ts";
import type { Slice } from "./slice.ts";

export class Rerun {
  readonly #slice: Slice;
  /** By ask: the places in `slice.ops` of all operations that rest on it. */
  readonly #byAsk: readonly (readonly number[])[];
  /** The same for operations that rest on a comparison of two values. */
  readonly #byPair: readonly number[];
  readonly #marked: Uint8Array;

  constructor(slice: Slice) {
    this.#slice = slice;
    this.#marked = new Uint8Array(slice.ops.length);
    const asks = asksByRegister(slice);
    const byAsk: number[][] = slice.asks.map(() => []);
    const byPair: number[] = [];
    const comparing = 1n << BigInt(slice.asks.length);
    const rests = new Map<number, bigint>();
    for (const [register, i] of asks) rests.set(register, 1n << BigInt(i));
    slice.ops.forEach((op, n) => {
      let on = COMPARING.has(op.opcode) ? comparing : 0n;
      for (const part of partsInside(slice, op)) on |= rests.get(part) ?? 0n;
      if (op.opcode === Opcode.list && op.payload.ops.some((inner) => COMPARING.has(inner.opcode)))
        on |= comparing;
      // A register that stands for an answer as well is that of an ask with a fallback.
      rests.set(op.out, on | (rests.get(op.out) ?? 0n));
      byAsk.forEach((ops, i) => {
        if ((on >> BigInt(i)) & 1n) ops.push(n);
      });
      if ((on & comparing) !== 0n) byPair.push(n);
    });
    this.#byAsk = byAsk;
    this.#byPair = byPair;
  }

  /** The operations to run for `box`, where the run before was for `last`. */
  opsFor(box: Box, last: Box): readonly Op[] {
    const changed = box.ranges.flatMap((range, i) => (range === last.ranges[i] ? [] : [this.#byAsk[i]!]));
    if (!sameRelations(box, last)) changed.push(this.#byPair);
    const { ops } = this.#slice;
    const [only] = changed;
    if (only === undefined) return [];
    if (changed.length === 1) return only.map((n) => ops[n]!);
    this.#marked.fill(0);
    for (const places of changed) for (const n of places) this.#marked[n] = 1;
    return ops.filter((_, n) => this.#marked[n] === 1);
  }
}

const COMPARING: ReadonlySet<number> = new Set([Opcode.lt, Opcode.le, Opcode.eq, Opcode.ne]);

/** All places that an operation reads, those of a list's rows too. */
const partsInside = ({ graph }: Slice, op: Op): readonly number[] =>
  op.opcode === Opcode.list
    ? [...graph.parts[op.out]!, ...op.payload.ops.flatMap((inner) => graph.parts[inner.out]!)]
    : graph.parts[op.out]!;

function sameRelations({ relations }: Box, last: Box): boolean {
  if (relations === last.relations) return true;
  if (relations.size !== last.relations.size) return false;
  for (const [key, how] of relations) if (last.relations.get(key) !== how) return false;
  return true;
}
