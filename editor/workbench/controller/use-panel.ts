// The panel beside the view: which one is open.
import { useState } from "react";
import { useEvent } from "../use-event.ts";
import type { Panel } from "./view-state.ts";

export interface PanelState {
  readonly open: Panel | undefined;
  readonly show: (panel: Panel) => void;
  readonly close: () => void;
  /** Shows a panel, or closes it if it is open. */
  readonly toggle: (panel: Panel) => void;
  readonly change: (next: (open: Panel | undefined) => Panel | undefined) => void;
}

export function usePanel(): PanelState {
  const [open, setOpen] = useState<Panel>();
  return {
    open,
    show: setOpen,
    close: useEvent(() => setOpen(undefined)),
    toggle: (panel) => setOpen(open?.is === panel.is ? undefined : panel),
    change: setOpen,
  };
}
