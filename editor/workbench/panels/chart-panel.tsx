// A chart opened beside the sheet: its grid, and its curve or map, with the jobs of the sheet marked on it.
import type { ChartView, VerificationView } from "../../../core/view.ts";
import { moveRow, setBlock, setPoint } from "../charts/chart-edits.ts";
import { ChartGrid } from "../charts/chart-grid.tsx";
import { ChartMap } from "../charts/chart-map.tsx";
import { ChartPlot } from "../charts/chart-plot.tsx";
import { plottedJobs } from "../charts/plotted-jobs.ts";
import type { Proving } from "../../client/engine/proof-messages.ts";
import type { Snapshot, StatementEdit } from "../../client/engine/messages.ts";
import { isLayer, lineAt } from "../sheet/layer-rows.ts";
import { neverRows } from "../standing/proved-findings.ts";
import type { WorkbenchStore } from "../store/document.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";
import { useChart, useDecidedRows } from "./use-chart.ts";

export interface ChartPanelProps {
  readonly bench: WorkbenchStore;
  readonly name: string;
  readonly onName: (name: string) => void;
  readonly jobs: readonly JobTag[];
  readonly job: JobTag | undefined;
  readonly snapshot: Snapshot;
  readonly standing?: Proving<VerificationView>;
  readonly readOnly: boolean;
}

export function ChartPanel(props: ChartPanelProps) {
  const { bench: store, name, snapshot, job } = props;
  const chart = useChart(store, snapshot.text, name);
  const decided = useDecidedRows(store, snapshot.text, chart, name, job);
  if (chart === undefined) return <p>Opening the chart…</p>;
  return (
    <div className="chart-side">
      <OtherCharts snapshot={snapshot} name={name} onName={props.onName} />
      {chart === "none" ? (
        <p>This chart cannot be read as a grid yet. Its text says what is wrong with it; see the findings.</p>
      ) : (
        <OpenChart {...props} chart={chart} decided={decided} />
      )}
    </div>
  );
}

function OtherCharts(props: Pick<ChartPanelProps, "snapshot" | "name" | "onName">) {
  const charts = props.snapshot.rows.flatMap((row) =>
    row.keyword === "chart" && row.name !== undefined ? [row.name] : [],
  );
  if (charts.length <= 1) return null;
  return (
    <label className="chart-another">
      <span className="label">Chart shown</span>
      <select className="field" value={props.name} onChange={(event) => props.onName(event.target.value)}>
        {charts.map((one) => (
          <option key={one}>{one}</option>
        ))}
      </select>
    </label>
  );
}

function OpenChart(
  props: ChartPanelProps & { readonly chart: ChartView; readonly decided: readonly number[] },
) {
  const { bench: store, name, snapshot, chart, standing } = props;
  const never = neverRows(standing?.text === snapshot.text ? standing.view : undefined, name, chart.rows);
  const layers = layersOf(chart, snapshot);
  const edit = (change: StatementEdit): void => void store.statement(change);
  const jobs = props.jobs.flatMap((one) => {
    const view = snapshot.jobs[one.id];
    return view ? [{ name: one.name, view, chosen: one.id === props.job?.id }] : [];
  });
  return (
    <>
      <ChartGrid
        chart={chart}
        findings={snapshot.findings}
        readOnly={props.readOnly}
        decided={props.decided}
        never={never}
        layers={layers}
        onSetCell={(row, column, text) => edit({ does: "set-cell", chart: name, row, column, text })}
        onAddRow={(after, cells) => edit({ does: "add-row", chart: name, after, cells })}
        onRemoveRow={(row) => edit({ does: "remove-row", chart: name, row })}
        onMoveRow={layers.length > 0 ? undefined : (row, after) => edit(moveRow(chart, row, after))}
        onSetBlock={(row, column, cells) => edit(setBlock(chart, row, column, cells))}
        onRepair={(repair) => store.edit(repair.edits)}
      />
      {chart.curve ? (
        <ChartPlot
          chart={chart}
          jobs={plottedJobs(chart, jobs)}
          onSetPoint={props.readOnly ? undefined : (row, x, y) => edit(setPoint(chart, row, x, y))}
        />
      ) : (
        <ChartMap chart={chart} rows={snapshot.rows} asks={snapshot.asks} never={never} jobs={jobs} />
      )}
    </>
  );
}

/**
 * In a layer: the book that each row comes from, undefined for own rows; empty where all rows are own. Such
 * rows are put in order by the language and are not moved by hand.
 */
function layersOf(chart: ChartView, snapshot: Snapshot): readonly (string | undefined)[] {
  if (!isLayer(snapshot)) return [];
  const layers = chart.rows.map(({ at }) =>
    at.start <= snapshot.text.length ? undefined : lineAt(snapshot, at).layer,
  );
  return layers.some((layer) => layer !== undefined) ? layers : [];
}
