// The sheet: rules down the side under their part headings, jobs across the top, values in the cells. Only
// the rows that are seen are drawn.
import type { Row } from "../../../core/view.ts";
import type { Span } from "../../../core/span.ts";
import { useEvent } from "../use-event.ts";
import { CellEditor } from "./cell-editor.tsx";
import { columnKey, placeKey } from "./cell-steps.ts";
import { impactTarget, lineAt } from "./layer-rows.ts";
import { NewStatement } from "./new-statement.tsx";
import { draftHeight } from "./row-height.ts";
import { SheetHead } from "./sheet-head.tsx";
import type { SheetProps } from "./sheet-props.ts";
import { SheetRow } from "./sheet-row.tsx";
import { oldRuleOf } from "./shown-row.ts";
import type { SheetController } from "./use-sheet.ts";
import { useSheet } from "./use-sheet.ts";
// In this order: a later file may set what an earlier one has set.
import "./sheet-head.css";
import "./sheet-rows.css";
import "./sheet-cells.css";
import "./sheet-layers.css";
import "./sheet-inks.css";
import "./sheet-editing.css";
import "./sheet-stacked.css";

export function Sheet(props: SheetProps) {
  const { actions, jobs, chosen } = props;
  const sheet = useSheet(props);
  const { window, layout } = sheet;
  return (
    <div
      className={`sheet${layout.columns.stacked ? " is-stacked" : ""}`}
      ref={window.scroller}
      onScroll={(event) => window.setScrollTop(event.currentTarget.scrollTop)}
      style={{ ["--seen" as string]: `${window.size.width}px` }}
    >
      <div
        role="grid"
        aria-label="The sheet: rules down the side, jobs across"
        aria-rowcount={props.rows.length + 1}
        aria-colcount={sheet.index.order.length}
        onKeyDown={sheet.onKeyDown}
        onMouseOver={(event) => actions.pointAt(rowUnder(event.target))}
        onMouseLeave={() => actions.pointAt(undefined)}
        {...sheet.clipboard}
        style={{ width: layout.width }}
      >
        <SheetHead
          columns={layout.columns}
          template={layout.template}
          printing={window.printing}
          jobs={jobs}
          views={props.snapshot.jobs}
          chosen={chosen}
          onOpenJob={actions.openJob}
          onAddJob={actions.addJob}
        />
        <div className="sheet-body" role="rowgroup" style={{ height: Math.max(layout.total, 40) }}>
          <DrawnRows props={props} sheet={sheet} />
          {props.draft && <Draft props={props} sheet={sheet} draft={props.draft} />}
        </div>
      </div>
    </div>
  );
}

interface PartProps {
  readonly props: SheetProps;
  readonly sheet: SheetController;
}

function DrawnRows({ props, sheet }: PartProps) {
  const { snapshot, rows, actions } = props;
  const { layout, selection, editing } = sheet;
  const sourceLine = useEvent((at: Span) => lineAt(snapshot, at));
  const showImpact = useEvent((row: string) => actions.showImpact(row));
  const draftRoom = draftHeight(editing.height);
  const added = snapshot.before?.added;
  return sheet.drawn.map((n) => {
    const row = rows[n];
    if (!row) return null;
    const target = layout.layered ? impactTarget(snapshot.text, row) : row.id;
    return (
      <SheetRow
        key={row.id}
        row={row}
        index={n + 2}
        top={layout.tops[n] ?? 0}
        height={(layout.heights[n] ?? 0) - (sheet.draftAfter === row.id ? draftRoom : 0)}
        cells={layout.cellHeights[n] ?? 0}
        width={layout.width}
        columns={layout.columns}
        template={layout.template}
        jobs={props.jobs}
        views={snapshot.jobs}
        viewsBefore={snapshot.before?.jobs}
        oldRule={oldRuleOf(snapshot.before, row)}
        isNew={added?.includes(row.id) ?? false}
        colours={sheet.coloursOf(row)}
        chosen={props.chosen?.row === row.id ? columnKey(props.chosen.column) : undefined}
        ranged={selection.rangedRows.has(row.id) ? selection.rangedColumns : undefined}
        layered={layout.layered}
        impact={layout.layered && row.own ? props.impacts.get(target) : undefined}
        impactTarget={target}
        onImpact={showImpact}
        lineAt={sourceLine}
        lit={props.lit === row.id}
        findings={layout.findingsOf(row)}
        editor={editorOf(props, sheet, row)}
        onPick={selection.pick}
        onOpen={editing.open}
        onRepair={actions.repair}
      />
    );
  });
}

/** What is drawn in place of the cell of this row that is being edited. */
function editorOf(props: SheetProps, { editing, index, selection }: SheetController, row: Row) {
  const { edited } = editing;
  if (!edited || edited.place.row !== row.id) return undefined;
  const { column } = edited.place;
  const node = (
    <CellEditor
      key={placeKey(edited.place)}
      sheet={props}
      index={index}
      row={row}
      column={column}
      first={edited.first}
      onHeight={editing.setHeight}
      onClose={editing.close}
      onGo={selection.go}
    />
  );
  return { column: columnKey(column), node };
}

function Draft({ props, sheet, draft }: PartProps & { readonly draft: NonNullable<SheetProps["draft"]> }) {
  const { layout, editing, index, draftAfter } = sheet;
  const end = props.snapshot.text.length;
  const below = draftAfter === undefined ? undefined : index.ids.indexOf(draftAfter) + 1;
  const above = draft.after === undefined ? undefined : index.byId.get(draft.after);
  return (
    <NewStatement
      draft={draft}
      top={below === undefined ? 0 : (layout.tops[below] ?? layout.total) - draftHeight(editing.height)}
      at={Math.min(above?.at.end ?? end, end)}
      actions={props.actions}
      onHeight={editing.setHeight}
      onEnd={sheet.endDraft}
    />
  );
}

const rowUnder = (target: EventTarget): string | undefined =>
  target instanceof Element ? target.closest<HTMLElement>("[data-row]")?.dataset["row"] : undefined;
