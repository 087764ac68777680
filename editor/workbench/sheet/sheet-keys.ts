// What the keys do over the cells of the sheet. One table: the sheet reads it and the help panel shows it.

export type CellKeyEffect =
  | { readonly does: "move"; readonly down: number; readonly right: number }
  | { readonly does: "page"; readonly pages: number }
  | { readonly does: "edge"; readonly to: "first-column" | "last-column" | "first-row" | "last-row" }
  | { readonly does: "open" }
  | { readonly does: "clear" }
  | { readonly does: "shift"; readonly rows: -1 | 1 };

export interface CellKey {
  readonly keys: string;
  readonly says: string;
}

/** For the help panel, in the order of its reading. */
export const cellKeys: readonly CellKey[] = [
  { keys: "Arrows", says: "go from cell to cell; with Shift, mark several" },
  { keys: "Home, End", says: "first and last column; with Ctrl, first and last rule" },
  { keys: "Page up, Page down", says: "a screen up or down" },
  {
    keys: "Enter",
    says:
      "edit the name, rule, basis or answer; of a row underneath, amend it here; " +
      "open a chart; go to the why of a value",
  },
  { keys: "Enter while editing", says: "keep it; an answer goes on to the cell below" },
  { keys: "Escape while editing", says: "drop it" },
  { keys: "Tab while editing", says: "take the offered word; an answer goes on to the next job" },
  { keys: "Shift+Enter", says: "a new line within a rule" },
  { keys: "Any letter or figure", says: "over an answer: begin to type it anew" },
  {
    keys: "Delete",
    says:
      "over answers: clear them; over a name: remove the statement; a row underneath " +
      "is dropped for this book, an own one goes back to the book underneath",
  },
  {
    keys: "Ctrl+C, Ctrl+V",
    says: "over values and answers: as tab-separated text; over a name: the whole statement as text",
  },
  { keys: "Alt+Up, Alt+Down", says: "move the statement up or down, also into the next part" },
];

/** What a key press over a cell means; undefined if nothing. */
export function cellKey(press: {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
}): CellKeyEffect | undefined {
  const ctrl = press.ctrlKey || press.metaKey;
  if (press.altKey) {
    if (press.key === "ArrowUp") return { does: "shift", rows: -1 };
    if (press.key === "ArrowDown") return { does: "shift", rows: 1 };
    return undefined;
  }
  switch (press.key) {
    case "ArrowUp":
      return ctrl ? { does: "edge", to: "first-row" } : { does: "move", down: -1, right: 0 };
    case "ArrowDown":
      return ctrl ? { does: "edge", to: "last-row" } : { does: "move", down: 1, right: 0 };
    case "ArrowLeft":
      return ctrl ? { does: "edge", to: "first-column" } : { does: "move", down: 0, right: -1 };
    case "ArrowRight":
      return ctrl ? { does: "edge", to: "last-column" } : { does: "move", down: 0, right: 1 };
    case "Home":
      return { does: "edge", to: ctrl ? "first-row" : "first-column" };
    case "End":
      return { does: "edge", to: ctrl ? "last-row" : "last-column" };
    case "PageUp":
      return { does: "page", pages: -1 };
    case "PageDown":
      return { does: "page", pages: 1 };
    case "Enter":
      return { does: "open" };
    case "Delete":
    case "Backspace":
      return { does: "clear" };
    default:
      return undefined;
  }
}
