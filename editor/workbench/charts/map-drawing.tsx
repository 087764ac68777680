// The drawing of a chart's map: one field for each case, holes hatched, two rows in one field hatched
// crosswise, and the jobs of the sheet as points.
import { useId } from "react";
import type { ChartView } from "../../../core/view.ts";
import { withKeys } from "../unique-keys.ts";
import type { ChartMapProps } from "./chart-map.tsx";
import type { Axis, ChartMap } from "./chart-map-places.ts";
import type { MapPlaces, Region } from "./map-geometry.ts";
import { along, edges, joined, jobPoint, mapInWords, mapSize, placesOfMap } from "./map-geometry.ts";
import { MapLabels, stretchKey } from "./map-labels.tsx";

interface DrawingProps extends Pick<ChartMapProps, "chart" | "jobs" | "never"> {
  readonly map: ChartMap;
}

/** What the parts of the drawing share. */
interface PartProps extends DrawingProps {
  readonly places: MapPlaces;
  /** Makes the ids of its patterns unique in the page. */
  readonly id: string;
}

export function MapDrawing(props: DrawingProps) {
  const { chart, map, jobs } = props;
  const id = useId();
  const places = placesOfMap(map);
  const { xs, ys, bottom } = places;
  const { width, left, right, below } = mapSize;
  const part = { ...props, places, id };
  const names = jobs.map((job) => job.name);
  return (
    <svg
      className="map-drawing"
      viewBox={`0 0 ${width} ${bottom + below}`}
      role="img"
      aria-labelledby={`${id}-says`}
    >
      <title id={`${id}-says`}>{mapInWords(chart, map, names, (row) => rowValue(chart, row))}</title>
      <Patterns id={id} />
      <Fields {...part} />
      {joined(map).map((region) => (
        <RegionText key={`${region.line} ${region.from}`} {...part} region={region} />
      ))}
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
      <MapLabels axis={map.x} places={xs} at={bottom} across />
      <MapLabels axis={map.y} places={ys} at={left} />
      <text className="map-axis" x={(left + width - right) / 2} y={bottom + 46} textAnchor="middle">
        {axisName(map.x)}
      </text>
      <JobPoints {...part} />
    </svg>
  );
}

const axisName = (axis: Axis): string => (axis.unit === "" ? axis.name : `${axis.name}, ${axis.unit}`);

/** The values of a row, as they are written. */
const rowValue = (chart: ChartView, row: number): string =>
  chart.columns
    .flatMap((column, at) => (column.role === "value" ? [chart.rows[row]?.cells[at]?.text ?? ""] : []))
    .join(" · ");

const Patterns = ({ id }: { readonly id: string }) => (
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
);

function Fields({ chart, map, places, id }: PartProps) {
  const { xs, ys } = places;
  return map.y.stretches.map((row, j) =>
    map.x.stretches.map((column, i) => {
      const rows = map.fields[j]?.[i] ?? [];
      const [x, y, width, height] = [xs[i]!, ys[j]!, xs[i + 1]! - xs[i]!, ys[j + 1]! - ys[j]!];
      if (width === 0 || height === 0) return null;
      const clash = rows.length > 1 && chart.mode === "rows";
      const fill = rows.length === 0 ? `url(#${id}-hole)` : clash ? `url(#${id}-clash)` : undefined;
      return (
        <rect
          key={`${stretchKey(column)} / ${stretchKey(row)}`}
          className="map-field"
          x={x}
          y={y}
          width={width}
          height={height}
          style={{ fill }}
        />
      );
    }),
  );
}

/** The value of a region, cut off where there is no room for all of it. */
function RegionText({
  chart,
  map,
  jobs,
  never = [],
  places,
  region,
}: PartProps & { readonly region: Region }) {
  const { xs, ys } = places;
  const { line, from, to, rows } = region;
  const stretch = map.y.stretches[line];
  // Beside a word the points of jobs are drawn below the text.
  const part = jobs.length > 0 && stretch && "word" in stretch ? 0.34 : 0.5;
  const room = Math.floor((xs[to]! - xs[from]!) / 7.2);
  const decides = chart.mode === "first-row-wins" ? rows.slice(0, 1) : rows;
  const says = rows.length === 0 ? "no row" : decides.map((row) => rowValue(chart, row)).join(" / ");
  const unreached = rows.some((row) => never.includes(row)) ? "map-never" : undefined;
  return (
    <g className={rows.length === 0 ? "map-hole" : unreached}>
      <rect
        className="map-region"
        x={xs[from]}
        y={ys[line]}
        width={xs[to]! - xs[from]!}
        height={ys[line + 1]! - ys[line]!}
      />
      <text x={(xs[from]! + xs[to]!) / 2} y={along(ys, line, part) + 4.5} textAnchor="middle">
        {says.length > room ? `${says.slice(0, Math.max(1, room - 1))}…` : says}
      </text>
    </g>
  );
}

function JobPoints({ map, jobs, places }: PartProps) {
  return withKeys(jobs, (job) => job.name).map(({ key, item: job }) => {
    const point = jobPoint(map, places, job.view);
    if (point === undefined) return null;
    const toLeft = point.x > mapSize.width - 160;
    return (
      <g key={key} className={job.chosen ? "plot-job plot-job-chosen" : "plot-job"}>
        <circle cx={point.x} cy={point.y} r={job.chosen ? 5.5 : 4.5} />
        <text x={point.x + (toLeft ? -9 : 9)} y={point.y + 4} textAnchor={toLeft ? "end" : "start"}>
          {job.name}
        </text>
      </g>
    );
  });
}
