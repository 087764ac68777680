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
export function PlotPoint({ point, moved, neighbours, place, onMove, onLetGo }: PlotPointProps) {
  const { x, y, xReach, yReach, curve } = place;
  const at = moved ?? point;
  const drag = useRef<{ readonly dx: number; readonly dy: number } | undefined>(undefined);
  const xStep = roundStep((xReach.high - xReach.low) / 240),
    yStep = roundStep((yReach.high - yReach.low) / 160);

  const to = (nx: number, ny: number): Moved => ({
    row: point.row,
    // Points keep their order; one that does not move in a direction keeps its exact value there.
    x:
      nx === point.x
        ? nx
        : Math.min(neighbours.high - xStep, Math.max(neighbours.low + xStep, snap(nx, xStep))),
    y: ny === point.y ? ny : snap(ny, yStep),
  });

  function onKeyDown(event: React.KeyboardEvent): void {
    if (onMove === undefined) return;
    const by = event.shiftKey ? 10 : 1;
    switch (event.key) {
      case "ArrowUp":
        onMove(to(at.x, at.y + yStep * by));
        break;
      case "ArrowDown":
        onMove(to(at.x, at.y - yStep * by));
        break;
      case "ArrowRight":
        onMove(to(at.x + xStep * by, at.y));
        break;
      case "ArrowLeft":
        onMove(to(at.x - xStep * by, at.y));
        break;
      case "Enter":
        onLetGo(moved);
        break;
      case "Escape":
        onLetGo(undefined);
        break;
      default:
        return;
    }
    event.preventDefault();
  }

  const says = `${xOf(curve, at.x)} gives ${yOf(curve, at.y)}`;
  const moves =
    onMove === undefined
      ? {}
      : {
          role: "slider",
          tabIndex: 0,
          "aria-label": `Row at ${xOf(curve, point.x)}`,
          "aria-orientation": "vertical" as const,
          "aria-valuenow": at.y,
          "aria-valuemin": yReach.low,
          "aria-valuemax": yReach.high,
          "aria-valuetext": moved === undefined ? says : `${says}, not yet set`,
          onKeyDown,
          onBlur: () => drag.current === undefined && onLetGo(moved),
          onPointerDown: (event: React.PointerEvent<SVGGElement>) => {
            event.currentTarget.setPointerCapture(event.pointerId);
            drag.current = { dx: x(at.x) - event.clientX, dy: y(at.y) - event.clientY };
          },
          onPointerMove: (event: React.PointerEvent) => {
            if (drag.current === undefined) return;
            const px = event.clientX + drag.current.dx,
              py = event.clientY + drag.current.dy;
            // A hand that means one direction only gets it.
            const nx = Math.abs(px - x(point.x)) < 5 ? point.x : x.back(px),
              ny = Math.abs(py - y(point.y)) < 5 ? point.y : y.back(py);
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
  const px = x(at.x),
    py = y(at.y),
    ox = x(point.x),
    oy = y(point.y);
  return (
    <g
      className={`plot-point${moved === undefined ? "" : " plot-point-moved"}${onMove === undefined ? "" : " plot-point-live"}`}
      {...moves}
    >
      {moved !== undefined && (
        <path
          className="plot-was"
          d={`M${ox - 6} ${oy - 6}l12 12M${ox - 6} ${oy + 6}l12 -12M${ox} ${oy}L${px} ${py}`}
        />
      )}
      <circle className="plot-grip" cx={px} cy={py} r={22} />
      <circle className="plot-dot" cx={px} cy={py} r={5} />
      <path className="plot-cross" d={`M${px - 10} ${py}h20M${px} ${py - 10}v20`} />
      <text {...labelPlace(place, px, py, told)}>{told}</text>
    </g>
  );
}

/**
 * A point's label stands below the line, on its free side; above, where the edge of the drawing leaves no
 * room.
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
