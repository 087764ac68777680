// The statement of a chart: its values, or its candidate rows.
import type { Entry } from "../../language/check/book.ts";
import type { Parts } from "./block.ts";
import { emitChartRows, wholeTable } from "./emit-chart-rows.ts";
import { emitExpression } from "./emit-expression.ts";
import { type Emitter, pushOperation } from "./emitter.ts";
import { Opcode } from "./op.ts";
import { slotOf } from "./registers.ts";
import type { Value } from "./plan.ts";

/** `mine` gives the register of a value column; `first`: whether it is the first statement of its name. */
export function emitChart(
  emitter: Emitter,
  entry: Entry,
  mine: (column?: number) => number,
  looped: boolean,
  first: boolean,
): Parts {
  const { chart, signature } = entry.checked;
  const name = entry.statement.name!.text;
  const single = signature?.type.is !== "row";
  const columns = signature?.type.is === "row" ? signature.type.columns : undefined;
  const outputs = single ? [mine()] : (columns ?? []).map((_, column) => mine(column));
  const values: Value[] = outputs.map((register, i) => ({
    register,
    type: columns?.[i]?.type ?? signature?.type ?? { is: "anything" },
    unit: columns?.[i]?.unit ?? signature?.unit,
  }));
  // A chart that has a value only where it is called is emitted at each call.
  if (signature?.calledOnly === true) return {};
  if (chart === undefined || chart.rows.length === 0 || looped) {
    for (const register of outputs)
      emitter.nothing.push({ register, reason: { code: looped ? "loop" : "chart-finding" } });
    return { outputs, values };
  }
  const at = entry.statement.name!.at;
  const conditions = chart.conditions.map((condition) => emitExpression(emitter, condition.rule));
  if (chart.mode === "keep-every-row") {
    const cells = Int32Array.from(chart.rows.map((row) => emitExpression(emitter, row.values[0]!)));
    const slot = slotOf(emitter.registers, first ? name : entry.id);
    pushOperation(emitter, {
      opcode: Opcode.candidateRows,
      out: outputs[0]!,
      in0: -1,
      in1: -1,
      in2: -1,
      payload: { pick: wholeTable(name, chart, conditions), values: cells, slot },
      at,
    });
    return { outputs, values, slot };
  }
  emitChartRows(emitter, emitExpression, {
    name,
    chart,
    conditions,
    outputs: outputs.map((register, column) => ({ column, register })),
    at,
  });
  return { outputs, values };
}
