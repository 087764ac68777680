// The stamps of the record, in thin drawn lines: a seal for what is proved, a hatched octagon struck out for
// what is broken, an open round for what is not settled, a broken round for what is being looked at. Told by
// shape before colour.
import { useId } from "react";
import type { Overall, Verdict } from "./standing-words.ts";

/** A small stamp at the head of a line. Its word stands beside it. */
export function Stamp(props: { readonly verdict: Verdict }) {
  const id = useId();
  return (
    <svg
      className={`stamp is-${shapeName(props.verdict)}`}
      viewBox="0 0 32 32"
      width="30"
      height="30"
      aria-hidden="true"
      focusable="false"
    >
      <Hatch id={id} />
      {small(props.verdict, id)}
    </svg>
  );
}

const shapeName = (verdict: Verdict): string => verdict.replace(" ", "-");

function small(verdict: Verdict, id: string) {
  switch (verdict) {
    case "proved":
      return (
        <g transform="rotate(-9 16 16)">
          <path className="stamp-teeth" d={teeth(16, 16, 14.4, 13, 30)} />
          <circle cx="16" cy="16" r="10" />
          <path className="stamp-tick" d="M11 16.4l3.6 3.6 6.6-8" />
        </g>
      );
    case "broken":
      return (
        <g>
          <path fill={`url(#${id})`} d="M10.5 2.5h11l8 8v11l-8 8h-11l-8-8v-11z" />
          <path className="stamp-strike" d="M5 27L27 5" />
        </g>
      );
    case "not settled":
      return <circle cx="16" cy="16" r="12" />;
    case "looking":
      return <circle cx="16" cy="16" r="12" strokeDasharray="4 3.5" />;
  }
}

/** The large stamp of the record: a double ring with its word across, set a little askew as by hand. */
export function Seal(props: { readonly overall: Overall }) {
  const id = useId();
  return (
    <svg
      className={`seal is-${props.overall}`}
      viewBox="0 0 150 150"
      width="150"
      height="150"
      aria-hidden="true"
      focusable="false"
    >
      <Hatch id={id} />
      {large(props.overall, id)}
    </svg>
  );
}

function large(overall: Overall, id: string) {
  switch (overall) {
    case "proved":
      return (
        <g transform="rotate(-9 75 75)">
          <path className="stamp-teeth" d={teeth(75, 75, 70, 65, 72)} />
          <circle cx="75" cy="75" r="58" />
          <circle cx="75" cy="75" r="54" />
          <path className="seal-ticks" d={ring(75, 75, 54, 47, 48)} />
          <path className="seal-band" d="M14 60h122v31H14z" />
          <text x="75" y="83" textAnchor="middle">
            PROVED
          </text>
        </g>
      );
    case "broken":
      return (
        <g transform="rotate(-4 75 75)">
          <path fill={`url(#${id})`} d="M49 9h52l40 40v52l-40 40H49L9 101V49z" />
          <path d="M53 18h44l35 35v44l-35 35H53L18 97V53z" />
          <path className="seal-band" d="M6 59h138v33H6z" />
          <text x="75" y="83" textAnchor="middle">
            NOT KEPT
          </text>
        </g>
      );
    case "open":
      return (
        <g transform="rotate(-6 75 75)">
          <circle cx="75" cy="75" r="62" />
          <path className="seal-band is-plain" d="M8 60h134v31H8z" />
          <text x="75" y="82" textAnchor="middle">
            OPEN STILL
          </text>
        </g>
      );
    case "waiting":
      return (
        <g>
          <circle cx="75" cy="75" r="62" strokeDasharray="9 7" />
          <text x="75" y="82" textAnchor="middle">
            LOOKING
          </text>
        </g>
      );
  }
}

const Hatch = ({ id }: { readonly id: string }) => (
  <defs>
    <pattern id={id} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
      <line className="stamp-hatch" x1="0" y1="0" x2="0" y2="6" />
    </pattern>
  </defs>
);

/** The toothed edge of a seal. */
function teeth(cx: number, cy: number, outer: number, inner: number, many: number): string {
  const points = Array.from({ length: many * 2 }, (_, n) => {
    const radius = n % 2 === 0 ? outer : inner;
    const turn = (n * Math.PI) / many;
    return `${(cx + radius * Math.cos(turn)).toFixed(1)} ${(cy + radius * Math.sin(turn)).toFixed(1)}`;
  });
  return `M${points.join("L")}z`;
}

/** Short lines between two radii, as the divisions of a protractor. */
function ring(cx: number, cy: number, outer: number, inner: number, many: number): string {
  return Array.from({ length: many }, (_, n) => {
    const turn = (n * 2 * Math.PI) / many;
    const at = (radius: number) =>
      `${(cx + radius * Math.cos(turn)).toFixed(1)} ${(cy + radius * Math.sin(turn)).toFixed(1)}`;
    return `M${at(n % 4 === 0 ? inner : inner + 3)}L${at(outer)}`;
  }).join("");
}
