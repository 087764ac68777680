// A chart opened beside the sheet: its grid, and its curve or map, with the jobs laid alongside marked on it.
import { useEffect, useState } from "react";
import type { ChartView, VerificationView } from "../../../core/view.ts";
import { ChartGrid } from "../charts/chart-grid.tsx";
import { ChartMap } from "../charts/chart-map.tsx";
import { ChartPlot } from "../charts/chart-plot.tsx";
import { laidJobs, pointAsCells } from "../charts/laid-jobs.ts";
import type { Proving } from "../../client/engine/proof-messages.ts";
import type { Snapshot, StatementEdit } from "../../client/engine/messages.ts";
import { isLayer, lineAt } from "../sheet/layer-rows.ts";
import { neverRows } from "../standing/proved-findings.ts";
import type { WorkbenchStore } from "../store/document.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";

export function ChartPanel(props: {
  readonly bench: WorkbenchStore;
  readonly name: string;
  readonly onName: (name: string) => void;
  readonly jobs: readonly JobTag[];
  readonly job: JobTag | undefined;
  readonly snapshot: Snapshot;
  readonly standing?: Proving<VerificationView>;
  readonly readOnly: boolean;
}) {
  const { bench: store, name, snapshot, job } = props;
  const [chart, setChart] = useState<ChartView | undefined | "none">();
  const [decided, setDecided] = useState<readonly number[]>([]);

  useEffect(() => {
    let current = true;
    void store
      .ask((engine) => engine.chart(snapshot.text, name))
      .then((found) => {
        if (current) setChart(found ?? "none");
      });
    return () => {
      current = false;
    };
  }, [store, name, snapshot.text]);

  useEffect(() => {
    if (!job || !chart || chart === "none") {
      setDecided([]);
      return undefined;
    }
    let current = true;
    void store
      .ask((engine) =>
        engine.why(snapshot.text, { id: job.id, answers: job.answers }, `chart ${name}`, "deciding", "book"),
      )
      .then((trace) => {
        const at = trace?.steps[0]?.at;
        if (current)
          setDecided(
            at
              ? chart.rows.flatMap((row, n) => (row.at.start <= at.start && at.end <= row.at.end ? [n] : []))
              : [],
          );
      });
    return () => {
      current = false;
    };
  }, [store, chart, job, name, snapshot.text]);

  const charts = snapshot.rows.flatMap((row) =>
    row.keyword === "chart" && row.name !== undefined ? [row.name] : [],
  );
  const another = charts.length > 1 && (
    <label className="chart-another">
      <span className="label">Chart shown</span>
      <select className="field" value={name} onChange={(event) => props.onName(event.target.value)}>
        {charts.map((one) => (
          <option key={one}>{one}</option>
        ))}
      </select>
    </label>
  );
  if (chart === undefined) return <p>Opening the chart…</p>;
  if (chart === "none")
    return (
      <div className="chart-side">
        {another}
        <p>This chart cannot be read as a grid yet. Its text says what is wrong with it; see the findings.</p>
      </div>
    );
  const never = neverRows(
    props.standing?.text === snapshot.text ? props.standing.view : undefined,
    name,
    chart.rows,
  );
  // Rows of a layer are put in order by the language: they are not moved by hand.
  const layers = isLayer(snapshot)
    ? chart.rows.map((one) => {
        const { layer } = lineAt(snapshot, one.at);
        return one.at.start <= snapshot.text.length ? undefined : layer;
      })
    : undefined;
  const edit = (wish: StatementEdit): void => void store.statement(wish);
  return (
    <div className="chart-side">
      {another}
      <ChartGrid
        chart={chart}
        findings={snapshot.findings}
        readOnly={props.readOnly}
        decided={decided}
        never={never}
        layers={layers?.some((one) => one !== undefined) ? layers : undefined}
        onSetCell={(row, column, text) => edit({ does: "set-cell", chart: name, row, column, text })}
        onAddRow={(after, cells) => edit({ does: "add-row", chart: name, after, cells })}
        onRemoveRow={(row) => edit({ does: "remove-row", chart: name, row })}
        onMoveRow={
          layers?.some((one) => one !== undefined)
            ? undefined
            : (row, after) => edit(moveRow(chart, row, after))
        }
        onSetBlock={(row, column, cells) => edit(setBlock(chart, row, column, cells))}
        onRepair={(repair) => store.edit(repair.edits)}
      />
      {!chart.curve && (
        <ChartMap
          chart={chart}
          rows={snapshot.rows}
          asks={snapshot.asks}
          never={never}
          jobs={props.jobs.flatMap((one) => {
            const view = snapshot.jobs[one.id];
            return view ? [{ name: one.name, view, chosen: one.id === job?.id }] : [];
          })}
        />
      )}
      {chart.curve && (
        <ChartPlot
          chart={chart}
          jobs={laidJobs(
            chart,
            props.jobs.flatMap((one) => {
              const view = snapshot.jobs[one.id];
              return view ? [{ name: one.name, view, chosen: one.id === job?.id }] : [];
            }),
          )}
          onSetPoint={
            props.readOnly
              ? undefined
              : (row, x, y) =>
                  edit({
                    does: "several",
                    edits: pointAsCells(chart, row, x, y).map((cell) => ({
                      does: "set-cell",
                      chart: name,
                      row,
                      column: cell.column,
                      text: cell.text,
                    })),
                  })
          }
        />
      )}
    </div>
  );
}

function moveRow(chart: ChartView, row: number, after: number): StatementEdit {
  const cells = chart.rows[row]?.cells.map((cell) => cell.text) ?? [];
  return {
    does: "several",
    edits: [
      { does: "remove-row", chart: chart.name, row },
      { does: "add-row", chart: chart.name, after: after > row ? after - 1 : after, cells },
    ],
  };
}

/** Cells beyond the last row become new rows; cells beyond the last column are left out. */
function setBlock(
  chart: ChartView,
  row: number,
  column: number,
  cells: readonly (readonly string[])[],
): StatementEdit {
  const width = chart.columns.length;
  const edits = cells.flatMap((line, n): StatementEdit[] => {
    const at = row + n;
    const fitting = line.slice(0, width - column);
    if (at < chart.rows.length)
      return fitting.map((text, m) => ({
        does: "set-cell",
        chart: chart.name,
        row: at,
        column: column + m,
        text,
      }));
    const whole = Array.from(
      { length: width },
      (_, m) => fitting[m - column] ?? (chart.columns[m]?.role === "condition" ? "any" : ""),
    );
    return [{ does: "add-row", chart: chart.name, after: at - 1, cells: whole }];
  });
  return { does: "several", edits };
}
