// The state of a chart's grid: the active cell, the marked block, the cell and the row that are being
// written.
import { useEffect, useMemo, useRef, useState } from "react";
import type { RefObject } from "react";
import type { ChartView, Finding } from "../../../core/view.ts";
import { useEvent } from "../use-event.ts";
import { findingsOfChart, gridLines } from "./chart-words.ts";
import type { ChartGridProps } from "./grid-props.ts";
import type { Cell, Draft, Line } from "./grid-steps.ts";
import { withDraft } from "./grid-steps.ts";

/** The cell that is being written. */
interface Writing {
  readonly at: Cell;
  readonly startWith: string;
  readonly selectAll: boolean;
}

export interface GridState {
  readonly lines: readonly Line[];
  /** Findings of this chart that are not drawn as a hole or a clash. */
  readonly findings: readonly Finding[];
  /** The active cell, within the grid. */
  readonly at: Cell;
  readonly line: Line | undefined;
  /** The chart's row in the active line. */
  readonly activeRow: number | undefined;
  /** The book underneath that the active row comes from. */
  readonly underneath: string | undefined;
  /** The other corner of the marked block. */
  readonly anchor: Cell | undefined;
  readonly writing: Writing | undefined;
  readonly draft: Draft | undefined;
  /** Written cells that the book has not answered yet, by "row column". */
  readonly pending: ReadonlyMap<string, string>;
  /** What the grid has to say of the last deed. */
  readonly status: string;
  readonly setActive: (cell: Cell) => void;
  readonly setAnchor: (cell: Cell | undefined) => void;
  readonly setWriting: (writing: Writing | undefined) => void;
  readonly setDraft: (draft: Draft | undefined) => void;
  readonly setPending: (pending: ReadonlyMap<string, string>) => void;
  readonly setStatus: (says: string) => void;
  readonly table: RefObject<HTMLTableElement | null>;
  /** Set where the active cell must take the focus once it is drawn. */
  readonly focusNext: RefObject<boolean>;
  /** Set when the grid adds or removes a row: the focus returns once the chart has changed. */
  readonly focusAfterChange: RefObject<boolean>;
}

export function useGridState({ chart, findings, layers }: ChartGridProps): GridState {
  const [active, setActive] = useState<Cell>({ line: 0, column: 0 });
  const [anchor, setAnchor] = useState<Cell>();
  const [writing, setWriting] = useState<Writing>();
  const [draft, setDraft] = useState<Draft>();
  const [pending, setPending] = useState<ReadonlyMap<string, string>>(new Map());
  const [status, setStatus] = useState("");
  const table = useRef<HTMLTableElement>(null);
  const focusNext = useRef(false);
  const focusAfterChange = useRef(false);
  const lines = useMemo(() => withDraft(gridLines(chart), draft), [chart, draft]);
  const line = lines[Math.min(active.line, lines.length - 1)];
  const activeRow = line?.is === "row" ? line.row : undefined;
  // Before the effect below, which may move to another cell: the focus then follows once that cell is drawn.
  useEffect(() => {
    if (!focusNext.current || writing !== undefined) return;
    focusNext.current = false;
    table.current?.querySelector<HTMLElement>('[data-here="yes"]')?.focus();
  });
  // What was just written is shown at once; the book's own answer takes its place.
  const onChart = useEvent((changed: ChartView) => {
    setPending(new Map());
    if (!focusAfterChange.current) return;
    focusAfterChange.current = false;
    focusNext.current = true;
    // A filled hole leaves its value to be written, so the focus goes there.
    const blank = firstBlank(lines, changed);
    if (blank) setActive(blank);
  });
  useEffect(() => onChart(chart), [chart, onChart]);
  return {
    lines,
    findings: useMemo(() => findingsOfChart(chart, findings), [chart, findings]),
    at: {
      line: Math.min(active.line, Math.max(0, lines.length - 1)),
      column: Math.min(active.column, chart.columns.length - 1),
    },
    line,
    activeRow,
    underneath: activeRow === undefined ? undefined : layers[activeRow],
    anchor,
    writing,
    draft,
    pending,
    status,
    setActive,
    setAnchor,
    setWriting,
    setDraft,
    setPending,
    setStatus,
    table,
    focusNext,
    focusAfterChange,
  };
}

/** The first cell without a text. */
function firstBlank(lines: readonly Line[], chart: ChartView): Cell | undefined {
  for (const [index, line] of lines.entries()) {
    if (line.is !== "row") continue;
    const column = chart.rows[line.row]?.cells.findIndex((cell) => cell.text === "") ?? -1;
    if (column >= 0) return { line: index, column };
  }
  return undefined;
}
