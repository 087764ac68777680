// The ways between views, panels and places of the book.
import type { Span } from "../../../core/span.ts";
import type { Finding } from "../../../core/view.ts";
import { rowOf } from "../findings/findings-list.tsx";
import type { Place } from "../store/document.ts";
import type { FocusCalls } from "./use-focus-calls.ts";
import type { WorkbenchParts } from "./use-workbench.ts";
import type { View } from "./view-state.ts";
import { chartOfRow, panelAfterChoosing, panelAfterShowing, wideEnough } from "./view-state.ts";

export interface Navigation {
  readonly showView: (view: View) => void;
  /** By a key the focus goes along, to where it was in that view. */
  readonly showViewByKey: (view: View) => void;
  /** Chooses a cell; the panel follows. */
  readonly choose: (place: Place) => void;
  /** Goes to a row of the sheet, and lights up a place of its text. */
  readonly goTo: (id: string, at?: Span) => void;
  /** The same from a view that has no sheet beside it. */
  readonly goToInSheet: (id: string, at?: Span) => void;
  readonly goToFinding: (finding: Finding) => void;
  /** To the finding after or before the chosen row; from the last one to the first. */
  readonly goToNextFinding: (by: 1 | -1) => void;
  /** Closes the panel and returns to the chosen cell. */
  readonly backToSheet: () => void;
}

export function navigation(parts: WorkbenchParts): Navigation {
  const { store, snapshot, chosen, panel, filter, view, calls } = parts;
  const showView = (to: View): void => {
    parts.setView(to);
    const wide = wideEnough(to, window.innerWidth);
    panel.change((open) => panelAfterShowing(open, to, wide));
  };
  const goTo = (id: string, at?: Span): void => {
    filter.clear();
    store.choose({ row: id, column: "rule" });
    parts.hover(at && id, at);
    calls.focusSheet();
  };
  const goToFinding = (finding: Finding): void => {
    const found = snapshot && rowOf(finding, snapshot.rows);
    if (found) goTo(found.id, finding.at);
    else parts.setView((now) => (now === "sheet" ? "both" : now));
  };
  return {
    showView,
    showViewByKey: (to) => {
      showView(to);
      focusView(to, calls);
    },
    choose: (place) => {
      store.choose(place);
      const { column } = place;
      if (typeof column === "object") chosen.setJob(column.job);
      const chart = column === "name" || column === "rule" ? chartOfRow(place.row) : undefined;
      const wide = wideEnough(view, window.innerWidth);
      panel.change((open) => panelAfterChoosing(open, chart, wide));
    },
    goTo,
    goToInSheet: (id, at) => {
      parts.setView("sheet");
      goTo(id, at);
    },
    goToFinding,
    goToNextFinding: (by) => {
      const next = nextFinding(snapshot?.findings ?? [], chosen.row?.at, by);
      if (next) goToFinding(next);
      else store.tell("There are no findings.");
    },
    backToSheet: () => {
      panel.close();
      calls.focusSheet();
    },
  };
}

function focusView(view: View, calls: FocusCalls): void {
  if (view === "text") calls.focusText();
  else if (view !== "card" && view !== "standing" && view !== "editions") calls.focusSheet();
}

/** The finding after (1) or before (-1) a place, round at the ends; notes are passed over. */
function nextFinding(findings: readonly Finding[], place: Span | undefined, by: 1 | -1): Finding | undefined {
  const sorted = findings
    .filter((finding) => finding.weight !== "note")
    .sort((a, b) => a.at.start - b.at.start);
  if (by > 0) return sorted.find((finding) => finding.at.start > (place?.end ?? -1)) ?? sorted[0];
  return sorted.filter((finding) => finding.at.start < (place?.start ?? -1)).at(-1) ?? sorted.at(-1);
}
