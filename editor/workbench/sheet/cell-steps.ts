// Places in the sheet and the steps between them: three columns of the book's own, then one for each job.
import type { Place } from "../store/document.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";

export type Column = Place["column"];

/** Columns from left to right. Without a basis column its place is left out. */
export function columnOrder(jobs: readonly JobTag[], basis: boolean): readonly Column[] {
  return ["name", "rule", ...(basis ? (["basis"] as const) : []), ...jobs.map((job) => ({ job: job.id }))];
}

export const columnKey = (column: Column): string =>
  typeof column === "string" ? column : `job ${column.job}`;
export const placeKey = (place: Place): string => `${place.row} | ${columnKey(place.column)}`;
export const sameColumn = (a: Column, b: Column): boolean => columnKey(a) === columnKey(b);
export const samePlace = (a: Place | undefined, b: Place | undefined): boolean =>
  a === b || (a !== undefined && b !== undefined && placeKey(a) === placeKey(b));

/** The place so many rows and columns away, held at the sheet's edges. */
export function placeFrom(
  place: Place,
  down: number,
  right: number,
  rows: readonly string[],
  columns: readonly Column[],
): Place {
  const row = held(rows.indexOf(place.row) + down, rows.length);
  const column = held(columns.findIndex((one) => sameColumn(one, place.column)) + right, columns.length);
  return { row: rows[row] ?? place.row, column: columns[column] ?? place.column };
}

export interface Range {
  readonly from: Place;
  readonly to: Place;
}

/** Rows and columns that a range covers, in their order. */
export function covered(
  range: Range,
  rows: readonly string[],
  columns: readonly Column[],
): { readonly rows: readonly string[]; readonly columns: readonly Column[] } {
  const [top, bottom] = inOrder(rows.indexOf(range.from.row), rows.indexOf(range.to.row));
  const at = (column: Column): number => columns.findIndex((one) => sameColumn(one, column));
  const [left, right] = inOrder(at(range.from.column), at(range.to.column));
  return {
    rows: rows.slice(Math.max(0, top), bottom + 1),
    columns: columns.slice(Math.max(0, left), right + 1),
  };
}

const held = (n: number, length: number): number => Math.max(0, Math.min(length - 1, n));
const inOrder = (a: number, b: number): readonly [number, number] => (a <= b ? [a, b] : [b, a]);
