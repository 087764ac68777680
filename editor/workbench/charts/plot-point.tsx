// A point of a curve, which can be moved by the pointer or by the arrow keys.
import { useRef } from "react";
import { type Curve, xOf, yOf } from "./curve-words.ts";
import { type Point, roundStep, snap, written } from "./geometry.ts";
import { EDGE, HEIGHT, LETTER, type Place, rises } from "./plot-place.ts";

export interface Moved extends Point {
  readonly row: number;
}

export interface PlotPointProps {
  readonly point: Moved;
  readonly moved?: Moved;
  readonly neighbours: { readonly low: number; readonly high: number };
  readonly place: Place;
  onMove?(to: Moved | undefined): void;
  onLetGo(at: Moved | undefined): void;
}

/** One point. Moved but not yet set, it shows both places, as a drawing shows a revision. */
export function PlotPoint(props: PlotPointProps) {
  const { point, moved, place, onMove } = props;
  const { x, y, curve } = place;
  const at = moved ?? point;
  const handlers = useMoving(props);
  const says = `${xOf(curve, at.x)} gives ${yOf(curve, at.y)}`;
  const slider =
    onMove === undefined
      ? {}
      : {
          role: "slider",
          tabIndex: 0,
          "aria-label": `Row at ${xOf(curve, point.x)}`,
          "aria-orientation": "vertical" as const,
          "aria-valuenow": at.y,
          "aria-valuemin": place.yReach.low,
          "aria-valuemax": place.yReach.high,
          "aria-valuetext": moved === undefined ? says : `${says}, not yet set`,
          ...handlers,
        };
  const label = moved === undefined ? written(at.y) : says;
  const [px, py, ox, oy] = [x(at.x), y(at.y), x(point.x), y(point.y)];
  const state =
    (moved === undefined ? "" : " plot-point-moved") + (onMove === undefined ? "" : " plot-point-live");
  return (
    <g className={`plot-point${state}`} {...slider}>
      {moved !== undefined && (
        <path
          className="plot-was"
          d={`M${ox - 6} ${oy - 6}l12 12M${ox - 6} ${oy + 6}l12 -12M${ox} ${oy}L${px} ${py}`}
        />
      )}
      <circle className="plot-grip" cx={px} cy={py} r={22} />
      <circle className="plot-dot" cx={px} cy={py} r={5} />
      <path className="plot-cross" d={`M${px - 10} ${py}h20M${px} ${py - 10}v20`} />
      <text {...labelPlace(place, px, py, label)}>{label}</text>
    </g>
  );
}

/** How a point is moved: by the arrow keys, and by the pointer. */
function useMoving({ point, moved, neighbours, place, onMove, onLetGo }: PlotPointProps) {
  const { x, y } = place;
  const at = moved ?? point;
  const drag = useRef<{ readonly dx: number; readonly dy: number } | undefined>(undefined);
  const letGo = (to: Moved | undefined): void => {
    drag.current = undefined;
    onLetGo(to);
  };
  return {
    onKeyDown: (event: React.KeyboardEvent): void => {
      const step = arrowStep(event, place);
      if (step) onMove?.(movedTo(point, neighbours, place, at.x + step.x, at.y + step.y));
      else if (event.key === "Enter") onLetGo(moved);
      else if (event.key === "Escape") onLetGo(undefined);
      else return;
      event.preventDefault();
    },
    onBlur: (): void => {
      if (drag.current === undefined) onLetGo(moved);
    },
    onPointerDown: (event: React.PointerEvent<SVGGElement>): void => {
      event.currentTarget.setPointerCapture(event.pointerId);
      drag.current = { dx: x(at.x) - event.clientX, dy: y(at.y) - event.clientY };
    },
    onPointerMove: (event: React.PointerEvent): void => {
      if (drag.current === undefined) return;
      const [px, py] = [event.clientX + drag.current.dx, event.clientY + drag.current.dy];
      // A hand that means one direction only gets it.
      const nx = Math.abs(px - x(point.x)) < 5 ? point.x : x.back(px);
      const ny = Math.abs(py - y(point.y)) < 5 ? point.y : y.back(py);
      onMove?.(movedTo(point, neighbours, place, nx, ny));
    },
    onPointerUp: () => letGo(moved),
    onPointerCancel: () => letGo(undefined),
  };
}

/** The smallest round steps that can be seen. */
const stepsOf = ({ xReach, yReach }: Place) => ({
  x: roundStep((xReach.high - xReach.low) / 240),
  y: roundStep((yReach.high - yReach.low) / 160),
});

/** What an arrow key adds to a point, ten steps with Shift; undefined for other keys. */
function arrowStep(
  key: { readonly key: string; readonly shiftKey: boolean },
  place: Place,
): Point | undefined {
  const steps = stepsOf(place);
  const by = key.shiftKey ? 10 : 1;
  switch (key.key) {
    case "ArrowUp":
      return { x: 0, y: steps.y * by };
    case "ArrowDown":
      return { x: 0, y: -steps.y * by };
    case "ArrowRight":
      return { x: steps.x * by, y: 0 };
    case "ArrowLeft":
      return { x: -steps.x * by, y: 0 };
    default:
      return undefined;
  }
}

/**
 * A point moved there in round steps. Points keep their order; a direction that does not change stays exact.
 */
function movedTo(
  point: Moved,
  neighbours: PlotPointProps["neighbours"],
  place: Place,
  nx: number,
  ny: number,
): Moved {
  const steps = stepsOf(place);
  return {
    row: point.row,
    x:
      nx === point.x
        ? nx
        : Math.min(neighbours.high - steps.x, Math.max(neighbours.low + steps.x, snap(nx, steps.x))),
    y: ny === point.y ? ny : snap(ny, steps.y),
  };
}

/**
 * A point's label is below the line, on its free side; above, where the edge of the drawing leaves no room.
 */
function labelPlace(
  { curve, width }: Place,
  px: number,
  py: number,
  says: string,
): { x: number; y: number; textAnchor: "start" | "middle" | "end" } {
  const wide = says.length * LETTER + 10;
  if (py + 22 > HEIGHT - EDGE.bottom) return { x: px, y: py - 16, textAnchor: "middle" };
  if (rises(curve))
    return px + wide > width - EDGE.right
      ? { x: px, y: py + 24, textAnchor: "middle" }
      : { x: px + 8, y: py + 20, textAnchor: "start" };
  return px - wide < EDGE.left
    ? { x: px + 10, y: py - 10, textAnchor: "start" }
    : { x: px - 8, y: py + 20, textAnchor: "end" };
}

/** The x of the points before and after; endless where there is none. */
export function neighboursOf(curve: Curve, point: Moved): { low: number; high: number } {
  let low = -Infinity,
    high = Infinity;
  for (const other of curve.points) {
    if (other.row === point.row) continue;
    if (other.x < point.x) low = Math.max(low, other.x);
    if (other.x > point.x) high = Math.min(high, other.x);
  }
  return { low, high };
}
