// A chart as a typed grid: conditions on the left of the double line, values on its
// right. Holes are hatched where a row is missing, clashes are bracketed. Cells are
// written in place. Data and callbacks only; every change goes out as one callback.
import { useEffect, useMemo, useRef, useState } from "react";
import type { ChartView, Finding, Repair } from "../../../core/view.ts";
import { ChartCell, type Leave } from "./chart-cell.tsx";
import { Hole, Troubles } from "./chart-troubles.tsx";
import {
  chartAsTabbed,
  findingsIn,
  findingsOfChart,
  gridLines,
  hintFor,
  modeInWords,
  outsideInWords,
  readTabbed,
  wordsFor,
  writeTabbed,
} from "./chart-words.ts";
import { bracketsWidth, ClashBrackets } from "./clash-brackets.tsx";
import {
  type Cell,
  clamp,
  columnClass,
  type Draft,
  type Line,
  onward,
  rowClass,
  STEPS,
  wishOf,
  withDraft,
} from "./grid-places.ts";
import "./charts.css";

export interface ChartGridProps {
  readonly chart: ChartView;
  /** Findings of the book; those outside this chart are passed over. */
  readonly findings: readonly Finding[];
  onSetCell(row: number, column: number, text: string): void;
  /** A row after `afterRow`, -1 for the first. */
  onAddRow(afterRow: number, cells: readonly string[]): void;
  onRemoveRow(row: number): void;
  /**
   * Without it rows cannot be moved here. `afterRow` counts as the rows stand now, -1 for the first place.
   */
  onMoveRow?(row: number, afterRow: number): void;
  /**
   * A pasted block, from this cell on; rows beyond the last are to be added. Without it cells are set one by
   * one.
   */
  onSetBlock?(row: number, column: number, cells: readonly (readonly string[])[]): void;
  onRepair(repair: Repair): void;
  /** Rows that decided for the chosen job. */
  readonly decided?: readonly number[];
  /** Rows that no job reaches, as was proved. */
  readonly never?: readonly number[];
  /**
   * In a layer: the book that each row stands in, undefined for the own ones. A row underneath takes another
   * value as an own row of the same conditions; it is not moved, taken out, or given other conditions.
   */
  readonly layers?: readonly (string | undefined)[];
  readonly readOnly?: boolean;
}

export function ChartGrid(props: ChartGridProps) {
  const {
    chart,
    findings,
    onSetCell,
    onAddRow,
    onRemoveRow,
    onMoveRow,
    onRepair,
    decided = [],
    never = [],
    layers = [],
    readOnly = false,
  } = props;
  const [active, setActive] = useState<Cell>({ line: 0, column: 0 });
  const [anchor, setAnchor] = useState<Cell>();
  const [writing, setWriting] = useState<{
    readonly at: Cell;
    readonly startWith: string;
    readonly selectAll: boolean;
  }>();
  const [draft, setDraft] = useState<Draft>();
  const [pending, setPending] = useState<ReadonlyMap<string, string>>(new Map());
  const [said, setSaid] = useState("");
  const table = useRef<HTMLTableElement>(null);
  const focusNext = useRef(false);
  // Set when a row comes or goes by this grid: the focus is taken up again once the chart has changed.
  const focusThen = useRef(false);

  const lines = useMemo(() => withDraft(gridLines(chart), draft), [chart, draft]);
  const own = useMemo(() => findingsOfChart(chart, findings), [chart, findings]);
  const columns = chart.columns;
  const line = lines[Math.min(active.line, lines.length - 1)];
  const at: Cell = {
    line: Math.min(active.line, Math.max(0, lines.length - 1)),
    column: Math.min(active.column, columns.length - 1),
  };
  const activeRow = line?.is === "row" ? line.row : undefined;
  const underneath = activeRow === undefined ? undefined : layers[activeRow];

  // Before the one below, which may move to another cell: the focus then follows once that cell is drawn.
  useEffect(() => {
    if (!focusNext.current || writing !== undefined) return;
    focusNext.current = false;
    table.current?.querySelector<HTMLElement>('[data-here="yes"]')?.focus();
  });
  // What was just written is shown at once; the book's own answer takes its place.
  useEffect(() => {
    setPending(new Map());
    if (!focusThen.current) return;
    focusThen.current = false;
    focusNext.current = true;
    // A filled hole leaves its value to be written: that is where the hand wants to be.
    const blank = lines.findIndex(
      (one) => one.is === "row" && chart.rows[one.row]?.cells.some((cell) => cell.text === ""),
    );
    const open = lines[blank];
    if (open?.is === "row")
      setActive({
        line: blank,
        column: chart.rows[open.row]?.cells.findIndex((cell) => cell.text === "") ?? 0,
      });
  }, [chart]);

  const textOf = (one: Line | undefined, column: number): string => {
    if (one?.is === "draft") return draft?.cells[column] ?? "";
    if (one?.is === "row")
      return pending.get(`${one.row} ${column}`) ?? chart.rows[one.row]?.cells[column]?.text ?? "";
    return "";
  };

  function go(to: Cell, extend = false): void {
    const next = {
      line: clamp(to.line, 0, lines.length - 1),
      column: clamp(to.column, 0, columns.length - 1),
    };
    setAnchor(extend ? (anchor ?? at) : undefined);
    setActive(next);
    focusNext.current = true;
  }

  function write(startWith: string, selectAll: boolean): void {
    if (readOnly || line === undefined || line.is === "hole") return;
    if (underneath !== undefined && columns[at.column]?.role === "condition")
      return setSaid(keptThere(underneath));
    setWriting({ at, startWith, selectAll });
  }

  function done(text: string, leave: Leave): void {
    if (writing === undefined) return;
    // The cell that was written, which need not be the active one: a press elsewhere moves that first.
    const spot = writing.at;
    const written = lines[spot.line];
    setWriting(undefined);
    focusNext.current = leave !== "stay";
    if (written?.is === "draft" && draft !== undefined) return draftWritten(draft, spot, text, leave);
    if (written?.is !== "row") return;
    const next = text === "" && columns[spot.column]?.role === "condition" ? "any" : text;
    if (next !== "" && next !== textOf(written, spot.column)) {
      setPending(new Map(pending).set(`${written.row} ${spot.column}`, next));
      setSaid("");
      onSetCell(written.row, spot.column, next);
    }
    if (leave !== "stay") go(onward(spot, STEPS[leave], columns.length));
  }

  function draftWritten(old: Draft, spot: Cell, text: string, leave: Leave): void {
    const cells = old.cells.map((cell, i) => (i === spot.column ? text : cell));
    const nextEmpty = cells.indexOf("");
    if (nextEmpty < 0) {
      setDraft(undefined);
      onAddRow(old.after, cells);
      setSaid("The row is in the chart.");
      focusThen.current = true;
      return;
    }
    setDraft({ ...old, cells });
    if (leave === "stay") return;
    const next: Cell = {
      line: spot.line,
      column: leave === "left" ? Math.max(0, spot.column - 1) : nextEmpty,
    };
    setActive(next);
    setWriting({ at: next, startWith: cells[next.column] ?? "", selectAll: true });
  }

  function startDraft(after: number): void {
    if (readOnly) return;
    const next: Draft = { after, cells: columns.map(() => "") };
    setDraft(next);
    const place = withDraft(gridLines(chart), next).findIndex((one) => one.is === "draft");
    const first: Cell = { line: place, column: 0 };
    setActive(first);
    setAnchor(undefined);
    setWriting({ at: first, startWith: "", selectAll: true });
  }

  function dropDraft(): void {
    setDraft(undefined);
    setWriting(undefined);
    focusNext.current = true;
    setSaid("The new row is put away.");
  }

  function move(by: 1 | -1): void {
    if (activeRow === undefined || onMoveRow === undefined || readOnly) return;
    const to = activeRow + by;
    if (to < 0 || to >= chart.rows.length) return;
    onMoveRow(activeRow, by === 1 ? to : to - 1);
    const place = lines.findIndex((one) => one.is === "row" && one.row === to);
    go({ line: place, column: at.column });
  }

  function remove(): void {
    if (line?.is === "draft") return dropDraft();
    if (activeRow === undefined || readOnly) return;
    if (underneath !== undefined) return setSaid(keptThere(underneath));
    onRemoveRow(activeRow);
    setSaid("The row is taken out. Undo brings it back.");
    focusThen.current = true;
  }

  function fill(repair: Repair): void {
    focusThen.current = true;
    onRepair(repair);
    setSaid("The hole has a row. Write its value.");
  }

  function paste(text: string): void {
    const block = readTabbed(text);
    if (readOnly || activeRow === undefined || block.length === 0) return;
    setSaid(
      block.length === 1 && block[0]!.length === 1
        ? "One cell pasted."
        : `${block.length} by ${block[0]!.length} cells pasted.`,
    );
    if (props.onSetBlock !== undefined) return props.onSetBlock(activeRow, at.column, block);
    block.forEach((cells, i) => {
      if (activeRow + i >= chart.rows.length) {
        if (at.column === 0 && cells.length >= columns.length)
          onAddRow(activeRow + i - 1, cells.slice(0, columns.length));
        return;
      }
      cells
        .slice(0, columns.length - at.column)
        .forEach((cell, j) => onSetCell(activeRow + i, at.column + j, cell));
    });
  }

  const from = {
    line: Math.min(at.line, anchor?.line ?? at.line),
    column: Math.min(at.column, anchor?.column ?? at.column),
  };
  const to = {
    line: Math.max(at.line, anchor?.line ?? at.line),
    column: Math.max(at.column, anchor?.column ?? at.column),
  };
  const inBlock = (i: number, column: number) =>
    anchor !== undefined && i >= from.line && i <= to.line && column >= from.column && column <= to.column;
  const block = (): string[][] =>
    lines
      .slice(from.line, to.line + 1)
      .filter((one) => one.is !== "hole")
      .map((one) => columns.slice(from.column, to.column + 1).map((_, i) => textOf(one, from.column + i)));

  function onKeyDown(event: React.KeyboardEvent): void {
    if (writing !== undefined || (event.target as HTMLElement).closest("td") === null) return;
    const wish = wishOf(event, at, { line: lines.length - 1, column: columns.length - 1 });
    // On a hole, Enter and letters are for its button.
    if (wish === undefined || (line?.is === "hole" && wish.does !== "go")) return;
    event.preventDefault();
    switch (wish.does) {
      case "go":
        return go(wish.to, wish.extend);
      case "shift-row":
        return move(wish.by);
      case "write":
        return write(textOf(line, at.column), false);
      case "type":
        return write(wish.letter, false);
      case "new-row":
        return startDraft(activeRow ?? chart.rows.length - 1);
      case "escape":
        return draft === undefined ? setAnchor(undefined) : dropDraft();
      case "remove-row":
        return remove();
      case "clear":
        if (readOnly) return;
        if (underneath === undefined && activeRow !== undefined && columns[at.column]?.role === "condition")
          onSetCell(activeRow, at.column, "any");
        else write("", false);
    }
  }

  const conditions = columns.filter((column) => column.role === "condition").length;
  return (
    <section className="chart-grid" aria-label={`Chart ${chart.name}`}>
      <p className="chart-reads">
        {modeInWords(chart.mode)} {outsideInWords(chart)}
      </p>
      <div className="chart-scroll">
        <div className="chart-sheet" style={{ paddingRight: bracketsWidth(chart.clashes) }}>
          <table
            ref={table}
            role="grid"
            aria-label={`Rows of ${chart.name}`}
            aria-readonly={readOnly}
            onKeyDown={onKeyDown}
            onCopy={(event) => {
              if (writing !== undefined) return;
              event.clipboardData.setData("text/plain", writeTabbed(block()));
              event.preventDefault();
            }}
            onPaste={(event) => {
              if (writing !== undefined) return;
              paste(event.clipboardData.getData("text/plain"));
              event.preventDefault();
            }}
          >
            <thead>
              <tr className="chart-roles">
                {conditions > 0 && (
                  <th colSpan={conditions} scope="colgroup">
                    for
                  </th>
                )}
                {columns.length > conditions && (
                  <th colSpan={columns.length - conditions} scope="colgroup" className="chart-first-value">
                    gives
                  </th>
                )}
              </tr>
              <tr className="chart-names">
                {columns.map((column, i) => (
                  <th key={i} scope="col" className={columnClass(columns, i)}>
                    <span className="chart-name">{column.name}</span>
                    {column.unit !== "" && (
                      <span className="chart-unit">
                        <span className="out-of-sight"> in </span>
                        {column.unit}
                      </span>
                    )}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {lines.map((one, i) =>
                one.is === "hole" ? (
                  <tr key={`hole ${one.hole}`} className="chart-hole">
                    <td colSpan={columns.length} onFocus={() => setActive({ line: i, column: at.column })}>
                      <Hole
                        hole={chart.holes[one.hole]!}
                        here={i === at.line}
                        readOnly={readOnly}
                        onRepair={fill}
                      />
                    </td>
                  </tr>
                ) : (
                  <tr
                    key={one.is === "row" ? `row ${one.row}` : "draft"}
                    data-row={one.is === "row" ? one.row : undefined}
                    className={`${rowClass(one, decided, never)}${layers.length === 0 || one.is !== "row" ? "" : layers[one.row] === undefined ? " chart-own" : " chart-under"}`}
                  >
                    {columns.map((column, j) => {
                      const here = i === at.line && j === at.column;
                      const cell = one.is === "row" ? chart.rows[one.row]?.cells[j] : undefined;
                      const found = cell === undefined ? [] : findingsIn(own, cell.at);
                      const text = textOf(one, j);
                      return (
                        <td
                          key={j}
                          tabIndex={here ? 0 : -1}
                          data-here={here ? "yes" : undefined}
                          aria-selected={here || inBlock(i, j)}
                          aria-invalid={found.some((finding) => finding.weight === "error") || undefined}
                          title={found[0]?.says}
                          className={[
                            columnClass(columns, j),
                            here ? "chart-here" : "",
                            inBlock(i, j) ? "chart-block" : "",
                            found[0] === undefined ? "" : `chart-found-${found[0].weight}`,
                          ].join(" ")}
                          onFocus={() => !here && setActive({ line: i, column: j })}
                          onMouseDown={(event) => {
                            if (writing?.at.line === i && writing.at.column === j) return;
                            go({ line: i, column: j }, event.shiftKey);
                          }}
                          onDoubleClick={() => write(text, false)}
                        >
                          {writing !== undefined && writing.at.line === i && writing.at.column === j ? (
                            <ChartCell
                              key={`${i} ${j}`}
                              column={column}
                              words={wordsFor(column)}
                              hint={hintFor(column, chart.mode)}
                              startWith={writing.startWith}
                              selectAll={writing.selectAll}
                              label={`${column.name}${column.unit === "" ? "" : ` in ${column.unit}`}`}
                              onDone={done}
                              onEscape={() => {
                                setWriting(undefined);
                                focusNext.current = true;
                                if (draft !== undefined && draft.cells.every((value) => value === ""))
                                  dropDraft();
                              }}
                            />
                          ) : text === "" ? (
                            <span className="chart-blank">to be written</span>
                          ) : (
                            <span className={text === "any" ? "chart-text chart-any" : "chart-text"}>
                              {text}
                            </span>
                          )}
                          {j === columns.length - 1 && one.is === "row" && layers.length > 0 && (
                            <span className="chart-layer">{layers[one.row] ?? "here"}</span>
                          )}
                          {j === columns.length - 1 && one.is === "row" && never.includes(one.row) && (
                            <span className="chart-never-says">never reached</span>
                          )}
                          {j === 0 && one.is === "row" && decided.includes(one.row) && (
                            <span className="out-of-sight"> (decided for the chosen job)</span>
                          )}
                        </td>
                      );
                    })}
                  </tr>
                ),
              )}
            </tbody>
          </table>
          {chart.clashes.length > 0 && <ClashBrackets clashes={chart.clashes} table={table} />}
        </div>
      </div>
      {!readOnly && (
        <div className="chart-tools" role="toolbar" aria-label="Rows">
          <button
            type="button"
            className="button"
            aria-keyshortcuts="Control+Enter"
            onClick={() => startDraft(activeRow ?? chart.rows.length - 1)}
          >
            Add a row below
          </button>
          {onMoveRow !== undefined && (
            <button
              type="button"
              className="button"
              aria-keyshortcuts="Alt+ArrowUp"
              disabled={activeRow === undefined || activeRow === 0}
              onClick={() => move(-1)}
            >
              Move up
            </button>
          )}
          {onMoveRow !== undefined && (
            <button
              type="button"
              className="button"
              aria-keyshortcuts="Alt+ArrowDown"
              disabled={activeRow === undefined || activeRow === chart.rows.length - 1}
              onClick={() => move(1)}
            >
              Move down
            </button>
          )}
          <button
            type="button"
            className="button"
            aria-keyshortcuts="Control+Delete"
            disabled={
              line?.is === "hole" ||
              underneath !== undefined ||
              (activeRow !== undefined && chart.rows.length < 2)
            }
            onClick={remove}
          >
            {line?.is === "draft" ? "Put the new row away" : "Take the row out"}
          </button>
          <button
            type="button"
            className="button"
            onClick={() =>
              void navigator.clipboard.writeText(chartAsTabbed(chart)).then(
                () => setSaid("The chart is copied, with tabs between cells."),
                () => setSaid("This browser did not allow copying."),
              )
            }
          >
            Copy all
          </button>
          <span className="chart-said" role="status">
            {said}
          </span>
        </div>
      )}
      <Troubles chart={chart} findings={own} readOnly={readOnly} onRepair={onRepair} />
    </section>
  );
}

const keptThere = (layer: string): string =>
  `This row stands in ${layer} and is kept as it is there. Another value written into it counts here; for other conditions add a row.`;
