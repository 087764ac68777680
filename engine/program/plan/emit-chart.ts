// The statement of a chart: its values where they are read, or its rows that are left.
import type { Entry } from "../../language/check/book.ts";
import type { Parts } from "./block.ts";
import { layRows, wholeTable } from "./emit-chart-rows.ts";
import { lay } from "./emit-expression.ts";
import { type Maker, push } from "./emitter.ts";
import { K } from "./op.ts";
import { slotOf } from "./registers.ts";
import type { Value } from "./plan.ts";

/** `mine` gives the place of a value column; `first`: whether it is the first statement of its name. */
export function chartInto(maker: Maker, entry: Entry, mine: (column?: number) => number, looped: boolean, first: boolean): Parts {
  const { chart, signature } = entry.checked;
  const name = entry.statement.name!.text;
  const single = signature?.type.is !== "row";
  const columns = signature?.type.is === "row" ? signature.type.columns : undefined;
  const outputs = single ? [mine()] : (columns ?? []).map((_, column) => mine(column));
  const values: Value[] = outputs.map((place, i) => ({ place, type: columns?.[i]?.type ?? signature?.type ?? { is: "anything" }, unit: columns?.[i]?.unit ?? signature?.unit }));
  // A chart that has a value only where it is called is laid in there.
  if (signature?.calledOnly === true) return {};
  if (chart === undefined || chart.rows.length === 0 || looped) {
    for (const place of outputs) maker.nothing.push({ place, reason: looped ? "it is part of a loop" : "its chart has a finding" });
    return { outputs, values };
  }
  const at = entry.statement.name!.at;
  const conditions = chart.conditions.map((condition) => lay(maker, condition.rule));
  if (chart.mode === "keep-every-row") {
    const cells = Int32Array.from(chart.rows.map((row) => lay(maker, row.values[0]!)));
    const slot = slotOf(maker.places, first ? name : entry.id);
    push(maker, { k: K.keep, d: outputs[0]!, a: -1, b: -1, c: -1, x: { pick: wholeTable(name, chart, conditions), values: cells, slot }, at });
    return { outputs, values, slot };
  }
  layRows(maker, lay, name, chart, conditions, outputs.map((place, column) => ({ column, place })), at);
  return { outputs, values };
}
