// The cell of the sheet that is being edited: which one, the text it began with, and how high its editor is.
import { useEffect, useRef, useState } from "react";
import type { RefObject } from "react";
import type { Place } from "../store/document.ts";
import { useEvent } from "../use-event.ts";
import { openingOf } from "./cell-opening.ts";
import type { Column } from "./cell-steps.ts";
import type { SheetProps } from "./sheet-props.ts";

export interface CellEditing {
  readonly edited: { readonly place: Place; readonly first: string } | undefined;
  /** Height in px of what the open editor draws, 0 if it has not said. */
  readonly height: number;
  readonly setHeight: (height: number) => void;
  /** Opens a cell; `typed` takes the place of an answer. */
  readonly open: (row: string, column: Column, typed?: string) => void;
  /** Closes the editor; the chosen cell takes the focus unless `refocus` is false. */
  readonly close: (refocus?: boolean) => void;
}

export function useCellEditing(props: SheetProps, focusWanted: RefObject<boolean>): CellEditing {
  const { actions, chosen, amendCall } = props;
  const [edited, setEdited] = useState<CellEditing["edited"]>();
  const [height, setHeight] = useState(0);
  const open = useEvent((id: string, column: Column, typed?: string) => {
    const row = props.rows.find((one) => one.id === id);
    if (!row) return;
    const { snapshot, jobs, readOnly } = props;
    const opening = openingOf(row, column, { text: snapshot.text, jobs, readOnly, typed });
    switch (opening.does) {
      case "edit":
        setHeight(0);
        setEdited({ place: { row: id, column: opening.column }, first: opening.first });
        return;
      case "open-why":
        actions.openWhy();
        return;
      case "open-chart":
        actions.openChart(opening.name);
        return;
      case "amend-whole":
        actions.amendWhole(id);
        return;
      case "refuse":
        actions.notify(opening.says);
        return;
    }
  });
  const close = useEvent((refocus = true) => {
    setEdited(undefined);
    setHeight(0);
    if (refocus) focusWanted.current = true;
  });
  useAmendCall(
    amendCall,
    useEvent(() => {
      if (chosen) open(chosen.row, "rule");
    }),
  );
  return { edited, height, setHeight, open, close };
}

/** Runs `open` when the count goes up, but not for a count that an earlier sheet has answered. */
function useAmendCall(call: number, open: () => void): void {
  const answered = useRef(call);
  useEffect(() => {
    if (call !== answered.current) open();
    answered.current = call;
  }, [call, open]);
}
