// Scrolls the sheet so that a chosen place is seen.
import { useCallback } from "react";
import type { JobTag } from "../../client/storage/stored-work.ts";
import type { Place } from "../store/document.ts";
import { headHeight } from "./sheet-head.tsx";
import type { SheetLayout } from "./use-sheet-layout.ts";
import type { SheetWindow } from "./use-sheet-window.ts";
import { scrolledTo } from "./visible-rows.ts";

/** Scrolls to a place; nothing happens for a row that is not in the sheet. */
export function useReveal(
  window: SheetWindow,
  layout: SheetLayout,
  ids: readonly string[],
  jobs: readonly JobTag[],
): (place: Place) => void {
  const { scroller, size } = window;
  const { tops, lead, columns } = layout;
  return useCallback(
    ({ row, column }) => {
      const area = scroller.current;
      const at = ids.indexOf(row);
      if (!area || at < 0) return;
      const seen = size.height - headHeight;
      const top = tops[at] ?? 0;
      // A row higher than the window is shown from its top.
      const bottom = Math.min(tops[at + 1] ?? top, top + seen);
      scroll(area, "scrollTop", scrolledTo(top, bottom, area.scrollTop, seen));
      if (typeof column === "object") {
        const left = lead + jobs.findIndex((one) => one.id === column.job) * columns.job;
        // The names keep their place at the left and cover what is below them.
        const from = left - columns.name;
        scroll(area, "scrollLeft", scrolledTo(from, left + columns.job, area.scrollLeft, size.width));
      } else scroll(area, "scrollLeft", 0);
    },
    [scroller, ids, tops, size, lead, jobs, columns],
  );
}

function scroll(area: HTMLElement, along: "scrollTop" | "scrollLeft", to: number): void {
  if (area[along] !== to) area[along] = to;
}
