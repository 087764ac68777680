// The sheet's controller: brings window, layout, selection, editing, focus, keys and clipboard together, so
// that `sheet.tsx` only draws.
import { useMemo, useRef } from "react";
import type { KeyboardEvent } from "react";
import type { Row } from "../../../core/view.ts";
import type { Mark } from "../../../engine/index.ts";
import { sheetKeyListener } from "./key-listener.ts";
import { clipboardListeners } from "./sheet-clipboard.ts";
import type { ClipboardListeners } from "./sheet-clipboard.ts";
import { headHeight } from "./sheet-head.tsx";
import type { SheetIndex } from "./sheet-index.ts";
import { sheetIndex } from "./sheet-index.ts";
import type { SheetProps } from "./sheet-props.ts";
import type { CellEditing } from "./use-cell-editing.ts";
import { useCellEditing } from "./use-cell-editing.ts";
import { useSheetFocus } from "./use-sheet-focus.ts";
import type { SheetLayout } from "./use-sheet-layout.ts";
import { useColumns, useSheetLayout } from "./use-sheet-layout.ts";
import { useReveal } from "./use-sheet-scroll.ts";
import type { SheetSelection } from "./use-sheet-selection.ts";
import { useSheetSelection } from "./use-sheet-selection.ts";
import type { SheetWindow } from "./use-sheet-window.ts";
import { useSheetWindow } from "./use-sheet-window.ts";
import { useTokenColours } from "./use-token-colours.ts";
import { visibleRows } from "./visible-rows.ts";

export interface SheetController {
  readonly window: SheetWindow;
  readonly layout: SheetLayout;
  readonly index: SheetIndex;
  readonly editing: CellEditing;
  readonly selection: SheetSelection;
  /** Rows to draw, by index. */
  readonly drawn: readonly number[];
  readonly coloursOf: (row: Row) => readonly Mark[] | undefined;
  /** The row that a statement is being written under. */
  readonly draftAfter: string | undefined;
  readonly endDraft: () => void;
  readonly onKeyDown: (event: KeyboardEvent) => void;
  readonly clipboard: ClipboardListeners;
}

export function useSheet(props: SheetProps): SheetController {
  const { rows, jobs, chosen, draft } = props;
  const window = useSheetWindow();
  const columns = useColumns(window, jobs.length);
  const index = useMemo(() => sheetIndex(rows, jobs, columns.basis > 0), [rows, jobs, columns.basis]);
  const draftAfter = draft ? (draft.after ?? index.ids.at(-1)) : undefined;
  const focusWanted = useRef(false);
  const editing = useCellEditing(props, focusWanted);
  const layout = useSheetLayout(props, window, columns, editing, draftAfter);
  const drawn = drawnRows(window, layout, chosen ? index.ids.indexOf(chosen.row) : -1);
  const coloursOf = useTokenColours(
    drawn.flatMap((n) => rows[n] ?? []),
    props.actions.requestColours,
  );
  const reveal = useReveal(window, layout, index.ids, jobs);
  const selection = useSheetSelection(props, index, reveal, focusWanted, editing.open);
  const busy = editing.edited !== undefined || draft !== undefined;
  useSheetFocus({
    scroller: window.scroller,
    wanted: focusWanted,
    chosen,
    busy,
    call: props.focusCall,
    rowCount: rows.length,
    reveal,
  });
  const page = Math.max(100, window.size.height - headHeight - 60);
  return {
    window,
    layout,
    index,
    editing,
    selection,
    drawn,
    coloursOf,
    draftAfter,
    endDraft: editing.close,
    onKeyDown: sheetKeyListener(props, {
      index,
      selection,
      tops: layout.tops,
      page,
      busy,
      open: editing.open,
    }),
    clipboard: clipboardListeners(props, index, selection.block, busy),
  };
}

/** On paper every row is drawn. */
const drawnRows = (window: SheetWindow, { tops }: SheetLayout, focused: number): readonly number[] =>
  window.printing
    ? Array.from({ length: tops.length - 1 }, (_, n) => n)
    : visibleRows(tops, window.scrollTop, window.scrollTop + window.size.height, focused);
