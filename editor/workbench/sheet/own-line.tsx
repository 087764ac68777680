// Beneath an own line of a layer: what stands underneath, struck unless the line only adds to it, and how
// many jobs the line moves. A row underneath has the mark of the book that it stands in: two sheets, one upon
// the other.
import type { Row } from "../../../core/view.ts";
import type { Moves } from "./layer-impact.ts";
import { movesWords } from "./layer-impact.ts";

export const LayerMark = (props: { readonly layer: string }) => (
  <span className="layer-mark">
    <Sheets />
    <span className="out-of-sight">underneath, in </span>
    <span className="layer-name">{props.layer}</span>
  </span>
);

export function OwnLine(props: {
  readonly row: Row;
  readonly of: string;
  readonly moves: Moves | undefined;
  readonly chosen: boolean;
  readonly onMoves: (row: string) => void;
}) {
  const { row, moves } = props;
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
        {moves !== undefined &&
          (moves.jobs > 0 ? (
            <button
              type="button"
              className="moves-jobs"
              tabIndex={props.chosen ? 0 : -1}
              onMouseDown={(event) => event.stopPropagation()}
              onKeyDown={(event) => {
                if (event.key === "Enter" || event.key === " ") event.stopPropagation();
              }}
              onClick={() => props.onMoves(props.of)}
            >
              {movesWords(moves)}
              <span className="out-of-sight">: {row.name ?? row.keyword}, show them</span>
            </button>
          ) : (
            <span className="moves-none">{movesWords(moves)}</span>
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
