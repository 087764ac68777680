// The head and the rows of a chart's grid.
import type { ChartColumn } from "../../../core/view.ts";
import { withKeys } from "../unique-keys.ts";
import type { Grid } from "./chart-grid.tsx";
import { Hole } from "./chart-troubles.tsx";
import { GridCell } from "./grid-cell.tsx";
import type { Line } from "./grid-steps.ts";
import { columnClass, rowClass } from "./grid-steps.ts";

export function GridHead({ columns }: { readonly columns: readonly ChartColumn[] }) {
  const conditions = columns.filter((column) => column.role === "condition").length;
  return (
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
        {withKeys(columns, (column) => column.name).map(({ key, item: column, index }) => (
          <th key={key} scope="col" className={columnClass(columns, index)}>
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
  );
}

export function GridBody(grid: Grid) {
  return (
    <tbody>
      {grid.state.lines.map((line, index) =>
        line.is === "hole" ? (
          <HoleRow key={`hole ${line.hole}`} {...grid} hole={line.hole} index={index} />
        ) : (
          <GridRow
            key={line.is === "row" ? `row ${line.row}` : "draft"}
            {...grid}
            line={line}
            index={index}
          />
        ),
      )}
    </tbody>
  );
}

/** A line where a row is missing. */
function HoleRow({
  props,
  state,
  acts,
  hole,
  index,
}: Grid & { readonly hole: number; readonly index: number }) {
  const { chart } = props;
  const { at } = state;
  return (
    <tr className="chart-hole">
      <td colSpan={chart.columns.length} onFocus={() => state.setActive({ line: index, column: at.column })}>
        <Hole
          hole={chart.holes[hole]!}
          here={index === at.line}
          readOnly={props.readOnly}
          onRepair={acts.fillHole}
        />
      </td>
    </tr>
  );
}

function GridRow(row: Grid & { readonly line: Line; readonly index: number }) {
  const { props, line, index } = row;
  const number = line.is === "row" ? line.row : undefined;
  const layer =
    props.layers.length === 0 || number === undefined
      ? ""
      : props.layers[number] === undefined
        ? " chart-own"
        : " chart-under";
  return (
    <tr data-row={number} className={`${rowClass(line, props.decided, props.never)}${layer}`}>
      {withKeys(props.chart.columns, (column) => column.name).map(({ key, index: column }) => (
        <GridCell key={key} {...row} place={{ line: index, column }} />
      ))}
    </tr>
  );
}
