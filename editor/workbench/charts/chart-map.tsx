// A chart over two conditions drawn as a map: one field for each case, holes hatched, two rows in one field
// hatched crosswise, and the jobs laid alongside as points. Bands are drawn alike wide, so the map is not to
// scale and says so.
import { useId, useMemo, useState } from "react";
import type { AskView, ChartView, JobView, Row } from "../../../core/view.ts";
import { mapOf, placeOn, weightOf } from "./chart-map-places.ts";
import type { Axis, ChartMap as Map } from "./chart-map-places.ts";
import { written } from "./geometry.ts";
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
      <Drawing
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

const W = 700;
const left = 150,
  right = 18,
  top = 14,
  below = 58,
  field = 50;

function Drawing({ chart, map, jobs, never = [] }: ChartMapProps & { readonly map: Map }) {
  const id = useId();
  const xs = placesOf(map.x, left, W - right);
  const tall = map.y.stretches.reduce((sum, one) => sum + weightOf(one), 0);
  const bottom = top + tall * field;
  const ys = placesOf(map.y, top, bottom);
  const value = (row: number): string =>
    chart.columns
      .flatMap((column, at) => (column.role === "value" ? [chart.rows[row]?.cells[at]?.text ?? ""] : []))
      .join(" · ");
  return (
    <svg
      className="map-drawing"
      viewBox={`0 0 ${W} ${bottom + below}`}
      role="img"
      aria-labelledby={`${id}-says`}
    >
      <title id={`${id}-says`}>
        {inWords(
          chart,
          map,
          jobs.map((job) => job.name),
          value,
        )}
      </title>
      <defs>
        <pattern
          id={`${id}-hole`}
          width="7"
          height="7"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line className="plot-hatch" x1="0" y1="0" x2="0" y2="7" />
        </pattern>
        <pattern id={`${id}-clash`} width="6" height="6" patternUnits="userSpaceOnUse">
          <path className="plot-hatch" d="M0 0l6 6M6 0L0 6" />
        </pattern>
      </defs>
      {map.fields.map((line, j) =>
        line.map((rows, i) => {
          const [x, y, width, height] = [xs[i]!, ys[j]!, xs[i + 1]! - xs[i]!, ys[j + 1]! - ys[j]!];
          if (width === 0 || height === 0) return null;
          const clash = rows.length > 1 && chart.mode === "rows";
          return (
            <rect
              key={`${i} ${j}`}
              className="map-field"
              x={x}
              y={y}
              width={width}
              height={height}
              style={{
                fill: rows.length === 0 ? `url(#${id}-hole)` : clash ? `url(#${id}-clash)` : undefined,
              }}
            />
          );
        }),
      )}
      {joined(map).map((one) => {
        const [x, y] = [
          (xs[one.from]! + xs[one.to]!) / 2,
          ys[one.line]! +
            (ys[one.line + 1]! - ys[one.line]!) *
              (jobs.length > 0 && "word" in map.y.stretches[one.line]! ? 0.34 : 0.5),
        ];
        const room = Math.floor((xs[one.to]! - xs[one.from]!) / 7.2);
        const says =
          one.rows.length === 0
            ? "no row"
            : (chart.mode === "first-row-wins" ? one.rows.slice(0, 1) : one.rows).map(value).join(" / ");
        return (
          <g
            key={`${one.line} ${one.from}`}
            className={
              one.rows.length === 0
                ? "map-hole"
                : one.rows.some((row) => never.includes(row))
                  ? "map-never"
                  : undefined
            }
          >
            <rect
              className="map-region"
              x={xs[one.from]}
              y={ys[one.line]}
              width={xs[one.to]! - xs[one.from]!}
              height={ys[one.line + 1]! - ys[one.line]!}
            />
            <text x={x} y={y + 4.5} textAnchor="middle">
              {says.length > room ? `${says.slice(0, Math.max(1, room - 1))}…` : says}
            </text>
          </g>
        );
      })}
      {edges(map).map((edge) => (
        <line
          key={`${edge.i} ${edge.j}`}
          className="map-edge"
          x1={xs[edge.i]}
          x2={xs[edge.i]}
          y1={ys[edge.j]}
          y2={ys[edge.j + 1]}
        />
      ))}
      <Labels axis={map.x} places={xs} at={bottom} along />
      <Labels axis={map.y} places={ys} at={left} />
      <text className="map-axis" x={(left + W - right) / 2} y={bottom + 46} textAnchor="middle">
        {named(map.x)}
      </text>
      {jobs.map((job, n) => {
        const [x, y] = [placeOn(map.x, job.view), placeOn(map.y, job.view)];
        if (x === undefined || y === undefined) return null;
        const [px, py] = [
          xs[x.stretch]! + (xs[x.stretch + 1]! - xs[x.stretch]!) * x.part,
          ys[y.stretch]! +
            (ys[y.stretch + 1]! - ys[y.stretch]!) *
              (map.y.stretches[y.stretch] && "word" in map.y.stretches[y.stretch]! ? 0.74 : y.part),
        ];
        const toLeft = px > W - 160;
        return (
          <g key={`${job.name} ${n}`} className={job.chosen ? "plot-job plot-job-chosen" : "plot-job"}>
            <circle cx={px} cy={py} r={job.chosen ? 5.5 : 4.5} />
            <text x={px + (toLeft ? -9 : 9)} y={py + 4} textAnchor={toLeft ? "end" : "start"}>
              {job.name}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

/** The words on an axis, or the ends of its bands as ticks. */
function Labels({
  axis,
  places,
  at,
  along = false,
}: {
  readonly axis: Axis;
  readonly places: readonly number[];
  readonly at: number;
  readonly along?: boolean;
}) {
  return (
    <g>
      {axis.stretches.map((one, n) => {
        const middle = (places[n]! + places[n + 1]!) / 2;
        if ("word" in one)
          return along ? (
            <text key={n} x={middle} y={at + 20} textAnchor="middle">
              {one.word}
            </text>
          ) : (
            <text key={n} x={at - 10} y={middle + 4.5} textAnchor="end">
              {one.word}
            </text>
          );
        if (one.low !== one.high) return null;
        return along ? (
          <g key={n}>
            <line className="map-tick" x1={middle} x2={middle} y1={at} y2={at + 7} />
            <text x={middle} y={at + 22} textAnchor="middle">
              {written(one.low)}
            </text>
          </g>
        ) : (
          <g key={n}>
            <line className="map-tick" x1={at - 7} x2={at} y1={middle} y2={middle} />
            <text x={at - 11} y={middle + 4.5} textAnchor="end">
              {written(one.low)}
            </text>
          </g>
        );
      })}
    </g>
  );
}

const named = (axis: Axis): string => (axis.unit === "" ? axis.name : `${axis.name}, ${axis.unit}`);

/** Where each stretch begins, and where the last one ends. */
function placesOf(axis: Axis, from: number, to: number): readonly number[] {
  const all = axis.stretches.reduce((sum, one) => sum + weightOf(one), 0) || 1;
  let done = 0;
  return [
    from,
    ...axis.stretches.map((one) => {
      done += weightOf(one);
      return from + ((to - from) * done) / all;
    }),
  ];
}

/** Fields beside each other with the same rows, as one. */
function joined(map: Map): readonly {
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly rows: readonly number[];
}[] {
  return map.fields.flatMap((line, j) => {
    if (weightOf(map.y.stretches[j]!) === 0) return [];
    const found: { line: number; from: number; to: number; rows: readonly number[] }[] = [];
    line.forEach((rows, i) => {
      if (weightOf(map.x.stretches[i]!) === 0) return;
      const last = found.at(-1);
      if (last && last.rows.join() === rows.join() && !("word" in map.x.stretches[i]!)) last.to = i + 1;
      else found.push({ line: j, from: i, to: i + 1, rows });
    });
    return found;
  });
}

/** Single ends along the map that no row takes in, though both sides have one: a hole as thin as a line. */
const edges = (map: Map): readonly { readonly i: number; readonly j: number }[] =>
  map.fields.flatMap((line, j) =>
    line.flatMap((rows, i) => {
      const sides = [line[i - 1], line[i + 1]];
      return weightOf(map.x.stretches[i]!) === 0 &&
        weightOf(map.y.stretches[j]!) > 0 &&
        rows.length === 0 &&
        sides.every((side) => side === undefined || side.length > 0)
        ? [{ i, j }]
        : [];
    }),
  );

function inWords(
  chart: ChartView,
  map: Map,
  jobs: readonly string[],
  value: (row: number) => string,
): string {
  const holes = map.fields.flatMap((line) => line.filter((rows) => rows.length === 0)).length;
  const held = map.held.map((one) => `${one.name} ${one.word}`).join(", ");
  const gives = [...new Set(map.fields.flat(2).map(value))].join(", ");
  return `Map of ${chart.name}: ${map.y.name} against ${map.x.name}${held === "" ? "" : `, for ${held}`}. It gives ${gives}. ${holes === 0 ? "Every field has a row." : `${holes} ${holes === 1 ? "field has" : "fields have"} no row.`}${jobs.length === 0 ? "" : ` Jobs: ${jobs.join(", ")}.`}`;
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
