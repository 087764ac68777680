// Cells of the sheet as answers and as copied text: what a block of cells holds, and what a pasted block
// sets.
import type { Row } from "../../../core/view.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";
import type { Place } from "../store/document.ts";
import type { Column } from "./cell-steps.ts";
import { sameColumn } from "./cell-steps.ts";
import { cellOf, textOfCell } from "./cells.ts";
import { toTabs } from "./copying.ts";
import { statementOf } from "./layer-rows.ts";
import type { SheetIndex } from "./sheet-index.ts";
import type { AnswerEdit } from "./sheet-props.ts";
import type { CellBlock } from "./use-sheet-selection.ts";

/** The job and question of every answer in a block. */
export const answersIn = (
  block: CellBlock,
  byId: ReadonlyMap<string, Row>,
): readonly Pick<AnswerEdit, "job" | "ask">[] =>
  block.rows.flatMap((id) => {
    const row = byId.get(id);
    const ask = row?.keyword === "ask" ? row.name : undefined;
    if (ask === undefined) return [];
    return block.columns.flatMap((column) => (typeof column === "object" ? [{ job: column.job, ask }] : []));
  });

/** The answers that cells pasted at a place set: their lines go to the questions from there on. */
export function pastedAnswers(
  cells: readonly (readonly string[])[],
  at: Place,
  { ids, byId, order }: SheetIndex,
): readonly AnswerEdit[] {
  const left = order.findIndex((column) => sameColumn(column, at.column));
  const asks = ids.slice(ids.indexOf(at.row)).filter((id) => byId.get(id)?.keyword === "ask");
  return cells.flatMap((line, n) => {
    const ask = byId.get(asks[n] ?? "")?.name;
    if (ask === undefined) return [];
    return line.flatMap((text, m) => {
      const column = order[left + m];
      return typeof column === "object" ? [{ job: column.job, ask, text }] : [];
    });
  });
}

/** What the sheet shows in a cell, as plain text. */
function shownText(
  row: Row,
  column: Column,
  jobs: readonly JobTag[],
  snapshot: Pick<Snapshot, "jobs">,
): string {
  if (column === "name") return row.name ?? row.keyword;
  if (column === "rule") return row.rule;
  if (column === "basis") return row.basis ?? "";
  const job = jobs.find((one) => one.id === column.job);
  return job ? textOfCell(cellOf(row, job, snapshot.jobs[job.id])) : "";
}

export interface Copied {
  readonly text: string;
  /** What was copied, in words. */
  readonly says: string;
}

/** A block as text: whole statements where only names are in it, else tab-separated cells. */
export function copiedText(
  block: CellBlock,
  byId: ReadonlyMap<string, Row>,
  jobs: readonly JobTag[],
  snapshot: Snapshot,
): Copied {
  const { rows, columns } = block;
  const found = rows.map((id) => byId.get(id));
  if (columns.length === 1 && columns[0] === "name") {
    const statements = found.map((row) => (row ? statementOf(snapshot, row) : ""));
    const what = rows.length === 1 ? "the statement" : `${rows.length} statements`;
    return { text: `${statements.join("\n\n")}\n`, says: `Copied ${what} as text.` };
  }
  const cells = found.map((row) =>
    row ? columns.map((column) => shownText(row, column, jobs, snapshot)) : [],
  );
  return { text: toTabs(cells), says: `Copied ${rows.length} × ${columns.length} cells.` };
}
