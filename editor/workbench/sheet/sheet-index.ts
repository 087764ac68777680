// The rows and columns of the sheet by id and in order, as the keys, the clipboard and the ranges need them.
import type { Row } from "../../../core/view.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";
import type { Column } from "./cell-steps.ts";
import { columnOrder } from "./cell-steps.ts";

export interface SheetIndex {
  /** Row ids from top to bottom. */
  readonly ids: readonly string[];
  readonly byId: ReadonlyMap<string, Row>;
  /** Columns from left to right. */
  readonly order: readonly Column[];
}

export const sheetIndex = (
  rows: readonly Row[],
  jobs: readonly JobTag[],
  withBasis: boolean,
): SheetIndex => ({
  ids: rows.map((row) => row.id),
  byId: new Map(rows.map((row) => [row.id, row])),
  order: columnOrder(jobs, withBasis),
});
