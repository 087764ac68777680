// What can be done in the grid of a chart: go from cell to cell, write cells, add, move and remove rows, copy
// and paste.
import type { Repair } from "../../../core/view.ts";
import type { Leave } from "./chart-cell.tsx";
import { gridLines, readTabbed, writeTabbed } from "./chart-words.ts";
import type { ChartGridProps } from "./grid-props.ts";
import type { Cell, Draft, GridKeyEffect, Line } from "./grid-steps.ts";
import { STEPS, clamp, onward, withDraft } from "./grid-steps.ts";
import type { GridState } from "./use-grid-state.ts";

export interface GridActions {
  /** The text of a cell as it is shown. */
  readonly textOf: (line: Line | undefined, column: number) => string;
  readonly go: (to: Cell, extend?: boolean) => void;
  /** Opens the active cell. */
  readonly write: (startWith: string, selectAll: boolean) => void;
  /** Takes what was written; `leave` says where to go on. */
  readonly keepCell: (text: string, leave: Leave) => void;
  readonly dropCell: () => void;
  /** Begins a new row after this one, -1 for the first. */
  readonly beginRow: (after: number) => void;
  readonly moveRow: (by: 1 | -1) => void;
  readonly removeRow: () => void;
  readonly fillHole: (repair: Repair) => void;
  /** Whether a cell is in the marked block. */
  readonly inBlock: (line: number, column: number) => boolean;
  /** The marked block, or the active cell, as tab-separated text. */
  readonly copied: () => string;
  readonly paste: (text: string) => void;
  readonly carryOut: (effect: GridKeyEffect) => void;
}

export function gridActions(props: ChartGridProps, state: GridState): GridActions {
  const textOf = shownText(props, state);
  const go = cursor(props, state);
  const writing = writingActions(props, state, textOf, go);
  const rows = rowActions(props, state, go, writing.dropDraft);
  const block = blockActions(props, state, textOf);
  const acts = { textOf, go, ...writing, ...rows, ...block };
  return { ...acts, carryOut: (effect) => carryOut(effect, props, state, acts) };
}

const shownText =
  ({ chart }: ChartGridProps, { draft, pending }: GridState): GridActions["textOf"] =>
  (line, column) => {
    if (line?.is === "draft") return draft?.cells[column] ?? "";
    if (line?.is !== "row") return "";
    return pending.get(`${line.row} ${column}`) ?? chart.rows[line.row]?.cells[column]?.text ?? "";
  };

const cursor =
  ({ chart }: ChartGridProps, state: GridState): GridActions["go"] =>
  (to, extend = false) => {
    state.setAnchor(extend ? (state.anchor ?? state.at) : undefined);
    state.setActive({
      line: clamp(to.line, 0, state.lines.length - 1),
      column: clamp(to.column, 0, chart.columns.length - 1),
    });
    state.focusNext.current = true;
  };

function writingActions(
  props: ChartGridProps,
  state: GridState,
  textOf: GridActions["textOf"],
  go: GridActions["go"],
) {
  const { columns } = props.chart;
  const dropDraft = (): void => {
    state.setDraft(undefined);
    state.setWriting(undefined);
    state.focusNext.current = true;
    state.setStatus("The new row is put away.");
  };
  const keepRowCell = (row: number, { at }: { readonly at: Cell }, text: string): void => {
    const next = text === "" && columns[at.column]?.role === "condition" ? "any" : text;
    if (next === "" || next === textOf({ is: "row", row }, at.column)) return;
    state.setPending(new Map(state.pending).set(`${row} ${at.column}`, next));
    state.setStatus("");
    props.onSetCell(row, at.column, next);
  };
  return {
    dropDraft,
    write: (startWith: string, selectAll: boolean): void => {
      const { line, at, underneath } = state;
      if (props.readOnly || line === undefined || line.is === "hole") return;
      if (underneath !== undefined && columns[at.column]?.role === "condition")
        state.setStatus(keptThere(underneath));
      else state.setWriting({ at, startWith, selectAll });
    },
    keepCell: (text: string, leave: Leave): void => {
      const { writing, draft } = state;
      if (writing === undefined) return;
      // The cell that was written, which need not be the active one: a press elsewhere moves that first.
      const written = state.lines[writing.at.line];
      state.setWriting(undefined);
      state.focusNext.current = leave !== "stay";
      if (written?.is === "draft" && draft !== undefined) {
        keepDraftCell(props, state, { draft, at: writing.at }, text, leave);
        return;
      }
      if (written?.is !== "row") return;
      keepRowCell(written.row, writing, text);
      if (leave !== "stay") go(onward(writing.at, STEPS[leave], columns.length));
    },
    dropCell: (): void => {
      state.setWriting(undefined);
      state.focusNext.current = true;
      if (state.draft?.cells.every((value) => value === "")) dropDraft();
    },
    beginRow: (after: number): void => {
      if (props.readOnly) return;
      const draft: Draft = { after, cells: columns.map(() => "") };
      const line = withDraft(gridLines(props.chart), draft).findIndex((one) => one.is === "draft");
      const first: Cell = { line, column: 0 };
      state.setDraft(draft);
      state.setActive(first);
      state.setAnchor(undefined);
      state.setWriting({ at: first, startWith: "", selectAll: true });
    },
  };
}

/** A cell of the new row is written: the row is added when all are, else the next empty cell is opened. */
function keepDraftCell(
  props: ChartGridProps,
  state: GridState,
  { draft, at }: { readonly draft: Draft; readonly at: Cell },
  text: string,
  leave: Leave,
): void {
  const cells = draft.cells.map((cell, i) => (i === at.column ? text : cell));
  const nextEmpty = cells.indexOf("");
  if (nextEmpty < 0) {
    state.setDraft(undefined);
    props.onAddRow(draft.after, cells);
    state.setStatus("The row is in the chart.");
    state.focusAfterChange.current = true;
    return;
  }
  state.setDraft({ ...draft, cells });
  if (leave === "stay") return;
  const column = leave === "left" ? Math.max(0, at.column - 1) : nextEmpty;
  const next: Cell = { line: at.line, column };
  state.setActive(next);
  state.setWriting({ at: next, startWith: cells[column] ?? "", selectAll: true });
}

function rowActions(props: ChartGridProps, state: GridState, go: GridActions["go"], dropDraft: () => void) {
  const { activeRow, underneath, lines, at } = state;
  return {
    moveRow: (by: 1 | -1): void => {
      if (activeRow === undefined || props.onMoveRow === undefined || props.readOnly) return;
      const to = activeRow + by;
      if (to < 0 || to >= props.chart.rows.length) return;
      props.onMoveRow(activeRow, by === 1 ? to : to - 1);
      go({ line: lines.findIndex((one) => one.is === "row" && one.row === to), column: at.column });
    },
    removeRow: (): void => {
      if (state.line?.is === "draft") dropDraft();
      else if (activeRow === undefined || props.readOnly) return;
      else if (underneath !== undefined) state.setStatus(keptThere(underneath));
      else {
        props.onRemoveRow(activeRow);
        state.setStatus("The row is taken out. Undo brings it back.");
        state.focusAfterChange.current = true;
      }
    },
    fillHole: (repair: Repair): void => {
      state.focusAfterChange.current = true;
      props.onRepair(repair);
      state.setStatus("The hole has a row. Write its value.");
    },
  };
}

function blockActions(props: ChartGridProps, state: GridState, textOf: GridActions["textOf"]) {
  const { anchor, at, lines, activeRow } = state;
  const corner = anchor ?? at;
  const from = { line: Math.min(at.line, corner.line), column: Math.min(at.column, corner.column) };
  const to = { line: Math.max(at.line, corner.line), column: Math.max(at.column, corner.column) };
  return {
    inBlock: (line: number, column: number): boolean =>
      anchor !== undefined &&
      line >= from.line &&
      line <= to.line &&
      column >= from.column &&
      column <= to.column,
    copied: (): string => {
      const columns = Array.from({ length: to.column - from.column + 1 }, (_, n) => from.column + n);
      const rows = lines.slice(from.line, to.line + 1).filter((one) => one.is !== "hole");
      return writeTabbed(rows.map((line) => columns.map((column) => textOf(line, column))));
    },
    paste: (text: string): void => {
      const block = readTabbed(text);
      if (props.readOnly || activeRow === undefined || block.length === 0) return;
      const single = block.length === 1 && block[0]!.length === 1;
      state.setStatus(single ? "One cell pasted." : `${block.length} by ${block[0]!.length} cells pasted.`);
      props.onSetBlock(activeRow, at.column, block);
    },
  };
}

function carryOut(
  effect: GridKeyEffect,
  { chart, readOnly, onSetCell }: ChartGridProps,
  state: GridState,
  acts: Omit<GridActions, "carryOut"> & { readonly dropDraft: () => void },
): void {
  const { activeRow, at, underneath } = state;
  switch (effect.does) {
    case "go":
      acts.go(effect.to, effect.extend);
      return;
    case "shift-row":
      acts.moveRow(effect.by);
      return;
    case "write":
      acts.write(acts.textOf(state.line, at.column), false);
      return;
    case "type":
      acts.write(effect.letter, false);
      return;
    case "new-row":
      acts.beginRow(activeRow ?? chart.rows.length - 1);
      return;
    case "escape":
      if (state.draft === undefined) state.setAnchor(undefined);
      else acts.dropDraft();
      return;
    case "remove-row":
      acts.removeRow();
      return;
    case "clear": {
      if (readOnly) return;
      const condition = chart.columns[at.column]?.role === "condition";
      if (underneath === undefined && activeRow !== undefined && condition)
        onSetCell(activeRow, at.column, "any");
      else acts.write("", false);
      return;
    }
  }
}

const keptThere = (layer: string): string =>
  `This row stands in ${layer} and is kept as it is there. ` +
  "Another value written into it counts here; for other conditions add a row.";
