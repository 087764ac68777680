// The box of a cell: it can be pointed at, chosen, marked as part of a range, and opened.
import type { ReactNode } from "react";
import type { Column } from "./cell-steps.ts";
import { columnKey } from "./cell-steps.ts";
import type { SheetRowProps } from "./sheet-row.tsx";

export function CellBox(props: {
  /** The row that the cell is in. */
  readonly of: SheetRowProps;
  readonly column: Column;
  readonly role: "rowheader" | "gridcell";
  readonly className: string;
  readonly children: ReactNode;
}) {
  const { of, column } = props;
  const key = columnKey(column);
  const chosen = of.chosen === key;
  const ranged = of.ranged?.has(key) ?? false;
  const editing = of.editor?.column === key;
  return (
    // biome-ignore lint/a11y/useAriaPropsSupportedByRole: rowheader and gridcell both take aria-selected
    <div
      role={props.role}
      data-place={`${of.row.id} | ${key}`}
      tabIndex={chosen && !editing ? 0 : -1}
      aria-selected={chosen || ranged || undefined}
      className={`${props.className}${chosen ? " is-here" : ""}${ranged ? " is-ranged" : ""}`}
      onMouseDown={(event) => {
        if (editing) return;
        if (event.shiftKey) event.preventDefault();
        of.onPick(of.row.id, column, event.shiftKey);
      }}
      onDoubleClick={() => {
        if (!editing) of.onOpen(of.row.id, column);
      }}
    >
      {props.children}
    </div>
  );
}
