// The line below an own row of a layer: what stands underneath (struck unless the row only adds to it) and
// how many jobs the row changes. A row from underneath has the mark of the book that it comes from.
import type { Row } from "../../../core/view.ts";
import type { LayerImpact } from "./layer-impact.ts";
import { impactWords } from "./layer-impact.ts";

export const LayerMark = (props: { readonly layer: string }) => (
  <span className="layer-mark">
    <Sheets />
    <span className="out-of-sight">underneath, in </span>
    <span className="layer-name">{props.layer}</span>
  </span>
);

export function OwnLine(props: {
  readonly row: Row;
  readonly target: string;
  readonly impact: LayerImpact | undefined;
  readonly chosen: boolean;
  readonly onImpact: (row: string) => void;
}) {
  const { row, impact } = props;
  return (
    <>
      {row.was !== undefined && row.was.rule !== "" && row.keyword === "chart" && (
        <span className="rule kept-rule">{row.was.rule} underneath</span>
      )}
      {row.was !== undefined && row.was.rule !== "" && row.keyword !== "chart" && (
        <del className="rule under-rule">
          <span className="out-of-sight">{row.keyword === "drop" ? "left out: " : "underneath: "}</span>
          {row.was.rule.replace(/\s+/g, " ")}
        </del>
      )}
      <span className="own-line">
        {row.was === undefined ? (
          <span className="layer-mark">new here</span>
        ) : (
          <span className="layer-mark">
            <Sheets />
            {row.keyword === "drop" ? "out of " : row.keyword === "chart" ? "added to " : "instead of "}
            {row.was.layer}
          </span>
        )}
        {impact !== undefined &&
          (impact.jobs > 0 ? (
            <button
              type="button"
              className="moves-jobs"
              tabIndex={props.chosen ? 0 : -1}
              onMouseDown={(event) => event.stopPropagation()}
              onKeyDown={(event) => {
                if (event.key === "Enter" || event.key === " ") event.stopPropagation();
              }}
              onClick={() => props.onImpact(props.target)}
            >
              {impactWords(impact)}
              <span className="out-of-sight">: {row.name ?? row.keyword}, show them</span>
            </button>
          ) : (
            <span className="moves-none">{impactWords(impact)}</span>
          ))}
      </span>
    </>
  );
}

const Sheets = () => (
  <svg
    className="layer-sheets"
    viewBox="0 0 14 12"
    width="14"
    height="12"
    aria-hidden="true"
    focusable="false"
  >
    <path d="M4 1h9v6H4zM4 4H1v7h9V7" fill="none" stroke="currentColor" strokeWidth="1.1" />
  </svg>
);
