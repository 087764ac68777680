// One cell of a chart's grid, or the field in which it is written.
import { ChartCell } from "./chart-cell.tsx";
import type { Grid } from "./chart-grid.tsx";
import { findingsIn, hintFor, wordsFor } from "./chart-words.ts";
import type { Cell, Line } from "./grid-steps.ts";
import { columnClass } from "./grid-steps.ts";

interface GridCellProps extends Grid {
  readonly line: Line;
  readonly place: Cell;
}

export function GridCell(cell: GridCellProps) {
  const { props, state, acts, line, place } = cell;
  const { chart } = props;
  const here = place.line === state.at.line && place.column === state.at.column;
  const written = line.is === "row" ? chart.rows[line.row]?.cells[place.column] : undefined;
  const found = written === undefined ? [] : findingsIn(state.findings, written.at);
  const inBlock = acts.inBlock(place.line, place.column);
  const text = acts.textOf(line, place.column);
  const open = state.writing?.at.line === place.line && state.writing.at.column === place.column;
  return (
    // biome-ignore lint/a11y/useAriaPropsSupportedByRole: a cell of a table with the role grid is a gridcell
    <td
      tabIndex={here ? 0 : -1}
      data-here={here ? "yes" : undefined}
      aria-selected={here || inBlock}
      aria-invalid={found.some((finding) => finding.weight === "error") || undefined}
      title={found[0]?.says}
      className={[
        columnClass(chart.columns, place.column),
        here ? "chart-here" : "",
        inBlock ? "chart-block" : "",
        found[0] === undefined ? "" : `chart-found-${found[0].weight}`,
      ].join(" ")}
      onFocus={() => !here && state.setActive(place)}
      onMouseDown={(event) => {
        if (!open) acts.go(place, event.shiftKey);
      }}
      onDoubleClick={() => acts.write(text, false)}
    >
      {open ? <OpenCell {...cell} /> : <CellText text={text} />}
      {line.is === "row" && <RowMarks {...cell} row={line.row} />}
    </td>
  );
}

function OpenCell({ props, state, acts, place }: GridCellProps) {
  const column = props.chart.columns[place.column];
  if (column === undefined || state.writing === undefined) return null;
  return (
    <ChartCell
      key={`${place.line} ${place.column}`}
      column={column}
      words={wordsFor(column)}
      hint={hintFor(column, props.chart.mode)}
      startWith={state.writing.startWith}
      selectAll={state.writing.selectAll}
      label={`${column.name}${column.unit === "" ? "" : ` in ${column.unit}`}`}
      onDone={acts.keepCell}
      onEscape={acts.dropCell}
    />
  );
}

const CellText = ({ text }: { readonly text: string }) =>
  text === "" ? (
    <span className="chart-blank">to be written</span>
  ) : (
    <span className={text === "any" ? "chart-text chart-any" : "chart-text"}>{text}</span>
  );

/** What a row's first and last cells say of the whole row. */
function RowMarks({ props, place, row }: GridCellProps & { readonly row: number }) {
  const last = place.column === props.chart.columns.length - 1;
  return (
    <>
      {last && props.layers.length > 0 && <span className="chart-layer">{props.layers[row] ?? "here"}</span>}
      {last && props.never.includes(row) && <span className="chart-never-says">never reached</span>}
      {place.column === 0 && props.decided.includes(row) && (
        <span className="out-of-sight"> (decided for the chosen job)</span>
      )}
    </>
  );
}
