// The buttons below a chart's grid, for its rows, and what the last deed did.
import { chartAsTabbed } from "./chart-words.ts";
import type { Grid } from "./chart-grid.tsx";

export function GridTools({ props, state, acts }: Grid) {
  const { chart } = props;
  const { activeRow, line } = state;
  const copyAll = (): void =>
    void navigator.clipboard.writeText(chartAsTabbed(chart)).then(
      () => state.setStatus("The chart is copied, with tabs between cells."),
      () => state.setStatus("This browser did not allow copying."),
    );
  return (
    <div className="chart-tools" role="toolbar" aria-label="Rows">
      <button
        type="button"
        className="button"
        aria-keyshortcuts="Control+Enter"
        onClick={() => acts.beginRow(activeRow ?? chart.rows.length - 1)}
      >
        Add a row below
      </button>
      {props.onMoveRow !== undefined && (
        <>
          <MoveRow says="Move up" keys="Alt+ArrowUp" edge={0} by={-1} row={activeRow} onMove={acts.moveRow} />
          <MoveRow
            says="Move down"
            keys="Alt+ArrowDown"
            edge={chart.rows.length - 1}
            by={1}
            row={activeRow}
            onMove={acts.moveRow}
          />
        </>
      )}
      <button
        type="button"
        className="button"
        aria-keyshortcuts="Control+Delete"
        disabled={
          line?.is === "hole" ||
          state.underneath !== undefined ||
          (activeRow !== undefined && chart.rows.length < 2)
        }
        onClick={acts.removeRow}
      >
        {line?.is === "draft" ? "Put the new row away" : "Take the row out"}
      </button>
      <button type="button" className="button" onClick={copyAll}>
        Copy all
      </button>
      <span className="chart-said" role="status">
        {state.status}
      </span>
    </div>
  );
}

function MoveRow(props: {
  readonly says: string;
  readonly keys: string;
  /** The row that cannot be moved further this way. */
  readonly edge: number;
  readonly by: 1 | -1;
  readonly row: number | undefined;
  readonly onMove: (by: 1 | -1) => void;
}) {
  return (
    <button
      type="button"
      className="button"
      aria-keyshortcuts={props.keys}
      disabled={props.row === undefined || props.row === props.edge}
      onClick={() => props.onMove(props.by)}
    >
      {props.says}
    </button>
  );
}
