// One row of the sheet: the statement's name, rule and basis, then its value for each job.
import { memo } from "react";
import type { ReactNode } from "react";
import type { Span } from "../../../core/span.ts";
import type { Finding, JobView, Row } from "../../../core/view.ts";
import type { Mark } from "../../../engine/index.ts";
import { repairKey } from "../commands.ts";
import { FindingLine } from "../findings/finding-line.tsx";
import { CellText } from "./cell-text.tsx";
import { cellOf } from "./cells.ts";
import { Glyph, keywordMeans } from "./glyph.tsx";
import type { Columns } from "./layout.ts";
import { saysSomething, shownRule, shownTitle, whenWords } from "./layout.ts";
import type { Moves } from "./layer-impact.ts";
import type { Column } from "./cell-steps.ts";
import type { Standing } from "./layer-rows.ts";
import { LayerMark, OwnLine } from "./own-line.tsx";
import { columnKey } from "./cell-steps.ts";
import { RuleInk } from "./rule-ink.tsx";
import type { JobTag } from "../../client/storage/stored-work.ts";

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
  readonly inks?: readonly Mark[];
  /** The chosen column, if the chosen place is in this row. */
  readonly chosen?: string;
  /** Columns of this row that are in the marked range. */
  readonly ranged?: ReadonlySet<string>;
  readonly lit: boolean;
  /** In a layer: grey where it stands underneath, and what the own line moves. */
  readonly layered: boolean;
  readonly moves?: Moves;
  /** The row that the moves are counted for: what a drop leaves out, else the row itself. */
  readonly movesOf: string;
  readonly onMoves: (row: string) => void;
  /** The line of the text that a place of a finding is in. */
  readonly lineAt: (at: Span) => Standing;
  readonly findings: readonly Finding[];
  /** What is drawn in the place of a cell that is being edited. */
  readonly editor?: { readonly column: string; readonly node: ReactNode };
  readonly onPick: (row: string, column: Column, extend: boolean) => void;
  readonly onOpen: (row: string, column: Column) => void;
  readonly onRepair: (finding: Finding) => void;
}

export const SheetRow = memo(function SheetRow(props: SheetRowProps) {
  const { row } = props;
  const place = { transform: `translateY(${props.top}px)`, minHeight: props.height, width: props.width };
  const state = `${props.layered ? (row.own ? " is-own" : " is-under") : ""}${props.lit ? " is-lit" : ""}${props.chosen !== undefined ? " is-chosen" : ""}${row.errors > 0 ? " has-error" : row.warnings > 0 ? " has-warning" : ""}${props.isNew ? " is-new" : ""}`;
  const findings = props.findings.length > 0 && (
    <div className="sheet-findings" role="gridcell">
      {props.findings.map((finding, n) => (
        <FindingLine
          key={n}
          finding={finding}
          lineAt={props.layered ? props.lineAt : undefined}
          onRepair={props.onRepair}
          repairKey={props.chosen !== undefined && finding.repairs.length > 0 ? repairKey : undefined}
        />
      ))}
    </div>
  );
  if (row.keyword === "part") {
    return (
      <div
        className={`sheet-row is-part${state}`}
        role="row"
        data-row={row.id}
        aria-rowindex={props.index}
        style={place}
      >
        <CellBox {...props} column="name" role="rowheader" className="sheet-part" label={`Part ${row.title}`}>
          {props.editor ? (
            props.editor.node
          ) : (
            <span className="sheet-part-title">{row.title || shownRule(row)}</span>
          )}
        </CellBox>
        {findings}
      </div>
    );
  }
  const editor = (column: string): ReactNode =>
    props.editor?.column === column ? props.editor.node : undefined;
  return (
    <div
      className={`sheet-row is-${row.keyword}${state}`}
      role="row"
      data-row={row.id}
      aria-rowindex={props.index}
      style={place}
    >
      <div
        className="sheet-cells"
        role="presentation"
        style={{ gridTemplateColumns: props.template, minHeight: props.cells - 1 }}
      >
        <CellBox
          {...props}
          column="name"
          role="rowheader"
          className="sheet-name"
          label={`${row.keyword} ${row.name ?? ""}`}
        >
          {editor("name") ?? (
            <>
              <Glyph keyword={row.keyword} />
              <span className="sheet-name-text">
                {row.keyword === "drop" && row.was !== undefined ? (
                  <del>{shownRule(row)}</del>
                ) : (
                  <b>{row.name ?? row.keyword}</b>
                )}
                <small>
                  {props.layered && !row.own && <LayerMark layer={row.layer} />}
                  {props.columns.stacked
                    ? row.keyword
                    : `${row.name === undefined ? keywordMeans(row.keyword) : typeLine(row)}`}
                </small>
              </span>
              {(row.errors > 0 || row.warnings > 0) && (
                <span className={`sheet-flag ${row.errors > 0 ? "error" : "warning"}`}>
                  <span className="out-of-sight">{row.errors > 0 ? "has a fault" : "has a doubt"}</span>
                </span>
              )}
            </>
          )}
        </CellBox>
        <CellBox
          {...props}
          column="rule"
          role="gridcell"
          className="sheet-rule"
          label={`Rule of ${row.name ?? row.keyword}: ${row.rule}`}
        >
          {editor("rule") ?? (
            <>
              {props.oldRule !== undefined && (
                <del className="rule old-rule">{props.oldRule.replace(/\s+/g, " ") || "as before"}</del>
              )}
              {row.keyword === "drop" && row.was !== undefined ? (
                <span className="rule">leaves out</span>
              ) : (
                <span className={`rule${props.oldRule !== undefined || props.isNew ? " new-rule" : ""}`}>
                  <RuleInk text={shownRule(row)} marks={props.inks} />
                </span>
              )}
              {shownTitle(row) !== "" && <span className="sheet-title">{shownTitle(row)}</span>}
              {props.layered && whenWords(row) !== undefined && (
                <span className="sheet-title sheet-when">{whenWords(row)}</span>
              )}
              {props.layered && row.own && saysSomething(row) && (
                <OwnLine
                  row={row}
                  of={props.movesOf}
                  moves={props.moves}
                  chosen={props.chosen !== undefined}
                  onMoves={props.onMoves}
                />
              )}
            </>
          )}
        </CellBox>
        {props.columns.basis > 0 && (
          <CellBox
            {...props}
            column="basis"
            role="gridcell"
            className="sheet-basis"
            label={`Basis of ${row.name ?? row.keyword}: ${row.basis ?? "none"}`}
          >
            {editor("basis") ?? <span className="sheet-basis-text">{row.basis ?? ""}</span>}
          </CellBox>
        )}
        {props.jobs.map((job) => {
          const view = props.views[job.id];
          const viewBefore = props.viewsBefore?.[job.id];
          const cell = cellOf(row, job, view);
          const numeric = row.unit !== "" || (cell.is === "value" && typeof cell.shown.value === "number");
          return (
            <CellBox
              key={job.id}
              {...props}
              column={{ job: job.id }}
              role="gridcell"
              className={`sheet-cell${numeric ? " is-number" : ""}${row.keyword === "ask" ? " is-ask" : ""}`}
            >
              {editor(`job ${job.id}`) ?? (
                <CellText
                  cell={cell}
                  before={viewBefore && cellOf(row, job, viewBefore)}
                  isNew={props.isNew}
                />
              )}
            </CellBox>
          );
        })}
      </div>
      {findings}
    </div>
  );
});

function CellBox(
  props: SheetRowProps & {
    readonly column: Column;
    readonly role: string;
    readonly className: string;
    readonly label?: string;
    readonly children: ReactNode;
  },
) {
  const key = columnKey(props.column);
  const chosen = props.chosen === key;
  const editing = props.editor?.column === key;
  return (
    <div
      role={props.role}
      data-place={`${props.row.id} | ${key}`}
      tabIndex={chosen && !editing ? 0 : -1}
      aria-selected={chosen || props.ranged?.has(key) || undefined}
      className={`${props.className}${chosen ? " is-here" : ""}${props.ranged?.has(key) ? " is-ranged" : ""}`}
      onMouseDown={(event) => {
        if (!editing) {
          if (event.shiftKey) event.preventDefault();
          props.onPick(props.row.id, props.column, event.shiftKey);
        }
      }}
      onDoubleClick={() => {
        if (!editing) props.onOpen(props.row.id, props.column);
      }}
    >
      {props.children}
    </div>
  );
}

const typeLine = (row: Row): string => row.type || keywordMeans(row.keyword);
