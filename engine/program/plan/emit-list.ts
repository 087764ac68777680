// A list as one operation that holds the operations of its rows.
import type { Span } from "../../../core/span.ts";
import { beforeName } from "../../language/check/before.ts";
import type { Entry } from "../../language/check/book.ts";
import { emitExpression } from "./emit-expression.ts";
import { type Emitter, emit, pushOperation } from "./emitter.ts";
import { Opcode, type Op, extraReads } from "./op.ts";
import { listName, registerOf } from "./registers.ts";

/** `at` is where traces point for the list as a whole. */
export function emitList(
  emitter: Emitter,
  list: NonNullable<Entry["checked"]["list"]>,
  name: string,
  slot: number,
  at: Span,
): void {
  const a = emitExpression(emitter, list.from);
  const b = emitExpression(emitter, list.to);
  const counter = emitter.registers.next++;
  emitter.locals.set(list.counter, counter);
  const above = new Map(list.above.map((column) => [column, emitter.registers.next++]));
  const first = above.size === 0 ? -1 : emitter.registers.next++;
  for (const [column, register] of above) emitter.locals.set(beforeName(column), register);
  const before = emitter.ops;
  emitter.ops = [];
  const columns = list.columns.map((column) => {
    let register = emitExpression(emitter, column.rule);
    // A column that only repeats another one of the row above needs a register of its own, or the next row
    // would find it changed.
    if ([...above.values()].includes(register))
      register = emit(emitter, Opcode.copy, register, -1, column.rule.at);
    emitter.locals.set(column.name, register);
    return register;
  });
  const body = emitter.ops;
  emitter.ops = before;
  emitter.locals.clear();
  // What a row reads from another list is the same for every row: it runs once, before the list.
  const still = new Set([counter, ...above.values()]);
  const inner: Op[] = [];
  for (const op of body) {
    const moves =
      [op.in0, op.in1, op.in2].some((register) => still.has(register)) && op.opcode !== Opcode.aggregate;
    const reads = extraReads(op).some((register) => still.has(register));
    if (moves || reads) {
      inner.push(op);
      still.add(op.out);
    } else emitter.ops.push(op);
  }
  const written = new Set(inner.map((op) => op.out));
  const reads = Int32Array.from(
    new Set(
      above.size === 0
        ? []
        : inner
            .flatMap((op) => [op.in0, op.in1, op.in2, ...extraReads(op)])
            .filter((register) => register >= 0 && !written.has(register) && !still.has(register)),
    ),
  );
  const rowsAbove = [...above].map(
    ([column, register]): Op => ({
      opcode: Opcode.rowAbove,
      out: register,
      in0: columns[list.columns.findIndex((one) => one.name === column)]!,
      in1: first,
      in2: -1,
      payload: { list: name, reads },
      at,
    }),
  );
  pushOperation(emitter, {
    opcode: Opcode.list,
    out: registerOf(emitter.registers, listName(name)),
    in0: a,
    in1: b,
    in2: -1,
    payload: { name, counter, first, ops: [...rowsAbove, ...inner], columns: Int32Array.from(columns), slot },
    at,
  });
}
