// The paper of a curve's drawing: faint ruling, both axes as dimension lines, stretches
// without a value, and ends that are held.
import { type Reach, ticks, written } from "./geometry.ts";
import { EDGE, HEIGHT, type Place } from "./plot-place.ts";

/** Faint lines at the round numbers. */
export function Ruling({ x, y, xReach, yReach, width }: Place) {
  return (
    <g className="plot-ruling">
      {ticks(xReach, width / 90).map((at) => (
        <line key={`x${at}`} x1={x(at)} x2={x(at)} y1={EDGE.top} y2={HEIGHT - EDGE.bottom} />
      ))}
      {ticks(yReach, 5).map((at) => (
        <line key={`y${at}`} x1={EDGE.left} x2={width - EDGE.right} y1={y(at)} y2={y(at)} />
      ))}
    </g>
  );
}

/** Both axes, drawn as dimension lines with heads at their ends and the unit in a gap. */
export function Dimensions({ curve, x, y, xReach, yReach, width }: Place) {
  const base = HEIGHT - EDGE.bottom + 14,
    side = EDGE.left - 14;
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
          <text x={x(at)} y={base + 20} textAnchor="middle">
            {written(at)}
          </text>
        </g>
      ))}
      {ticks(yReach, 5).map((at) => (
        <g key={at}>
          <line x1={side - 4} x2={side + 4} y1={y(at)} y2={y(at)} />
          <text x={side - 9} y={y(at) + 4.5} textAnchor="end">
            {written(at)}
          </text>
        </g>
      ))}
      <text className="plot-axis-name" x={(left + right) / 2} y={base + 42} textAnchor="middle">
        {named(curve.x, curve.xUnit)}
      </text>
      <text className="plot-axis-name" x={8} y={top - 14}>
        {named(curve.y, curve.yUnit)}
      </text>
    </g>
  );
}

const named = (name: string, unit: string): string => (unit === "" ? name : `${name}, ${unit}`);

/** A stretch without a value. */
export function Gap({ gap, fill, x }: Place & { readonly gap: Reach; readonly fill: string }) {
  const left = x(gap.low),
    wide = x(gap.high) - left;
  return (
    <g className="plot-gap">
      <rect x={left} y={EDGE.top} width={wide} height={HEIGHT - EDGE.top - EDGE.bottom} fill={fill} />
      <path
        d={`M${left} ${EDGE.top}V${HEIGHT - EDGE.bottom}M${left + wide} ${EDGE.top}V${HEIGHT - EDGE.bottom}`}
      />
      {wide > 60 && (
        <text x={left + wide / 2} y={EDGE.top + 18} textAnchor="middle">
          no row
        </text>
      )}
    </g>
  );
}

/** The end values held on to the edges of the drawing. */
export function Held({ curve, x, y, xReach }: Place) {
  const points = curve.line.flat().sort((a, b) => a.x - b.x);
  const first = points[0],
    last = points.at(-1);
  if (first === undefined || last === undefined) return null;
  return (
    <path
      className="plot-riser"
      d={`M${x(xReach.low)} ${y(first.y)}H${x(first.x)}M${x(last.x)} ${y(last.y)}H${x(xReach.high)}`}
    />
  );
}
