// A chart as a typed grid: conditions on the left of the double line, values on its right. Holes are hatched
// where a row is missing, clashes are bracketed. Cells are written in place.
import type { KeyboardEvent } from "react";
import { modeInWords, outsideInWords } from "./chart-words.ts";
import { Troubles } from "./chart-troubles.tsx";
import { ClashBrackets, bracketsWidth } from "./clash-brackets.tsx";
import type { GridActions } from "./grid-actions.ts";
import { gridActions } from "./grid-actions.ts";
import type { ChartGridProps } from "./grid-props.ts";
import { GridBody, GridHead } from "./grid-rows.tsx";
import { gridKey } from "./grid-steps.ts";
import { GridTools } from "./grid-tools.tsx";
import type { GridState } from "./use-grid-state.ts";
import { useGridState } from "./use-grid-state.ts";
import "./charts.css";

export function ChartGrid(props: ChartGridProps) {
  const { chart, readOnly } = props;
  const state = useGridState(props);
  const grid = { props, state, acts: gridActions(props, state) };
  return (
    <section className="chart-grid" aria-label={`Chart ${chart.name}`}>
      <p className="chart-reads">
        {modeInWords(chart.mode)} {outsideInWords(chart)}
      </p>
      <div className="chart-scroll">
        <div className="chart-sheet" style={{ paddingRight: bracketsWidth(chart.clashes) }}>
          <GridTable {...grid} />
          {chart.clashes.length > 0 && <ClashBrackets clashes={chart.clashes} table={state.table} />}
        </div>
      </div>
      {!readOnly && <GridTools {...grid} />}
      <Troubles chart={chart} findings={state.findings} readOnly={readOnly} onRepair={props.onRepair} />
    </section>
  );
}

/** The grid as its parts take it: what it is given, its state, and what can be done. */
export interface Grid {
  readonly props: ChartGridProps;
  readonly state: GridState;
  readonly acts: GridActions;
}

function GridTable(grid: Grid) {
  const { props, state, acts } = grid;
  const { chart } = props;
  const idle = state.writing === undefined;
  const press = (event: KeyboardEvent): void => {
    if (!idle || (event.target as HTMLElement).closest("td") === null) return;
    const last = { line: state.lines.length - 1, column: chart.columns.length - 1 };
    const effect = gridKey(event, state.at, last);
    // On a hole, Enter and letters are for its button.
    if (effect === undefined || (state.line?.is === "hole" && effect.does !== "go")) return;
    event.preventDefault();
    acts.carryOut(effect);
  };
  return (
    <table
      ref={state.table}
      role="grid"
      aria-label={`Rows of ${chart.name}`}
      aria-readonly={props.readOnly}
      onKeyDown={press}
      onCopy={(event) => {
        if (!idle) return;
        event.clipboardData.setData("text/plain", acts.copied());
        event.preventDefault();
      }}
      onPaste={(event) => {
        if (!idle) return;
        acts.paste(event.clipboardData.getData("text/plain"));
        event.preventDefault();
      }}
    >
      <GridHead columns={chart.columns} />
      <GridBody {...grid} />
    </table>
  );
}
