// The curve of a chart over one number, as a drawing: the line with its points, axes
// as dimension lines, holes hatched, and the jobs laid alongside hung at their places.
// It says in words what it shows.
import { useEffect, useId, useRef, useState } from "react";
import type { ChartView } from "../../../core/view.ts";
import { curveInWords, type LaidJob } from "./curve-words.ts";
import { gapsBetween, pathThrough, reachOf, risers, scale, withRoom } from "./geometry.ts";
import { Dimensions, Gap, Held, Ruling } from "./plot-axes.tsx";
import { Jobs } from "./plot-jobs.tsx";
import { EDGE, HEIGHT, type Place } from "./plot-place.ts";
import { type Moved, neighboursOf, PlotPoint } from "./plot-point.tsx";
import "./charts.css";

export interface ChartPlotProps {
  readonly chart: ChartView;
  /** Jobs laid alongside, in the units of the curve. */
  readonly jobs?: readonly LaidJob[];
  /** Without it the points stay where they are. Called once a point is let go, in the units of the curve. */
  onSetPoint?(row: number, x: number, y: number): void;
}

export function ChartPlot({ chart, jobs = [], onSetPoint }: ChartPlotProps) {
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  const id = useId();
  const [moved, setMoved] = useState<Moved>();
  useEffect(() => setMoved(undefined), [chart]);
  const curve = chart.curve;
  if (curve === undefined)
    return (
      <p className="plot-none">
        This chart has no curve: it is not over one number, or its rows cannot be read yet.
      </p>
    );

  const steps = chart.mode !== "straight" && chart.mode !== "curve";
  const flat = curve.line.flat();
  const all = [...flat, ...curve.points, ...jobs];
  const xReach = withRoom(reachOf(all.map((point) => point.x)), 0.06);
  const yReach = withRoom(reachOf(all.map((point) => point.y)), 0.16);
  const x = scale(xReach, EDGE.left, Math.max(EDGE.left + 60, width - EDGE.right));
  const y = scale(yReach, HEIGHT - EDGE.bottom, EDGE.top);
  const place: Place = { curve, x, y, xReach, yReach, width };
  const lineReach = reachOf(flat.map((point) => point.x));

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
        <g aria-hidden="true">
          <Ruling {...place} />
          {chart.outside === "nothing" &&
            [
              [xReach.low, lineReach.low],
              [lineReach.high, xReach.high],
            ].map(([low, high]) => (
              <rect
                key={low}
                x={x(low!)}
                y={EDGE.top}
                width={Math.max(0, x(high!) - x(low!))}
                height={HEIGHT - EDGE.top - EDGE.bottom}
                fill={`url(#${id}-faint)`}
              />
            ))}
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
          {curve.line.map((piece, i) => (
            <path
              key={i}
              className={steps ? "plot-line plot-step" : "plot-line"}
              d={pathThrough(piece, x, y)}
            />
          ))}
          {chart.outside === "hold-ends" && <Held {...place} />}
          <Jobs jobs={jobs} {...place} />
        </g>
        {!steps &&
          curve.points.map((point) => (
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
          ))}
      </svg>
      {onSetPoint !== undefined && !steps && (
        <p className="plot-how">
          Drag a point, or choose it and use the arrow keys. Enter sets it, Escape puts it back.
        </p>
      )}
    </figure>
  );
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
