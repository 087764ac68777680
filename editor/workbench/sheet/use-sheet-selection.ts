// The chosen cell and the range marked from it: by the keys, by a press, with Shift for several.
import { useMemo, useState } from "react";
import type { RefObject } from "react";
import type { Place } from "../store/document.ts";
import { useEvent } from "../use-event.ts";
import type { Column } from "./cell-steps.ts";
import { columnKey, covered, samePlace } from "./cell-steps.ts";
import type { SheetIndex } from "./sheet-index.ts";
import type { SheetProps } from "./sheet-props.ts";

/** A block of cells, in the order of the sheet. */
export interface CellBlock {
  readonly rows: readonly string[];
  readonly columns: readonly Column[];
}

export interface SheetSelection {
  /** Marked with Shift; undefined while only one cell is chosen. */
  readonly range: CellBlock | undefined;
  readonly rangedRows: ReadonlySet<string>;
  readonly rangedColumns: ReadonlySet<string>;
  /** The range, or the chosen cell alone; undefined if nothing is chosen. */
  readonly block: CellBlock | undefined;
  /** Chooses by a key: the place is scrolled to and focused. */
  readonly go: (place: Place, extend: boolean) => void;
  /** Chooses by a press; a second press on an answer opens it. */
  readonly pick: (row: string, column: Column, extend: boolean) => void;
}

export function useSheetSelection(
  props: SheetProps,
  index: SheetIndex,
  reveal: (place: Place) => void,
  focusWanted: RefObject<boolean>,
  open: (row: string, column: Column) => void,
): SheetSelection {
  const { chosen, actions } = props;
  const [mark, setMark] = useState<Place>();
  const range = useMemo(
    () => (mark && chosen ? covered({ from: mark, to: chosen }, index.ids, index.order) : undefined),
    [mark, chosen, index],
  );
  const extendTo = (extend: boolean): void => setMark(extend ? (mark ?? chosen) : undefined);
  const go = useEvent((place: Place, extend: boolean) => {
    extendTo(extend);
    focusWanted.current = true;
    reveal(place);
    actions.choose(place);
  });
  const pick = useEvent((row: string, column: Column, extend: boolean) => {
    const again = samePlace(chosen, { row, column }) && !extend && mark === undefined;
    extendTo(extend);
    if (!again) actions.choose({ row, column });
    else if (typeof column === "object" && index.byId.get(row)?.keyword === "ask") open(row, column);
  });
  return {
    range,
    rangedRows: useMemo(() => new Set(range?.rows ?? []), [range]),
    rangedColumns: useMemo(() => new Set(range?.columns.map(columnKey) ?? []), [range]),
    block: range ?? (chosen && { rows: [chosen.row], columns: [chosen.column] }),
    go,
    pick,
  };
}
