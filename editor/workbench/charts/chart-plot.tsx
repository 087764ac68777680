// The curve of a chart over one number, as a drawing: the line with its points, axes
// as dimension lines, holes hatched, and the jobs laid alongside hung at their places.
// It says in words what it shows.
import { useEffect, useId, useRef, useState } from "react";
import type { ChartView } from "../../../core/view.ts";
import { withKeys } from "../unique-keys.ts";
import { type Curve, curveInWords, type PlottedJob } from "./curve-words.ts";
import { gapsBetween, pathThrough, type Reach, reachOf, risers, scale, withRoom } from "./geometry.ts";
import { Dimensions, Gap, Held, Ruling } from "./plot-axes.tsx";
import { Jobs } from "./plot-jobs.tsx";
import { EDGE, HEIGHT, type Place } from "./plot-place.ts";
import { type Moved, neighboursOf, PlotPoint } from "./plot-point.tsx";
import "./charts.css";

export interface ChartPlotProps {
  readonly chart: ChartView;
  /** Jobs laid alongside, in the units of the curve. */
  readonly jobs?: readonly PlottedJob[];
  /** Without it the points stay where they are. Called once a point is let go, in the units of the curve. */
  onSetPoint?(row: number, x: number, y: number): void;
}

export function ChartPlot({ chart, jobs = [], onSetPoint }: ChartPlotProps) {
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  const id = useId();
  const { curve } = chart;
  if (curve === undefined)
    return (
      <p className="plot-none">
        This chart has no curve: it is not over one number, or its rows cannot be read yet.
      </p>
    );
  const steps = chart.mode !== "straight" && chart.mode !== "curve";
  const place = plotPlace(curve, jobs, width);
  return (
    <figure className="chart-plot" ref={host}>
      <figcaption className="plot-title">
        {curve.y} over {curve.x}
      </figcaption>
      <p id={`${id}-says`} className="out-of-sight">
        {curveInWords(curve, chart.mode, jobs)}
      </p>
      <svg
        width={width}
        height={HEIGHT}
        viewBox={`0 0 ${width} ${HEIGHT}`}
        role="group"
        aria-label={`Curve of ${chart.name}`}
        aria-describedby={`${id}-says`}
      >
        <Patterns id={id} />
        <PlotLines chart={chart} jobs={jobs} place={place} id={id} steps={steps} />
        {!steps && <PlotPoints chart={chart} place={place} onSetPoint={onSetPoint} />}
      </svg>
      {onSetPoint !== undefined && !steps && (
        <p className="plot-how">
          Drag a point, or choose it and use the arrow keys. Enter sets it, Escape puts it back.
        </p>
      )}
    </figure>
  );
}

/** The scales of the drawing: all of the curve and the jobs fit, with room around them. */
function plotPlace(curve: Curve, jobs: readonly PlottedJob[], width: number): Place {
  const all = [...curve.line.flat(), ...curve.points, ...jobs];
  const xReach = withRoom(reachOf(all.map((point) => point.x)), 0.06);
  const yReach = withRoom(reachOf(all.map((point) => point.y)), 0.16);
  const x = scale(xReach, EDGE.left, Math.max(EDGE.left + 60, width - EDGE.right));
  const y = scale(yReach, HEIGHT - EDGE.bottom, EDGE.top);
  return { curve, x, y, xReach, yReach, width };
}

const Patterns = ({ id }: { readonly id: string }) => (
  <defs>
    <pattern
      id={`${id}-hatch`}
      width="7"
      height="7"
      patternUnits="userSpaceOnUse"
      patternTransform="rotate(45)"
    >
      <line x1="0" y1="0" x2="0" y2="7" className="plot-hatch" />
    </pattern>
    <pattern
      id={`${id}-faint`}
      width="9"
      height="9"
      patternUnits="userSpaceOnUse"
      patternTransform="rotate(45)"
    >
      <line x1="0" y1="0" x2="0" y2="9" className="plot-hatch-faint" />
    </pattern>
  </defs>
);

/** All that cannot be moved: ruling, axes, holes, the line and the jobs. */
function PlotLines(props: {
  readonly chart: ChartView;
  readonly jobs: readonly PlottedJob[];
  readonly place: Place;
  readonly id: string;
  readonly steps: boolean;
}) {
  const { chart, place, id, steps } = props;
  const { curve, x, y } = place;
  const lineReach = reachOf(curve.line.flat().map((point) => point.x));
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in this part of the drawing takes the focus
    <g aria-hidden="true">
      <Ruling {...place} />
      {chart.outside === "nothing" && (
        <Outside place={place} lineReach={lineReach} fill={`url(#${id}-faint)`} />
      )}
      {gapsBetween(curve.line, lineReach).map((gap) => (
        <Gap key={gap.low} gap={gap} fill={`url(#${id}-hatch)`} {...place} />
      ))}
      <Dimensions {...place} />
      {steps &&
        risers(curve.line, lineReach).map((riser) => (
          <line
            key={riser.x}
            className="plot-riser"
            x1={x(riser.x)}
            x2={x(riser.x)}
            y1={y(riser.from)}
            y2={y(riser.to)}
          />
        ))}
      {withKeys(curve.line, (piece) => String(piece[0]?.x)).map(({ key, item: piece }) => (
        <path
          key={key}
          className={steps ? "plot-line plot-step" : "plot-line"}
          d={pathThrough(piece, x, y)}
        />
      ))}
      {chart.outside === "hold-ends" && <Held {...place} />}
      <Jobs jobs={props.jobs} {...place} />
    </g>
  );
}

/** Faint hatching where the chart has no value before the first row and after the last. */
function Outside(props: { readonly place: Place; readonly lineReach: Reach; readonly fill: string }) {
  const { place, lineReach } = props;
  const { x, xReach } = place;
  const sides = [
    { low: xReach.low, high: lineReach.low },
    { low: lineReach.high, high: xReach.high },
  ];
  return sides.map(({ low, high }) => (
    <rect
      key={low}
      x={x(low)}
      y={EDGE.top}
      width={Math.max(0, x(high) - x(low))}
      height={HEIGHT - EDGE.top - EDGE.bottom}
      fill={props.fill}
    />
  ));
}

/** The points of the rows. One that was moved but not set is forgotten when the chart changes. */
function PlotPoints(props: {
  readonly chart: ChartView;
  readonly place: Place;
  readonly onSetPoint: ChartPlotProps["onSetPoint"];
}) {
  const { chart, place, onSetPoint } = props;
  const { curve } = place;
  const [moving, setMoving] = useState<{ readonly chart: ChartView; readonly to: Moved | undefined }>();
  const moved = moving?.chart === chart ? moving.to : undefined;
  const setMoved = (to: Moved | undefined): void => setMoving({ chart, to });
  return curve.points.map((point) => (
    <PlotPoint
      key={point.row}
      point={point}
      moved={moved?.row === point.row ? moved : undefined}
      neighbours={neighboursOf(curve, point)}
      place={place}
      onMove={onSetPoint === undefined ? undefined : setMoved}
      onLetGo={(at) => {
        if (at === undefined || (at.x === point.x && at.y === point.y)) setMoved(undefined);
        else onSetPoint?.(point.row, at.x, at.y);
      }}
    />
  ));
}

/** The width of an element in whole px, kept up to date; 640 until it is known. */
function useWidth(host: React.RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(640);
  useEffect(() => {
    const node = host.current;
    if (node === null) return;
    const watch = new ResizeObserver(
      ([entry]) => entry !== undefined && setWidth(Math.max(280, Math.floor(entry.contentRect.width))),
    );
    watch.observe(node);
    return () => watch.disconnect();
  }, [host]);
  return width;
}
