// What the grid and the curve of a chart change in the book, as edits of its statement.
import type { ChartView } from "../../../core/view.ts";
import type { StatementEdit } from "../../client/engine/messages.ts";
import { pointAsCells } from "./plotted-jobs.ts";

/** A row in another place: `after` counts rows before the move, -1 for the first place. */
export function moveRow(chart: ChartView, row: number, after: number): StatementEdit {
  const cells = chart.rows[row]?.cells.map((cell) => cell.text) ?? [];
  return {
    does: "several",
    edits: [
      { does: "remove-row", chart: chart.name, row },
      { does: "add-row", chart: chart.name, after: after > row ? after - 1 : after, cells },
    ],
  };
}

/** Cells beyond the last row become new rows; cells beyond the last column are left out. */
export function setBlock(
  chart: ChartView,
  row: number,
  column: number,
  cells: readonly (readonly string[])[],
): StatementEdit {
  const width = chart.columns.length;
  const edits = cells.flatMap((line, n): StatementEdit[] => {
    const at = row + n;
    const fitting = line.slice(0, width - column);
    if (at < chart.rows.length) return fitting.map((text, m) => setCell(chart, at, column + m, text));
    const whole = Array.from(
      { length: width },
      (_, m) => fitting[m - column] ?? (chart.columns[m]?.role === "condition" ? "any" : ""),
    );
    return [{ does: "add-row", chart: chart.name, after: at - 1, cells: whole }];
  });
  return { does: "several", edits };
}

/** A point of the curve in another place. */
export const setPoint = (chart: ChartView, row: number, x: number, y: number): StatementEdit => ({
  does: "several",
  edits: pointAsCells(chart, row, x, y).map((cell) => setCell(chart, row, cell.column, cell.text)),
});

const setCell = (chart: ChartView, row: number, column: number, text: string): StatementEdit => ({
  does: "set-cell",
  chart: chart.name,
  row,
  column,
  text,
});
