// The labels of an axis of a chart's map: its words, or the ends of its bands as ticks.
import type { Axis, Stretch } from "./chart-map-places.ts";
import { written } from "./geometry.ts";

export interface MapLabelsProps {
  readonly axis: Axis;
  /** Where each stretch begins, and where the last one ends. */
  readonly places: readonly number[];
  /** The edge of the map that they are at. */
  readonly at: number;
  /** Along the lower edge; else at the left one. */
  readonly across?: boolean;
}

export function MapLabels({ axis, places, at, across = false }: MapLabelsProps) {
  return (
    <g>
      {axis.stretches.map((stretch, n) => {
        const middle = (places[n]! + places[n + 1]!) / 2;
        const label = { stretch, middle, at };
        return across ? (
          <LabelBelow key={stretchKey(stretch)} {...label} />
        ) : (
          <LabelAtLeft key={stretchKey(stretch)} {...label} />
        );
      })}
    </g>
  );
}

interface LabelProps {
  readonly stretch: Stretch;
  readonly middle: number;
  readonly at: number;
}

function LabelBelow({ stretch, middle, at }: LabelProps) {
  if ("word" in stretch)
    return (
      <text x={middle} y={at + 20} textAnchor="middle">
        {stretch.word}
      </text>
    );
  if (stretch.low !== stretch.high) return null;
  return (
    <g>
      <line className="map-tick" x1={middle} x2={middle} y1={at} y2={at + 7} />
      <text x={middle} y={at + 22} textAnchor="middle">
        {written(stretch.low)}
      </text>
    </g>
  );
}

function LabelAtLeft({ stretch, middle, at }: LabelProps) {
  if ("word" in stretch)
    return (
      <text x={at - 10} y={middle + 4.5} textAnchor="end">
        {stretch.word}
      </text>
    );
  if (stretch.low !== stretch.high) return null;
  return (
    <g>
      <line className="map-tick" x1={at - 7} x2={at} y1={middle} y2={middle} />
      <text x={at - 11} y={middle + 4.5} textAnchor="end">
        {written(stretch.low)}
      </text>
    </g>
  );
}

/** A key for a stretch of an axis: no two of one axis are the same. */
export const stretchKey = (stretch: Stretch): string =>
  "word" in stretch ? stretch.word : `${stretch.low} ${stretch.high}`;
