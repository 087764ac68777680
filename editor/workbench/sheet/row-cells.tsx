// The cells of a row: name, rule and basis of the statement, and its value for one job.
import type { Row } from "../../../core/view.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";
import { CellBox } from "./cell-box.tsx";
import { CellText } from "./cell-text.tsx";
import { columnKey } from "./cell-steps.ts";
import { cellOf } from "./cells.ts";
import { ColouredRule } from "./coloured-rule.tsx";
import { Glyph, keywordMeans } from "./glyph.tsx";
import { LayerMark, OwnLine } from "./own-line.tsx";
import type { SheetRowProps } from "./sheet-row.tsx";
import { isRule, shownRule, shownTitle, whenWords } from "./shown-row.ts";

interface CellProps {
  /** The row that the cell is in. */
  readonly of: SheetRowProps;
}

export function NameCell({ of }: CellProps) {
  return (
    <CellBox of={of} column="name" role="rowheader" className="sheet-name">
      {editorOf(of, "name") ?? <NameText of={of} />}
    </CellBox>
  );
}

function NameText({ of }: CellProps) {
  const { row } = of;
  const dropped = row.keyword === "drop" && row.was !== undefined;
  const means = row.name === undefined ? keywordMeans(row.keyword) : typeWords(row);
  return (
    <>
      <Glyph keyword={row.keyword} />
      <span className="sheet-name-text">
        {dropped ? <del>{shownRule(row)}</del> : <b>{row.name ?? row.keyword}</b>}
        <small>
          {of.layered && !row.own && <LayerMark layer={row.layer} />}
          {of.columns.stacked ? row.keyword : means}
        </small>
      </span>
      {(row.errors > 0 || row.warnings > 0) && (
        <span className={`sheet-flag ${row.errors > 0 ? "error" : "warning"}`}>
          <span className="out-of-sight">{row.errors > 0 ? "has a fault" : "has a doubt"}</span>
        </span>
      )}
    </>
  );
}

const typeWords = (row: Row): string => row.type || keywordMeans(row.keyword);

export function RuleCell({ of }: CellProps) {
  return (
    <CellBox of={of} column="rule" role="gridcell" className="sheet-rule">
      {editorOf(of, "rule") ?? <RuleText of={of} />}
    </CellBox>
  );
}

function RuleText({ of }: CellProps) {
  const { row, oldRule } = of;
  const changed = oldRule !== undefined || of.isNew;
  const when = of.layered ? whenWords(row) : undefined;
  return (
    <>
      {oldRule !== undefined && (
        <del className="rule old-rule">{oldRule.replace(/\s+/g, " ") || "as before"}</del>
      )}
      {row.keyword === "drop" && row.was !== undefined ? (
        <span className="rule">leaves out</span>
      ) : (
        <span className={`rule${changed ? " new-rule" : ""}`}>
          <ColouredRule text={shownRule(row)} marks={of.colours} />
        </span>
      )}
      {shownTitle(row) !== "" && <span className="sheet-title">{shownTitle(row)}</span>}
      {when !== undefined && <span className="sheet-title sheet-when">{when}</span>}
      {of.layered && row.own && isRule(row) && (
        <OwnLine
          row={row}
          target={of.impactTarget}
          impact={of.impact}
          chosen={of.chosen !== undefined}
          onImpact={of.onImpact}
        />
      )}
    </>
  );
}

export function BasisCell({ of }: CellProps) {
  return (
    <CellBox of={of} column="basis" role="gridcell" className="sheet-basis">
      {editorOf(of, "basis") ?? <span className="sheet-basis-text">{of.row.basis ?? ""}</span>}
    </CellBox>
  );
}

export function JobCell({ of, job }: CellProps & { readonly job: JobTag }) {
  const { row } = of;
  const column = { job: job.id };
  const before = of.viewsBefore?.[job.id];
  const cell = cellOf(row, job, of.views[job.id]);
  const numeric = row.unit !== "" || (cell.is === "value" && typeof cell.shown.value === "number");
  return (
    <CellBox
      of={of}
      column={column}
      role="gridcell"
      className={`sheet-cell${numeric ? " is-number" : ""}${row.keyword === "ask" ? " is-ask" : ""}`}
    >
      {editorOf(of, columnKey(column)) ?? (
        <CellText cell={cell} before={before && cellOf(row, job, before)} isNew={of.isNew} />
      )}
    </CellBox>
  );
}

const editorOf = ({ editor }: SheetRowProps, column: string) =>
  editor?.column === column ? editor.node : undefined;
