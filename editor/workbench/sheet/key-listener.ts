// What the keys do over the sheet: `sheet-keys.ts` says what a press means, here it is carried out.
import type { KeyboardEvent } from "react";
import type { Place } from "../store/document.ts";
import { answersIn } from "./cell-answers.ts";
import type { Column } from "./cell-steps.ts";
import { placeFrom } from "./cell-steps.ts";
import type { SheetIndex } from "./sheet-index.ts";
import { cellKey } from "./sheet-keys.ts";
import type { CellKeyEffect } from "./sheet-keys.ts";
import type { SheetProps } from "./sheet-props.ts";
import type { SheetSelection } from "./use-sheet-selection.ts";
import { rowAt } from "./visible-rows.ts";

export interface SheetKeys {
  readonly index: SheetIndex;
  readonly selection: SheetSelection;
  readonly tops: Float64Array;
  /** Height in px of a page. */
  readonly page: number;
  /** A cell or a statement is being written and has the keys. */
  readonly busy: boolean;
  readonly open: (row: string, column: Column, typed?: string) => void;
}

/** The key listener of the sheet. */
export function sheetKeyListener(props: SheetProps, keys: SheetKeys): (event: KeyboardEvent) => void {
  const { chosen } = props;
  return (event) => {
    if (!chosen || keys.busy || event.defaultPrevented) return;
    const effect = cellKey(event);
    if (effect) {
      event.preventDefault();
      carryOut(effect, chosen, event.shiftKey, props, keys);
    } else if (typesAnswer(event, chosen, keys.index)) {
      event.preventDefault();
      event.stopPropagation();
      keys.open(chosen.row, chosen.column, event.key);
    }
  };
}

function carryOut(
  effect: CellKeyEffect,
  chosen: Place,
  extend: boolean,
  { actions }: SheetProps,
  { index, selection, tops, page, open }: SheetKeys,
): void {
  switch (effect.does) {
    case "move":
      selection.go(placeFrom(chosen, effect.down, effect.right, index.ids, index.order), extend);
      return;
    case "page": {
      const from = tops[index.ids.indexOf(chosen.row)] ?? 0;
      const row = index.ids[rowAt(tops, from + effect.pages * page)] ?? chosen.row;
      selection.go({ row, column: chosen.column }, extend);
      return;
    }
    case "edge":
      selection.go(edgeFrom(chosen, effect.to, index), extend);
      return;
    case "open":
      open(chosen.row, chosen.column);
      return;
    case "clear":
      if (chosen.column === "name" && !selection.range) actions.remove(chosen.row);
      else if (selection.block)
        actions.setAnswers(answersIn(selection.block, index.byId).map((one) => ({ ...one, text: "" })));
      return;
    case "shift":
      actions.shift(chosen.row, effect.rows);
      return;
  }
}

/** The place at an edge of the sheet, in the row or column of `place`. */
export function edgeFrom(
  place: Place,
  to: "first-column" | "last-column" | "first-row" | "last-row",
  { ids, order }: SheetIndex,
): Place {
  switch (to) {
    case "first-column":
      return { ...place, column: order[0] ?? "name" };
    case "last-column":
      return { ...place, column: order.at(-1) ?? "name" };
    case "first-row":
      return { ...place, row: ids[0] ?? place.row };
    case "last-row":
      return { ...place, row: ids.at(-1) ?? place.row };
  }
}

/** A letter over an answer begins to type it. */
function typesAnswer(event: KeyboardEvent, chosen: Place, { byId }: SheetIndex): boolean {
  const letter = event.key.length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey;
  return (
    letter &&
    event.key !== " " &&
    byId.get(chosen.row)?.keyword === "ask" &&
    typeof chosen.column === "object"
  );
}
