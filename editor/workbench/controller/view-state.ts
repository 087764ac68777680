// The views of the book, one of which is on the screen at a time, and the panel that may be open beside it.
import type { Keyword } from "../../../core/view.ts";

export type View = "sheet" | "text" | "both" | "card" | "standing" | "editions" | "log";

export const showsSheet = (view: View): boolean => view === "sheet" || view === "both";
export const showsText = (view: View): boolean => view === "text" || view === "both";

export type Panel =
  | { readonly is: "why" }
  | { readonly is: "chart"; readonly name: string }
  | { readonly is: "findings" }
  | { readonly is: "help" }
  | { readonly is: "books" }
  | { readonly is: "clash" }
  | { readonly is: "history" }
  | { readonly is: "job"; readonly id: string }
  | { readonly is: "add-job" };

export function panelHeading(panel: Panel): string {
  switch (panel.is) {
    case "why":
      return "Why";
    case "chart":
      return `Chart ${panel.name}`;
    case "findings":
      return "Findings";
    case "help":
      return "Keys and help";
    case "books":
      return "Books";
    case "clash":
      return "Changed by both";
    case "history":
      return "History of the draft";
    case "job":
      return "Job";
    case "add-job":
      return "Lay a job alongside";
  }
}

/** Whether the why may open by itself beside a view, in a window so wide. */
export const wideEnough = (view: View, width: number): boolean => width >= (view === "both" ? 1600 : 1180);

/**
 * The panel after a cell is chosen. An open chart follows to another chart; other panels stay, and the why
 * opens where there is room for it.
 */
export function panelAfterChoosing(
  open: Panel | undefined,
  chart: string | undefined,
  wide: boolean,
): Panel | undefined {
  if (open?.is === "chart" && chart !== undefined) return { is: "chart", name: chart };
  const gives = open === undefined || open.is === "why" || open.is === "job" || open.is === "add-job";
  if (!gives) return open;
  return wide || open?.is === "why" ? { is: "why" } : undefined;
}

/** The panel after another view is shown: the why stays only beside a view with room for it. */
export function panelAfterShowing(open: Panel | undefined, view: View, wide: boolean): Panel | undefined {
  const beside = (showsSheet(view) || showsText(view)) && wide;
  return open?.is === "why" && !beside ? undefined : open;
}

/** The chart that a row of the sheet is about. */
export const chartOfRow = (row: string): string | undefined =>
  row.startsWith("chart ") ? row.slice("chart ".length) : undefined;

/** Whether values of these statements have a trace. */
export function hasTrace(keyword: Keyword): boolean {
  switch (keyword) {
    case "ask":
    case "dial":
    case "figure":
    case "chart":
    case "list":
    case "step":
    case "caution":
    case "stop":
    case "promise":
      return true;
    case "book":
    case "part":
    case "kind":
    case "formula":
    case "picture":
    case "worked":
    case "use":
    case "drop":
    case "unreadable":
      return false;
  }
}
