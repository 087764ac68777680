// The curve of a chart over one number, as a drawing: the line with its points, axes
// as dimension lines, holes hatched, and the jobs laid alongside hung at their places.
// It says in words what it shows.
import { useEffect, useId, useRef, useState } from "react";
import type { ChartView } from "../../../core/view.ts";
import { type Curve, curveInWords, type LaidJob, xOf, yOf } from "./curve-words.ts";
import { clean, gapsBetween, pathThrough, type Point, type Reach, reachOf, risers, roundStep, type Scale, scale, snap, spread, ticks, withRoom, written } from "./geometry.ts";
import "./charts.css";

export interface ChartPlotProps {
  readonly chart: ChartView;
  /** Jobs laid alongside, in the units of the curve. */
  readonly jobs?: readonly LaidJob[];
  /** Without it the points stay where they are. Called once a point is let go, in the units of the curve. */
  onSetPoint?(row: number, x: number, y: number): void;
}

interface Moved extends Point { readonly row: number }

const HEIGHT = 360;
const EDGE = { left: 76, right: 26, top: 34, bottom: 66 };

export function ChartPlot({ chart, jobs = [], onSetPoint }: ChartPlotProps) {
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  const id = useId();
  const [moved, setMoved] = useState<Moved>();
  useEffect(() => setMoved(undefined), [chart]);
  const curve = chart.curve;
  if (curve === undefined) return <p className="plot-none">This chart has no curve: it is not over one number, or its rows cannot be read yet.</p>;

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
      <figcaption className="plot-title">{curve.y} over {curve.x}</figcaption>
      <p id={`${id}-says`} className="out-of-sight">{curveInWords(curve, chart.mode, jobs)}</p>
      <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} role="group" aria-label={`Curve of ${chart.name}`} aria-describedby={`${id}-says`}>
        <defs>
          <pattern id={`${id}-hatch`} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="7" className="plot-hatch" /></pattern>
          <pattern id={`${id}-faint`} width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="9" className="plot-hatch-faint" /></pattern>
        </defs>
        <g aria-hidden="true">
          <Ruling {...place} />
          {chart.outside === "nothing" && [[xReach.low, lineReach.low], [lineReach.high, xReach.high]].map(([low, high]) => (
            <rect key={low} x={x(low!)} y={EDGE.top} width={Math.max(0, x(high!) - x(low!))} height={HEIGHT - EDGE.top - EDGE.bottom} fill={`url(#${id}-faint)`} />
          ))}
          {gapsBetween(curve.line, lineReach).map((gap) => <Gap key={gap.low} gap={gap} fill={`url(#${id}-hatch)`} {...place} />)}
          <Dimensions {...place} />
          {steps && risers(curve.line, lineReach).map((riser) => <line key={riser.x} className="plot-riser" x1={x(riser.x)} x2={x(riser.x)} y1={y(riser.from)} y2={y(riser.to)} />)}
          {curve.line.map((piece, i) => <path key={i} className={steps ? "plot-line plot-step" : "plot-line"} d={pathThrough(piece, x, y)} />)}
          {chart.outside === "hold-ends" && <Held {...place} />}
          <Jobs jobs={jobs} {...place} />
        </g>
        {!steps && curve.points.map((point) => (
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
      {onSetPoint !== undefined && !steps && <p className="plot-how">Drag a point, or choose it and use the arrow keys. Enter sets it, Escape puts it back.</p>}
    </figure>
  );
}

interface Place {
  readonly curve: Curve;
  readonly x: Scale;
  readonly y: Scale;
  readonly xReach: Reach;
  readonly yReach: Reach;
  readonly width: number;
}

/** Faint lines at the round numbers. */
function Ruling({ x, y, xReach, yReach, width }: Place) {
  return (
    <g className="plot-ruling">
      {ticks(xReach, width / 90).map((at) => <line key={`x${at}`} x1={x(at)} x2={x(at)} y1={EDGE.top} y2={HEIGHT - EDGE.bottom} />)}
      {ticks(yReach, 5).map((at) => <line key={`y${at}`} x1={EDGE.left} x2={width - EDGE.right} y1={y(at)} y2={y(at)} />)}
    </g>
  );
}

/** Both axes, drawn as dimension lines with heads at their ends and the unit in a gap. */
function Dimensions({ curve, x, y, xReach, yReach, width }: Place) {
  const base = HEIGHT - EDGE.bottom + 14, side = EDGE.left - 14;
  const [left, right, top, bottom] = [EDGE.left, width - EDGE.right, EDGE.top, HEIGHT - EDGE.bottom];
  return (
    <g className="plot-axes">
      <path d={`M${left} ${base}H${right}M${left} ${bottom}V${base + 6}M${right} ${bottom}V${base + 6}`} />
      <path d={`M${side} ${bottom}V${top}M${left} ${bottom}H${side - 6}M${left} ${top}H${side - 6}`} />
      <path className="plot-head" d={`M${left} ${base}l11 -3.5v7zM${right} ${base}l-11 -3.5v7z`} />
      <path className="plot-head" d={`M${side} ${bottom}l-3.5 -11h7zM${side} ${top}l-3.5 11h7z`} />
      {ticks(xReach, width / 90).map((at) => (
        <g key={at}>
          <line x1={x(at)} x2={x(at)} y1={base - 4} y2={base + 4} />
          <text x={x(at)} y={base + 20} textAnchor="middle">{written(at)}</text>
        </g>
      ))}
      {ticks(yReach, 5).map((at) => (
        <g key={at}>
          <line x1={side - 4} x2={side + 4} y1={y(at)} y2={y(at)} />
          <text x={side - 9} y={y(at) + 4.5} textAnchor="end">{written(at)}</text>
        </g>
      ))}
      <text className="plot-axis-name" x={(left + right) / 2} y={base + 42} textAnchor="middle">{named(curve.x, curve.xUnit)}</text>
      <text className="plot-axis-name" x={8} y={top - 14}>{named(curve.y, curve.yUnit)}</text>
    </g>
  );
}

const named = (name: string, unit: string): string => (unit === "" ? name : `${name}, ${unit}`);

/** A stretch without a value. */
function Gap({ gap, fill, x }: Place & { readonly gap: Reach; readonly fill: string }) {
  const left = x(gap.low), wide = x(gap.high) - left;
  return (
    <g className="plot-gap">
      <rect x={left} y={EDGE.top} width={wide} height={HEIGHT - EDGE.top - EDGE.bottom} fill={fill} />
      <path d={`M${left} ${EDGE.top}V${HEIGHT - EDGE.bottom}M${left + wide} ${EDGE.top}V${HEIGHT - EDGE.bottom}`} />
      {wide > 60 && <text x={left + wide / 2} y={EDGE.top + 18} textAnchor="middle">no row</text>}
    </g>
  );
}

/** The end values held on to the edges of the drawing. */
function Held({ curve, x, y, xReach }: Place) {
  const points = curve.line.flat().sort((a, b) => a.x - b.x);
  const first = points[0], last = points.at(-1);
  if (first === undefined || last === undefined) return null;
  return <path className="plot-riser" d={`M${x(xReach.low)} ${y(first.y)}H${x(first.x)}M${x(last.x)} ${y(last.y)}H${x(xReach.high)}`} />;
}

/** About the width of a letter of the drawing, in px. */
const LETTER = 6.6;

/** Whether the line goes up on the whole: the free side of it is then upper left and lower right. */
function rises(curve: Curve): boolean {
  const points = curve.line.flat();
  const first = points[0], last = points.at(-1);
  return first !== undefined && last !== undefined && last.y > first.y;
}

/** Jobs laid alongside: a leader from both axes to the curve, and a tag with the name. */
function Jobs({ jobs, x, y, xReach, yReach, width, curve }: Place & { readonly jobs: readonly LaidJob[] }) {
  const shown = jobs.filter((job) => Number.isFinite(job.x) && Number.isFinite(job.y));
  const rising = rises(curve);
  const heights = spread(shown.map((job) => y(job.y) - 22), 24, { low: EDGE.top + 12, high: HEIGHT - EDGE.bottom - 14 });
  return (
    <>
      {shown.map((job, i) => {
        const px = x(job.x), py = y(job.y), tag = heights[i]!;
        const roomLeft = px - EDGE.left - 26, roomRight = width - EDGE.right - px - 26;
        const whole = `${job.name}: ${yOf(curve, clean(Number(job.y.toPrecision(4))))}`;
        const says = whole.length * LETTER <= Math.max(roomLeft, roomRight) ? whole : job.name;
        // The tag hangs on the free side of the line, unless it would leave the drawing there.
        const wide = says.length * LETTER;
        const toLeft = rising ? roomLeft >= wide || roomLeft > roomRight : roomRight < wide && roomLeft > roomRight;
        const tagX = px + (toLeft ? -18 : 18);
        return (
          <g key={`${job.name} ${i}`} className={job.chosen ? "plot-job plot-job-chosen" : "plot-job"}>
            <path className="plot-leader" d={`M${px} ${y(yReach.low)}V${py}M${x(xReach.low)} ${py}H${px}`} />
            <path className="plot-thread" d={`M${px} ${py}L${tagX} ${tag}`} />
            <circle cx={px} cy={py} r={job.chosen ? 5.5 : 4.5} />
            <text x={tagX + (toLeft ? -4 : 4)} y={tag + 4.5} textAnchor={toLeft ? "end" : "start"}>{says}</text>
          </g>
        );
      })}
    </>
  );
}

interface PlotPointProps {
  readonly point: Moved;
  readonly moved?: Moved;
  readonly neighbours: { readonly low: number; readonly high: number };
  readonly place: Place;
  onMove?(to: Moved | undefined): void;
  onLetGo(at: Moved | undefined): void;
}

/** One point. Moved but not yet set, it shows both places, as a drawing shows a revision. */
function PlotPoint({ point, moved, neighbours, place, onMove, onLetGo }: PlotPointProps) {
  const { x, y, xReach, yReach, curve } = place;
  const at = moved ?? point;
  const drag = useRef<{ readonly dx: number; readonly dy: number } | undefined>(undefined);
  const xStep = roundStep((xReach.high - xReach.low) / 240), yStep = roundStep((yReach.high - yReach.low) / 160);

  const to = (nx: number, ny: number): Moved => ({
    row: point.row,
    // Points keep their order; one that does not move in a direction keeps its exact value there.
    x: nx === point.x ? nx : Math.min(neighbours.high - xStep, Math.max(neighbours.low + xStep, snap(nx, xStep))),
    y: ny === point.y ? ny : snap(ny, yStep),
  });

  function onKeyDown(event: React.KeyboardEvent): void {
    if (onMove === undefined) return;
    const by = event.shiftKey ? 10 : 1;
    switch (event.key) {
      case "ArrowUp": onMove(to(at.x, at.y + yStep * by)); break;
      case "ArrowDown": onMove(to(at.x, at.y - yStep * by)); break;
      case "ArrowRight": onMove(to(at.x + xStep * by, at.y)); break;
      case "ArrowLeft": onMove(to(at.x - xStep * by, at.y)); break;
      case "Enter": onLetGo(moved); break;
      case "Escape": onLetGo(undefined); break;
      default: return;
    }
    event.preventDefault();
  }

  const says = `${xOf(curve, at.x)} gives ${yOf(curve, at.y)}`;
  const moves = onMove === undefined ? {} : {
    role: "slider", tabIndex: 0, "aria-label": `Row at ${xOf(curve, point.x)}`, "aria-orientation": "vertical" as const, "aria-valuenow": at.y,
    "aria-valuemin": yReach.low, "aria-valuemax": yReach.high, "aria-valuetext": moved === undefined ? says : `${says}, not yet set`,
    onKeyDown,
    onBlur: () => drag.current === undefined && onLetGo(moved),
    onPointerDown: (event: React.PointerEvent<SVGGElement>) => {
      event.currentTarget.setPointerCapture(event.pointerId);
      drag.current = { dx: x(at.x) - event.clientX, dy: y(at.y) - event.clientY };
    },
    onPointerMove: (event: React.PointerEvent) => {
      if (drag.current === undefined) return;
      const px = event.clientX + drag.current.dx, py = event.clientY + drag.current.dy;
      // A hand that means one direction only gets it.
      const nx = Math.abs(px - x(point.x)) < 5 ? point.x : x.back(px), ny = Math.abs(py - y(point.y)) < 5 ? point.y : y.back(py);
      onMove(to(nx, ny));
    },
    onPointerUp: () => {
      drag.current = undefined;
      onLetGo(moved);
    },
    onPointerCancel: () => {
      drag.current = undefined;
      onLetGo(undefined);
    },
  };
  const told = moved === undefined ? written(at.y) : says;
  const px = x(at.x), py = y(at.y), ox = x(point.x), oy = y(point.y);
  return (
    <g className={`plot-point${moved === undefined ? "" : " plot-point-moved"}${onMove === undefined ? "" : " plot-point-live"}`} {...moves}>
      {moved !== undefined && <path className="plot-was" d={`M${ox - 6} ${oy - 6}l12 12M${ox - 6} ${oy + 6}l12 -12M${ox} ${oy}L${px} ${py}`} />}
      <circle className="plot-grip" cx={px} cy={py} r={22} />
      <circle className="plot-dot" cx={px} cy={py} r={5} />
      <path className="plot-cross" d={`M${px - 10} ${py}h20M${px} ${py - 10}v20`} />
      <text {...labelPlace(place, px, py, told)}>{told}</text>
    </g>
  );
}

/** A point's label stands below the line, on its free side; above, where the edge of the drawing leaves no room. */
function labelPlace({ curve, width }: Place, px: number, py: number, says: string): { x: number; y: number; textAnchor: "start" | "middle" | "end" } {
  const wide = says.length * LETTER + 10;
  if (py + 22 > HEIGHT - EDGE.bottom) return { x: px, y: py - 16, textAnchor: "middle" };
  if (rises(curve)) return px + wide > width - EDGE.right ? { x: px, y: py + 24, textAnchor: "middle" } : { x: px + 8, y: py + 20, textAnchor: "start" };
  return px - wide < EDGE.left ? { x: px + 10, y: py - 10, textAnchor: "start" } : { x: px - 8, y: py + 20, textAnchor: "end" };
}

function neighboursOf(curve: Curve, point: Moved): { low: number; high: number } {
  let low = -Infinity, high = Infinity;
  for (const other of curve.points) {
    if (other.row === point.row) continue;
    if (other.x < point.x) low = Math.max(low, other.x);
    if (other.x > point.x) high = Math.min(high, other.x);
  }
  return { low, high };
}

/** The width of an element in whole px, kept up to date; 640 until it is known. */
function useWidth(host: React.RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(640);
  useEffect(() => {
    const node = host.current;
    if (node === null) return;
    const watch = new ResizeObserver(([entry]) => entry !== undefined && setWidth(Math.max(280, Math.floor(entry.contentRect.width))));
    watch.observe(node);
    return () => watch.disconnect();
  }, [host]);
  return width;
}
