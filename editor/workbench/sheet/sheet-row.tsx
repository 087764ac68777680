// One row of the sheet: the statement's name, rule and basis, then its value for each job.
import { memo } from "react";
import type { ReactNode } from "react";
import type { Span } from "../../../core/span.ts";
import type { Finding, JobView, Row } from "../../../core/view.ts";
import type { Mark } from "../../../engine/index.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";
import { repairKey } from "../commands.ts";
import { FindingLine } from "../findings/finding-line.tsx";
import { withKeys } from "../unique-keys.ts";
import { CellBox } from "./cell-box.tsx";
import type { Column } from "./cell-steps.ts";
import type { Columns } from "./columns.ts";
import type { LayerImpact } from "./layer-impact.ts";
import type { SourceLine } from "./layer-rows.ts";
import { BasisCell, JobCell, NameCell, RuleCell } from "./row-cells.tsx";
import { shownRule } from "./shown-row.ts";

export interface SheetRowProps {
  readonly row: Row;
  readonly index: number;
  readonly top: number;
  readonly height: number;
  /** Height of the cells alone, without the findings below them. */
  readonly cells: number;
  readonly width: number;
  readonly columns: Columns;
  readonly template: string;
  readonly jobs: readonly JobTag[];
  readonly views: Readonly<Record<string, JobView>>;
  readonly viewsBefore?: Readonly<Record<string, JobView>>;
  readonly oldRule?: string;
  readonly isNew: boolean;
  readonly colours?: readonly Mark[];
  /** The chosen column, if the chosen place is in this row. */
  readonly chosen?: string;
  /** Columns of this row that are in the marked range. */
  readonly ranged?: ReadonlySet<string>;
  readonly lit: boolean;
  /** In a layer: grey where it stands underneath, and what the own line changes. */
  readonly layered: boolean;
  readonly impact?: LayerImpact;
  /** The row that the impact is counted for: what a drop leaves out, else the row itself. */
  readonly impactTarget: string;
  readonly onImpact: (row: string) => void;
  /** The line of the text that a place of a finding is in. */
  readonly lineAt: (at: Span) => SourceLine;
  readonly findings: readonly Finding[];
  /** Drawn in the place of the cell that is being edited. */
  readonly editor?: { readonly column: string; readonly node: ReactNode };
  readonly onPick: (row: string, column: Column, extend: boolean) => void;
  readonly onOpen: (row: string, column: Column) => void;
  readonly onRepair: (finding: Finding) => void;
}

export const SheetRow = memo(function SheetRow(props: SheetRowProps) {
  const { row } = props;
  return (
    <div
      className={`sheet-row is-${row.keyword}${rowClasses(props)}`}
      role="row"
      data-row={row.id}
      aria-rowindex={props.index}
      style={{ transform: `translateY(${props.top}px)`, minHeight: props.height, width: props.width }}
    >
      {row.keyword === "part" ? <PartCell of={props} /> : <RowCells of={props} />}
      {props.findings.length > 0 && <RowFindings of={props} />}
    </div>
  );
});

function rowClasses({ row, layered, lit, chosen, isNew }: SheetRowProps): string {
  const layer = layered ? (row.own ? " is-own" : " is-under") : "";
  const weight = row.errors > 0 ? " has-error" : row.warnings > 0 ? " has-warning" : "";
  return (
    `${layer}${lit ? " is-lit" : ""}${chosen === undefined ? "" : " is-chosen"}` +
    `${weight}${isNew ? " is-new" : ""}`
  );
}

function PartCell({ of }: { readonly of: SheetRowProps }) {
  const { row } = of;
  return (
    <CellBox of={of} column="name" role="rowheader" className="sheet-part">
      {of.editor ? of.editor.node : <span className="sheet-part-title">{row.title || shownRule(row)}</span>}
    </CellBox>
  );
}

function RowCells({ of }: { readonly of: SheetRowProps }) {
  return (
    <div
      className="sheet-cells"
      role="presentation"
      style={{ gridTemplateColumns: of.template, minHeight: of.cells - 1 }}
    >
      <NameCell of={of} />
      <RuleCell of={of} />
      {of.columns.basis > 0 && <BasisCell of={of} />}
      {of.jobs.map((job) => (
        <JobCell key={job.id} of={of} job={job} />
      ))}
    </div>
  );
}

function RowFindings({ of }: { readonly of: SheetRowProps }) {
  return (
    <div className="sheet-findings" role="gridcell">
      {withKeys(of.findings, (finding) => `${finding.code} ${finding.says}`).map(({ key, item: finding }) => (
        <FindingLine
          key={key}
          finding={finding}
          lineAt={of.layered ? of.lineAt : undefined}
          onRepair={of.onRepair}
          repairKey={of.chosen !== undefined && finding.repairs.length > 0 ? repairKey : undefined}
        />
      ))}
    </div>
  );
}
