// One job's cell of a row: its value as it is, and as it was where a change is not accepted yet.
import type { Shown } from "../../../core/view.ts";
import type { Cell } from "./cells.ts";
import { textOfCell } from "./cells.ts";

export function CellText(props: { readonly cell: Cell; readonly before?: Cell; readonly isNew: boolean }) {
  const { cell, before } = props;
  const changed = before !== undefined && cell.is !== "none" && textOfCell(before) !== textOfCell(cell);
  if (!changed) return <Plain cell={cell} />;
  return (
    <span className="cell-revised">
      {!props.isNew && (
        <del>
          <span className="out-of-sight">was </span>
          {textOfCell(before) || "nothing"}
        </del>
      )}
      <ins>
        <span className="out-of-sight">{props.isNew ? "new: " : "now "}</span>
        <Plain cell={cell} />
      </ins>
    </span>
  );
}

function Plain({ cell }: { readonly cell: Cell }) {
  switch (cell.is) {
    case "answer":
      return (
        <span
          className={`cell-answer${cell.wrong ? " is-wrong" : ""}${cell.text === "" ? " is-blank" : ""}`}
          title={cell.wrong}
        >
          {cell.text === "" ? <span className="out-of-sight">not answered</span> : cell.text}
          {cell.takes && <small> takes {cell.takes}</small>}
        </span>
      );
    case "value":
      return <Value shown={cell.shown} />;
    case "mark":
      return <span className={`cell-mark is-${cell.as}`}>{cell.text}</span>;
    case "none":
      return null;
  }
}

function Value({ shown }: { readonly shown: Shown }) {
  switch (shown.state) {
    case "known": {
      const unit = shown.unit ?? "";
      const number =
        unit !== "" && shown.text.endsWith(` ${unit}`) ? shown.text.slice(0, -unit.length - 1) : undefined;
      if (number === undefined) return <span className="cell-value">{shown.text}</span>;
      return (
        <span className="cell-value">
          {number}
          <span className="cell-unit"> {unit}</span>
        </span>
      );
    }
    case "unknown":
      return (
        <span className="cell-unknown" title={shown.text}>
          {shown.text}
        </span>
      );
    case "impossible":
      return (
        <span className="cell-impossible" title={shown.reason}>
          {shown.text}
        </span>
      );
  }
}
