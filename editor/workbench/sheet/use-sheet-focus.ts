// Keeps the focus and the view at the chosen place, also when it was chosen elsewhere: by a finding, the
// trace, the text view.
import { useEffect, useRef } from "react";
import type { RefObject } from "react";
import type { Place } from "../store/document.ts";
import { useEvent } from "../use-event.ts";
import { placeKey } from "./cell-steps.ts";

export interface SheetFocus {
  readonly scroller: RefObject<HTMLDivElement | null>;
  /** Set where the chosen cell must take the focus once it is drawn. */
  readonly wanted: RefObject<boolean>;
  readonly chosen: Place | undefined;
  /** A cell or a statement is being written and keeps the focus. */
  readonly busy: boolean;
  /** Counts up when the sheet must take the focus. */
  readonly call: number;
  readonly rowCount: number;
  readonly reveal: (place: Place) => void;
}

export function useSheetFocus(focus: SheetFocus): void {
  const { scroller, wanted, chosen, reveal, call, rowCount } = focus;
  useEffect(() => {
    if (!chosen || focus.busy || !wanted.current) return;
    wanted.current = false;
    focusPlace(scroller.current, chosen);
  });
  const revealed = useRef("");
  useEffect(() => {
    // Also when the filter lets other rows through.
    const key = chosen ? `${placeKey(chosen)} ${rowCount}` : "";
    if (chosen && key !== revealed.current) reveal(chosen);
    revealed.current = key;
  }, [chosen, reveal, rowCount]);
  const answer = useEvent(() => {
    wanted.current = true;
    if (!chosen) return;
    reveal(chosen);
    focusPlace(scroller.current, chosen);
  });
  useEffect(() => {
    if (call > 0) answer();
  }, [call, answer]);
}

function focusPlace(area: HTMLElement | null, place: Place): void {
  const cell = [...(area?.querySelectorAll<HTMLElement>("[data-place]") ?? [])].find(
    (one) => one.dataset["place"] === placeKey(place),
  );
  cell?.focus({ preventScroll: true });
}
