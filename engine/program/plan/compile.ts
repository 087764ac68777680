// From checked statements to a plan: a block for each statement in evaluation order. A block of the plan
// before is kept where nothing it depends on has changed.
import { type CheckedBook, STEPS, STOPPED } from "../../language/check/book.ts";
import { statementKind } from "./statement-kind.ts";
import { emitStepTotals, emitStopped } from "./emit-totals.ts";
import { type Block, type Plan, newRegisters } from "./plan.ts";
import { emitStatement, keyOf } from "./emit-statement.ts";

/** The plan of a checked book; `before` is the plan of the same book before an edit. */
export function compileBook(checked: CheckedBook, before?: Plan): Plan {
  const registers =
    before !== undefined && before.registers.next < 50_000 + 6 * checked.entries.length * 40
      ? before.registers
      : newRegisters();
  const reuse = before?.registers === registers ? before.byId : new Map<string, Block>();
  const blocks: Block[] = [];
  const byId = new Map<string, Block>();
  const late: Block[] = [];
  let operations = 0;
  for (const i of checked.order) {
    if (i === STEPS) {
      const steps = emitStepTotals(checked, registers, byId, reuse.get("steps"));
      if (steps === undefined) continue;
      blocks.push(steps);
      byId.set(steps.id, steps);
      continue;
    }
    if (i === STOPPED) {
      const stops = emitStopped(checked, registers, reuse.get("stopped"));
      blocks.push(stops);
      byId.set(stops.id, stops);
      continue;
    }
    const entry = checked.entries[i]!;
    const old = reuse.get(entry.id);
    const block =
      old !== undefined &&
      old.entry.checked === entry.checked &&
      old.entry.texts === entry.texts &&
      old.key === keyOf(checked, i, operations)
        ? old.entry === entry
          ? old
          : { ...old, entry }
        : emitStatement(entry, checked, i, registers, operations);
    operations += block.ops.length + (block.worded?.ops.length ?? 0);
    blocks.push(block);
    byId.set(entry.id, block);
    if (block.worded !== undefined) late.push(block.worded);
  }
  // A text may name a value that is evaluated after its statement, so texts come last.
  for (const block of late) {
    blocks.push(block);
    byId.set(block.id, block);
  }
  // A stop, step or caution that cannot be read still counts: nothing is released past a stop that nobody
  // understood.
  const of = (keyword: string) =>
    checked.entries.flatMap((entry) => (statementKind(entry) === keyword ? [byId.get(entry.id)!] : []));
  return {
    checked,
    blocks,
    byId,
    registers,
    stops: of("stop"),
    steps: of("step"),
    cautions: of("caution"),
    promises: of("promise"),
  };
}
