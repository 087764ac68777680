// A chart as the engine reads it, and the rows that decided for a job.
import { useEffect, useState } from "react";
import type { ChartView } from "../../../core/view.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";
import type { WorkbenchStore } from "../store/document.ts";

/** Undefined until it is read, "none" where it cannot be read as a grid. */
export function useChart(store: WorkbenchStore, text: string, name: string): ChartView | undefined | "none" {
  const [chart, setChart] = useState<ChartView | undefined | "none">();
  useEffect(() => {
    let current = true;
    void store
      .ask((engine) => engine.chart(text, name))
      .then((found) => {
        if (current) setChart(found ?? "none");
      });
    return () => {
      current = false;
    };
  }, [store, name, text]);
  return chart;
}

/** The rows of a chart that decided for a job. */
export function useDecidedRows(
  store: WorkbenchStore,
  text: string,
  chart: ChartView | undefined | "none",
  name: string,
  job: JobTag | undefined,
): readonly number[] {
  const [decided, setDecided] = useState<readonly number[]>([]);
  useEffect(() => {
    if (!job || !chart || chart === "none") {
      setDecided([]);
      return undefined;
    }
    let current = true;
    void store
      .ask((engine) =>
        engine.why(text, { id: job.id, answers: job.answers }, `chart ${name}`, "deciding", "book"),
      )
      .then((trace) => {
        const at = trace?.steps[0]?.at;
        if (!current) return;
        setDecided(
          chart.rows.flatMap((row, n) => (at && row.at.start <= at.start && at.end <= row.at.end ? [n] : [])),
        );
      });
    return () => {
      current = false;
    };
  }, [store, chart, job, name, text]);
  return decided;
}
