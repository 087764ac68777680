// Where the rows and columns of the sheet are: widths, heights and tops in px, and the findings that are read
// under each row.
import { useCallback, useMemo } from "react";
import type { Finding, Row } from "../../../core/view.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import { causesFirst } from "../findings/causes-first.ts";
import type { Columns } from "./columns.ts";
import { addColumn, columnsFor, columnsForPaper, gridTemplate, leadWidth, paperWidth } from "./columns.ts";
import { isLayer } from "./layer-rows.ts";
import { fewShown, groupFindings } from "./row-findings.ts";
import { draftHeight, editedHeight, rowHeight } from "./row-height.ts";
import type { SheetProps } from "./sheet-props.ts";
import { oldRuleOf } from "./shown-row.ts";
import type { CellEditing } from "./use-cell-editing.ts";
import type { SheetWindow } from "./use-sheet-window.ts";
import { topsOf } from "./visible-rows.ts";

export interface SheetLayout {
  readonly columns: Columns;
  /** The columns as a CSS grid template. */
  readonly template: string;
  /** Width of all columns. */
  readonly width: number;
  /** Px to the left of the first job's column. */
  readonly lead: number;
  /** The book stands on another. */
  readonly layered: boolean;
  /** Heights of the cells alone, by row. */
  readonly cellHeights: readonly number[];
  /** Heights with findings and open editors, by row. */
  readonly heights: readonly number[];
  readonly tops: Float64Array;
  readonly total: number;
  readonly findingsOf: (row: Row) => readonly Finding[];
}

const none: readonly Finding[] = [];

export function useColumns(window: SheetWindow, jobs: number): Columns {
  const { printing } = window;
  const { width } = window.size;
  return useMemo(() => (printing ? columnsForPaper(jobs) : columnsFor(width, jobs)), [width, jobs, printing]);
}

/** `draftAfter` is the row that a statement is being written under. */
export function useSheetLayout(
  props: SheetProps,
  window: SheetWindow,
  columns: Columns,
  editing: CellEditing,
  draftAfter: string | undefined,
): SheetLayout {
  const { snapshot, rows } = props;
  const jobs = props.jobs.length;
  const layered = isLayer(snapshot);
  const editedRow = editing.edited?.place.row;
  const editorHeight = editing.height;
  const findingsOf = useShownFindings(snapshot.findings, rows, props.chosen?.row, editedRow);
  const heightOf = useRowHeight(snapshot.before, columns, layered, window.size.width);
  const cellHeights = useMemo(() => rows.map((row) => heightOf(row, none)), [rows, heightOf]);
  const heights = useMemo(
    () =>
      rows.map((row) => {
        const natural = heightOf(row, findingsOf(row));
        const edited = editedRow === row.id ? editedHeight(natural, editorHeight, columns.stacked) : natural;
        return draftAfter === row.id ? edited + draftHeight(editorHeight) : edited;
      }),
    [rows, heightOf, findingsOf, columns, editedRow, editorHeight, draftAfter],
  );
  const tops = useMemo(() => topsOf(heights), [heights]);
  const lead = leadWidth(columns);
  return {
    columns,
    template: gridTemplate(columns, jobs),
    width: window.printing ? paperWidth : Math.max(window.size.width, lead + jobs * columns.job + addColumn),
    lead,
    layered,
    cellHeights,
    heights,
    tops,
    total: tops.at(-1) ?? 0,
    findingsOf,
  };
}

/** The height of a row with these findings. */
function useRowHeight(
  before: Snapshot["before"],
  columns: Columns,
  layered: boolean,
  width: number,
): (row: Row, findings: readonly Finding[]) => number {
  return useCallback(
    (row, findings) => rowHeight({ row, columns, layered, findings, oldRule: oldRuleOf(before, row), width }),
    [before, columns, layered, width],
  );
}

/**
 * Faults are read under every row, doubts under the chosen one, and none under a row that is being edited.
 */
function useShownFindings(
  findings: readonly Finding[],
  rows: readonly Row[],
  chosen: string | undefined,
  edited: string | undefined,
): (row: Row) => readonly Finding[] {
  const byRow = useMemo(() => groupFindings(findings, rows), [findings, rows]);
  return useCallback(
    (row) => {
      if (edited === row.id) return none;
      const shown = (byRow.get(row.id) ?? none).filter(
        (finding) => finding.weight === "error" || (chosen === row.id && finding.weight === "warning"),
      );
      return fewShown(causesFirst(shown));
    },
    [byRow, chosen, edited],
  );
}
