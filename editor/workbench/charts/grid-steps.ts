// The grid's lines and the ways between its cells, and what each key does there.
import type { ChartView } from "../../../core/view.ts";
import type { Leave } from "./chart-cell.tsx";
import type { GridLine } from "./chart-words.ts";

export interface Cell {
  readonly line: number;
  readonly column: number;
}

/** A row being written that is not in the book yet. */
export interface Draft {
  readonly after: number;
  readonly cells: readonly string[];
}

export type Line = GridLine | { readonly is: "draft" };

export const STEPS: Record<Leave, { readonly line: number; readonly column: number }> = {
  down: { line: 1, column: 0 },
  up: { line: -1, column: 0 },
  right: { line: 0, column: 1 },
  left: { line: 0, column: -1 },
  stay: { line: 0, column: 0 },
};

/** The next cell; past the last column it is the first of the next line, and back likewise. */
export function onward(
  at: Cell,
  step: { readonly line: number; readonly column: number },
  columns: number,
): Cell {
  const column = at.column + step.column;
  if (column >= columns) return { line: at.line + 1, column: 0 };
  if (column < 0) return at.line === 0 ? at : { line: at.line - 1, column: columns - 1 };
  return { line: at.line + step.line, column };
}

/** Lines with the row being written below the row that it comes after. */
export function withDraft(lines: readonly Line[], draft: Draft | undefined): Line[] {
  if (draft === undefined) return [...lines];
  const place = lines.findIndex((one) => one.is === "row" && one.row === draft.after);
  return [...lines.slice(0, place + 1), { is: "draft" }, ...lines.slice(place + 1)];
}

export function columnClass(columns: ChartView["columns"], i: number): string {
  const value = columns[i]?.role === "value";
  const first = value && columns[i - 1]?.role !== "value";
  return `${value ? "chart-value" : "chart-condition"}${first ? " chart-first-value" : ""}`;
}

export function rowClass(line: Line, decided: readonly number[], never: readonly number[] = []): string {
  if (line.is !== "row") return "chart-draft";
  return (
    (decided.includes(line.row) ? "chart-decided" : "") + (never.includes(line.row) ? " chart-never" : "")
  ).trim();
}

export const clamp = (value: number, low: number, high: number): number =>
  Math.max(low, Math.min(high, value));

export type GridKeyEffect =
  | { readonly does: "go"; readonly to: Cell; readonly extend: boolean }
  | { readonly does: "shift-row"; readonly by: 1 | -1 }
  | { readonly does: "write" | "new-row" | "escape" | "clear" | "remove-row" }
  | { readonly does: "type"; readonly letter: string };

/** What a key asks for when no cell is being written; undefined for keys that the grid leaves alone. */
export function gridKey(
  key: {
    readonly key: string;
    readonly altKey: boolean;
    readonly ctrlKey: boolean;
    readonly metaKey: boolean;
    readonly shiftKey: boolean;
  },
  at: Cell,
  last: Cell,
): GridKeyEffect | undefined {
  const held = key.ctrlKey || key.metaKey;
  const go = (line: number, column: number): GridKeyEffect => ({
    does: "go",
    to: { line, column },
    extend: key.shiftKey,
  });
  switch (key.key) {
    case "ArrowDown":
    case "ArrowUp": {
      const by = key.key === "ArrowDown" ? 1 : -1;
      if (key.altKey) return { does: "shift-row", by };
      return held ? go(by > 0 ? last.line : 0, at.column) : go(at.line + by, at.column);
    }
    case "ArrowLeft":
      return go(at.line, at.column - 1);
    case "ArrowRight":
      return go(at.line, at.column + 1);
    case "Home":
      return go(held ? 0 : at.line, 0);
    case "End":
      return go(held ? last.line : at.line, last.column);
    case "Enter":
      return { does: held ? "new-row" : "write" };
    case "F2":
      return { does: "write" };
    case "Escape":
      return { does: "escape" };
    case "Delete":
    case "Backspace":
      return { does: held ? "remove-row" : "clear" };
  }
  return key.key.length !== 1 || held || key.altKey || key.key === " "
    ? undefined
    : { does: "type", letter: key.key };
}
