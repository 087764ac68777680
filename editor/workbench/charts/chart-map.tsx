// A chart over two conditions drawn as a map, with the words at which further conditions are held. Bands are
// drawn equally wide, so the map is not to scale and says so.
import { useMemo, useState } from "react";
import type { AskView, ChartView, JobView, Row } from "../../../core/view.ts";
import { mapOf } from "./chart-map-places.ts";
import { MapDrawing } from "./map-drawing.tsx";
import "./chart-map.css";

export interface ChartMapProps {
  readonly chart: ChartView;
  /** The book's rows, for the dials that bands name, and its asks, for how far an axis goes. */
  readonly rows: readonly Row[];
  readonly asks: readonly AskView[];
  readonly jobs: readonly { readonly name: string; readonly view: JobView; readonly chosen?: boolean }[];
  /** Rows that no job reaches. */
  readonly never?: readonly number[];
}

/** Draws nothing for a chart that is not over two conditions in bands or words. */
export function ChartMap(props: ChartMapProps) {
  const { chart, rows, asks, jobs } = props;
  const [picked, setPicked] = useState<Readonly<Record<string, string>>>({});
  const chosen = jobs.find((job) => job.chosen);
  const held = useMemo(() => ({ ...wordsOf(chosen?.view), ...picked }), [chosen, picked]);
  const map = useMemo(() => mapOf(chart, rows, asks, held), [chart, rows, asks, held]);
  if (map === undefined) return null;
  return (
    <figure className="chart-map">
      <figcaption className="plot-title">
        {map.y.name} against {map.x.name}
      </figcaption>
      {map.held.length > 0 && (
        <p className="map-held">
          {map.held.map((one) => (
            <label key={one.name}>
              for {one.name}{" "}
              <select
                className="field"
                value={one.word}
                onChange={(event) => setPicked({ ...picked, [one.name]: event.target.value })}
              >
                {one.words.map((word) => (
                  <option key={word}>{word}</option>
                ))}
              </select>
            </label>
          ))}
        </p>
      )}
      <MapDrawing
        {...props}
        map={map}
        jobs={jobs.filter((job) =>
          map.held.every((one) => {
            const word = wordsOf(job.view)[one.name];
            return word === one.word;
          }),
        )}
      />
      <p className="plot-how">Hatched: no row. Bands are drawn alike wide; the map is not to scale.</p>
    </figure>
  );
}

/** The job's words by name, for the conditions that are held. */
function wordsOf(view: JobView | undefined): Readonly<Record<string, string>> {
  return Object.fromEntries(
    (view?.values ?? []).flatMap(({ name, state, value }) =>
      state !== "known"
        ? []
        : typeof value === "string"
          ? [[name, value]]
          : typeof value === "boolean"
            ? [[name, value ? "yes" : "no"]]
            : [],
    ),
  );
}
