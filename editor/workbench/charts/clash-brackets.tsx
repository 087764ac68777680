// Brackets beside the grid that join two rows which both fit some job. They are drawn
// where the rows stand; the words stand below the grid, where every reader finds them.
import { useLayoutEffect, useState } from "react";
import type { ChartView } from "../../../core/view.ts";
import { withKeys } from "../unique-keys.ts";
import { clashLanes } from "./chart-words.ts";

export interface ClashBracketsProps {
  readonly clashes: ChartView["clashes"];
  /** The table; its rows carry `data-row`. */
  readonly table: React.RefObject<HTMLTableElement | null>;
}

const LANE = 22;

/** Width that the brackets of so many clashes take, in px. */
export const bracketsWidth = (clashes: ChartView["clashes"]): number =>
  clashes.length === 0 ? 0 : (Math.max(...clashLanes(clashes)) + 1) * LANE + 6;

export function ClashBrackets({ clashes, table }: ClashBracketsProps) {
  const [middles, setMiddles] = useState<ReadonlyMap<number, number>>(new Map());
  // biome-ignore lint/correctness/useExhaustiveDependencies: other rows are measured again
  useLayoutEffect(() => {
    const node = table.current;
    if (node === null) return;
    const measure = () =>
      setMiddles(
        new Map(
          [...node.querySelectorAll<HTMLElement>("tr[data-row]")].map((row) => [
            Number(row.dataset.row),
            row.offsetTop + row.offsetHeight / 2,
          ]),
        ),
      );
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(node);
    return () => watch.disconnect();
  }, [table, clashes]);

  const lanes = clashLanes(clashes);
  const width = bracketsWidth(clashes);
  const height = table.current?.offsetHeight ?? 0;
  return (
    <svg className="clash-brackets" width={width} height={height} aria-hidden="true">
      <defs>
        <pattern
          id="clash-hatch"
          width="5"
          height="5"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line x1="0" y1="0" x2="0" y2="5" className="clash-hatch-line" />
        </pattern>
      </defs>
      {withKeys(clashes, (one) => one.rows.join(" ")).map(({ key, item: clash, index }) => {
        const a = middles.get(clash.rows[0]),
          b = middles.get(clash.rows[1]);
        if (a === undefined || b === undefined) return null;
        const [top, bottom] = a < b ? [a, b] : [b, a];
        const x = 4 + lanes[index]! * LANE;
        return (
          <g key={key}>
            <rect x={x + 9} y={top} width={8} height={bottom - top} fill="url(#clash-hatch)" />
            <path d={`M0 ${top}H${x + 17}V${bottom}H0`} className="clash-line" />
            <path d={`M0 ${top}l6 -3.5v7zM0 ${bottom}l6 -3.5v7z`} className="clash-arrow" />
          </g>
        );
      })}
    </svg>
  );
}
