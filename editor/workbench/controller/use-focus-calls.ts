// Calls for the focus. Each is a count that goes up; the sheet or the text answers when it is drawn.
import { useState } from "react";
import { useEvent } from "../use-event.ts";

export interface FocusCalls {
  readonly sheet: number;
  readonly text: number;
  readonly amend: number;
  /** The chosen cell of the sheet takes the focus. */
  readonly focusSheet: () => void;
  readonly focusText: () => void;
  /** The rule of the chosen row is opened to be amended. */
  readonly openAmend: () => void;
}

export function useFocusCalls(): FocusCalls {
  const [sheet, setSheet] = useState(0);
  const [text, setText] = useState(0);
  const [amend, setAmend] = useState(0);
  return {
    sheet,
    text,
    amend,
    focusSheet: useEvent(() => setSheet((count) => count + 1)),
    focusText: useEvent(() => setText((count) => count + 1)),
    openAmend: useEvent(() => setAmend((count) => count + 1)),
  };
}

/** Focuses the first control of the panel once it is drawn. */
export function focusPanel(): void {
  requestAnimationFrame(() =>
    document.querySelector<HTMLElement>(".side-body button, .side-body [tabindex]")?.focus(),
  );
}
