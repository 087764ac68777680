// Totals over all lines: whether the job is stopped, how many steps apply and how long they take.
import type { CheckedBook } from "../../language/check/book.ts";
import type { OfSteps } from "../../language/check/rule.ts";
import { apartFrom, blockOf } from "./block.ts";
import { constant, emitCopy, emit, newEmitter, pushOperation, readRegister } from "./emitter.ts";
import { statementKind } from "./statement-kind.ts";
import { Opcode } from "./op.ts";
import { STOPPED_NAME, registerOf, stepsName } from "./registers.ts";
import type { Block, Registers } from "./plan.ts";

/** `stopped` is yes when any stop holds: one block after all of them. */
export function emitStopped(checked: CheckedBook, registers: Registers, old: Block | undefined): Block {
  // The same stops as before: the block stays, and so do the proofs about what depends on it.
  const key = checked.entries
    .flatMap((entry) => (statementKind(entry) === "stop" ? [registerOf(registers, entry.id)] : []))
    .join();
  if (old?.key === key) return old;
  const emitter = newEmitter(registers, 0);
  const register = registerOf(registers, STOPPED_NAME);
  const stops = checked.entries.flatMap((entry) =>
    statementKind(entry) === "stop" ? [readRegister(emitter, registerOf(registers, entry.id))] : [],
  );
  const any = stops.reduce(
    (a, b) => emit(emitter, Opcode.or, a, b, { start: 0, end: 0 }),
    constant(emitter, 0),
  );
  emitCopy(emitter, register, any, { start: 0, end: 0 });
  return blockOf(emitter, apartFrom("stopped"), key, { outputs: [register], when: register });
}

/**
 * How many steps apply, and how long they take and wait in total: one block after all of them; none where no
 * rule reads it.
 */
export function emitStepTotals(
  checked: CheckedBook,
  registers: Registers,
  byId: ReadonlyMap<string, Block>,
  old: Block | undefined,
): Block | undefined {
  if (checked.byName.has("steps") || !checked.entries.some((entry) => entry.statement.uses.includes("steps")))
    return undefined;
  const steps = checked.entries.flatMap((entry) =>
    statementKind(entry) === "step"
      ? [{ when: registerOf(registers, entry.id), block: byId.get(entry.id) }]
      : [],
  );
  const key = steps
    .map(({ when, block }) => (block === undefined ? `${when}` : `${when} ${block.takes} ${block.waits}`))
    .join();
  if (old?.key === key) return old;
  const emitter = newEmitter(registers, 0);
  const at = { start: 0, end: 0 };
  const whats: readonly OfSteps[] = ["count", "takes", "waits"];
  const outputs = whats.map((what) => {
    const register = registerOf(registers, stepsName(what));
    const all = steps.map(({ when, block }) => {
      const applies = readRegister(emitter, when);
      if (what === "count") return applies;
      const time = block?.[what] ?? -1;
      // A step that does not apply takes no time, whether its time is known or not.
      const own = time < 0 ? constant(emitter, 0) : readRegister(emitter, time);
      const d = registers.next++;
      pushOperation(emitter, {
        opcode: Opcode.select,
        out: d,
        in0: applies,
        in1: own,
        in2: constant(emitter, 0),
        payload: undefined,
        at,
      });
      return d;
    });
    emitCopy(
      emitter,
      register,
      all.length === 0 ? constant(emitter, 0) : all.reduce((a, b) => emit(emitter, Opcode.add, a, b, at)),
      at,
    );
    return register;
  });
  return blockOf(emitter, apartFrom("steps"), key, { outputs });
}
