// What the grid of a chart is given. Data and callbacks only: every change goes out as one callback.
import type { ChartView, Finding, Repair } from "../../../core/view.ts";

export interface ChartGridProps {
  readonly chart: ChartView;
  /** Findings of the book; those outside this chart are passed over. */
  readonly findings: readonly Finding[];
  onSetCell(row: number, column: number, text: string): void;
  /** A row after `afterRow`, -1 for the first. */
  onAddRow(afterRow: number, cells: readonly string[]): void;
  onRemoveRow(row: number): void;
  /** Without it rows cannot be moved. `afterRow` counts rows before the move, -1 for the first place. */
  onMoveRow?(row: number, afterRow: number): void;
  /** A pasted block, from this cell on; rows beyond the last are to be added. */
  onSetBlock(row: number, column: number, cells: readonly (readonly string[])[]): void;
  onRepair(repair: Repair): void;
  /** Rows that decided for the chosen job. */
  readonly decided: readonly number[];
  /** Rows that no job reaches, as was proved. */
  readonly never: readonly number[];
  /**
   * In a layer: the book that each row comes from, undefined for the own ones; empty elsewhere. A row
   * underneath takes another value as an own row of the same conditions; it is not moved, taken out, or given
   * other conditions.
   */
  readonly layers: readonly (string | undefined)[];
  readonly readOnly: boolean;
}
