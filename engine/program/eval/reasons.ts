// Why a value is impossible, with what a reader needs to find the place: rows with their lines and cells.
import type { ClashingRow, Reason } from "../../../core/reason.ts";
import { placed } from "../../language/syntax/split.ts";
import type { Plan } from "../plan/plan.ts";
import { type Frame, reasonOf } from "./frame.ts";

/** The reason of a register without a value, as it is shown. */
export function shownReason(plan: Plan, frame: Frame, register: number): Reason {
  const reason = reasonOf(frame, register);
  if (reason.code !== "rows-clash") return reason;
  const [first, second] = reason.rows;
  return { ...reason, rows: [withPlace(plan, reason.chart, first), withPlace(plan, reason.chart, second)] };
}

/** The row of a chart with its line, counted in the text that it is in, and its cells. */
function withPlace({ checked }: Plan, chart: string, { row }: ClashingRow): ClashingRow {
  const entry = checked.entries[checked.byName.get(chart) ?? -1];
  const { body, text } = entry?.statement ?? {};
  const found = body?.keyword === "chart" ? body.rows[row - 1] : undefined;
  if (entry === undefined || found === undefined || text === undefined) return { row };
  const { start } = placed(entry.piece, found.at);
  const under = checked.composition?.under.findLast((one) => one.start <= start);
  const line = (under?.text.slice(0, start - under.start) ?? checked.text.slice(0, start)).split("\n").length;
  const cells = found.cells.map(({ at }) => text.slice(at.start, at.end).replace(/\s+/g, " ").trim());
  return { row, line, cells: cells.join(" | ") };
}
