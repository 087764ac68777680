// Marks as SVG: a unit is a millimetre on paper. Numbers of a mark stand in its `data-` attributes.
import type { Data, Drawn, Mark } from "./marks.ts";
import { mm } from "./marks.ts";

/**
 * `id` makes the names of the hatchings this drawing's own; `title` and `words` are for a reader who does not
 * see it.
 */
export function MarksSvg(props: {
  readonly drawn: Drawn;
  readonly id: string;
  readonly title: string;
  readonly words: string;
  readonly className?: string;
}) {
  const { drawn, id } = props;
  return (
    <svg
      className={`draw-sheet ${props.className ?? ""}`}
      viewBox={`0 0 ${drawn.width} ${drawn.height}`}
      role="img"
      aria-labelledby={`${id}-title ${id}-desc`}
      data-width={drawn.width}
      data-height={drawn.height}
      xmlns="http://www.w3.org/2000/svg"
    >
      <title id={`${id}-title`}>{props.title}</title>
      <desc id={`${id}-desc`}>{props.words}</desc>
      <Hatchings id={id} />
      {drawn.marks.map((mark, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a mark is its place in the drawing and nothing else
        <MarkSvg key={i} mark={mark} id={id} />
      ))}
    </svg>
  );
}

function MarkSvg({ mark, id }: { readonly mark: Mark; readonly id: string }) {
  switch (mark.is) {
    case "line": {
      const d =
        mark.points.map(([x, y], i) => `${i === 0 ? "M" : "L"}${mm(x)} ${mm(y)}`).join("") +
        (mark.closed ? "Z" : "");
      return (
        <path
          className={`draw-${mark.ink}${plainFill(mark.fill)}`}
          d={d}
          style={fillStyle(mark.fill, id)}
          {...dataOf(mark.data)}
        />
      );
    }
    case "oval":
      return (
        <ellipse
          className={`draw-${mark.ink}${plainFill(mark.fill)}`}
          cx={mm(mark.x)}
          cy={mm(mark.y)}
          rx={mm(mark.rx)}
          ry={mm(mark.ry)}
          style={fillStyle(mark.fill, id)}
          {...dataOf(mark.data)}
        />
      );
    case "text":
      return (
        <text
          className={
            `draw-text${mark.strong ? " is-strong" : ""}${mark.quiet ? " is-quiet" : ""}` +
            `${mark.accent ? " is-accent" : ""}${mark.halo ? " is-haloed" : ""}`
          }
          x={mm(mark.x)}
          y={mm(mark.y)}
          fontSize={mark.size}
          textAnchor={mark.anchor}
          {...dataOf(mark.data)}
        >
          {mark.text}
        </text>
      );
  }
}

const dataOf = (data: Data | undefined): Readonly<Record<string, string | number>> =>
  Object.fromEntries(Object.entries(data ?? {}).map(([name, value]) => [`data-${name}`, value]));

const HATCHED = new Set([
  "panel",
  "ply",
  "ply-other",
  "core",
  "patch",
  "resin",
  "filler",
  "hardener",
  "total",
  "wait",
  "longest",
  "stopped",
  "tone-1",
  "tone-2",
  "tone-3",
  "tone-4",
  "tone-5",
]);
const plainFill = (fill: string): string => (HATCHED.has(fill) ? "" : ` draw-fill-${fill}`);
const fillStyle = (fill: string, id: string) =>
  HATCHED.has(fill) ? { fill: `url(#${id}-${fill})` } : undefined;

/** Each differs in direction, spacing or kind of line, so that all can be told apart in grey. */
function Hatchings({ id }: { readonly id: string }) {
  const lines = (name: string, step: number, turn: number, className = "", ground = "") => (
    <pattern
      id={`${id}-${name}`}
      width={step}
      height={step}
      patternUnits="userSpaceOnUse"
      patternTransform={`rotate(${turn})`}
    >
      <rect className={`draw-ground ${ground}`} width={step} height={step} />
      <path className={`draw-hatch ${className}`} d={`M0 0V${step}`} />
    </pattern>
  );
  const dots = (name: string, step: number, radius: number) => (
    <pattern id={`${id}-${name}`} width={step} height={step} patternUnits="userSpaceOnUse">
      <rect className="draw-ground" width={step} height={step} />
      <circle className="draw-dot" cx={step / 4} cy={step / 4} r={radius} />
      <circle className="draw-dot" cx={(step * 3) / 4} cy={(step * 3) / 4} r={radius} />
    </pattern>
  );
  return (
    <defs>
      {lines("panel", 1.5, 45)}
      {lines("ply", 0.85, 90, "is-fine", "is-warm")}
      {lines("ply-other", 1.7, 90, "is-fine", "is-pale")}
      <pattern id={`${id}-core`} width={3.46} height={6} patternUnits="userSpaceOnUse">
        <rect className="draw-ground" width={3.46} height={6} />
        <path className="draw-hatch is-fine" d="M1.73 0V1L0 2V4L1.73 5V6M1.73 1L3.46 2V4L1.73 5" />
      </pattern>
      <pattern
        id={`${id}-patch`}
        width={1.7}
        height={1.7}
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <rect className="draw-ground is-pale" width={1.7} height={1.7} />
        <path className="draw-hatch" d="M0 0V1.7M0 0H1.7" />
      </pattern>
      {lines("resin", 1.3, 90, "is-fine", "is-warm")}
      {dots("filler", 1.5, 0.16)}
      {lines("hardener", 0.6, 135, "is-accent", "is-pale")}
      {lines("total", 1.3, 90, "is-fine")}
      {lines("wait", 1.1, 45, "is-fine")}
      {lines("longest", 0.9, 45, "is-accent")}
      <pattern
        id={`${id}-stopped`}
        width={2.2}
        height={2.2}
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <path className="draw-hatch is-accent" d="M0 0V2.2" />
      </pattern>
      {lines("tone-1", 2.6, 45, "is-fine", "is-pale")}
      {dots("tone-2", 2.2, 0.17)}
      {lines("tone-3", 1.8, 135, "is-fine", "is-warm")}
      {lines("tone-4", 1.5, 0, "is-fine", "is-pale")}
      {lines("tone-5", 1.2, 90, "is-fine")}
    </defs>
  );
}
