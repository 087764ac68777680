// The table of a list of plies: its rows under the names of their columns, in as many blocks side by side as
// fit.
import type { PictureShown, PictureValue } from "../../../core/view.ts";
import type { Mark } from "./marks.ts";
import { segment, text } from "./marks.ts";
import { type Sheet, pictureValue, textOf } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

/** So many rows are listed; of a longer list the first ones and the last. */
export const MOST_LISTED = 120;

export type Row = NonNullable<PictureValue["rows"]>[number];

export interface PlyTable {
  readonly width: number;
  readonly height: number;
  /** The table with its upper left corner there, in mm on paper. */
  at(x: number, y: number): readonly Mark[];
}

interface Columns {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly widths: readonly number[];
  readonly gap: number;
  /** The size of the writing, and from one line to the next. */
  readonly small: number;
  readonly step: number;
}

export function tableOf(picture: PictureShown, rows: readonly Row[], sheet: Sheet): PlyTable {
  const columns = columnsOf(picture, rows, sheet);
  const own = columns.widths.reduce((sum, one) => sum + one + columns.gap, 0);
  const blocks = rows.length > 16 ? Math.max(1, Math.floor((sheet.width + 5) / (own + 5))) : 1;
  const perBlock = Math.ceil(columns.rows.length / blocks);
  return {
    width: own * blocks + 5 * (blocks - 1),
    height: columns.step * (perBlock + 1) + 1,
    at: (x, y) =>
      Array.from({ length: blocks }, (_, block) => {
        const lines = columns.rows.slice(block * perBlock, (block + 1) * perBlock);
        return lines.length === 0 ? [] : blockMarks(columns, lines, x + block * (own + 5), y);
      }).flat(),
  };
}

/** Columns move together first where they are too wide; then the widest of them give way. */
function columnsOf(picture: PictureShown, rows: readonly Row[], sheet: Sheet): Columns {
  const small = sheet.size * 0.95;
  const names = [...new Set(rows.flatMap((row) => Object.keys(row)))].slice(0, 5);
  const head = ["", ...names];
  const all = [...damageRow(picture, names, sheet), ...listedRows(rows, names)];
  const natural = head.map(
    (name, c) =>
      Math.max(textWidth(name, small, true), ...all.map((row) => textWidth(row[c]!, small, c === 0))) + 0.2,
  );
  const gap = natural.reduce((sum, one) => sum + one + 3.2, 0) <= sheet.width ? 3.2 : 1.7;
  const cap = capFor(natural, sheet.width - gap * head.length);
  return {
    head,
    rows: all,
    widths: natural.map((one) => Math.min(one, cap)),
    gap,
    small,
    step: small * 1.5,
  };
}

function listedRows(rows: readonly Row[], names: readonly string[]): readonly (readonly string[])[] {
  const isListed = (i: number): boolean =>
    rows.length <= MOST_LISTED || i < MOST_LISTED - 1 || i === rows.length - 1;
  return rows.flatMap((row, i) =>
    isListed(i) ? [[String(i + 1), ...names.map((name) => row[name]?.text ?? "–")]] : [],
  );
}

/** The damage itself, in the columns of length and width. */
function damageRow(
  picture: PictureShown,
  names: readonly string[],
  { say }: Sheet,
): readonly (readonly string[])[] {
  if (pictureValue(picture, "hole") === undefined) return [];
  const cells = [textOf(picture, "hole", say), textOf(picture, "hole-short", say)];
  return [[say("draw.hole-short"), ...names.map((_, i) => cells[i] ?? "")]];
}

/** One block: its head, a line, its rows. */
function blockMarks(
  columns: Columns,
  rows: readonly (readonly string[])[],
  x: number,
  y: number,
): readonly Mark[] {
  const { head, widths, gap, step } = columns;
  const own = widths.reduce((sum, one) => sum + one + gap, 0);
  return [
    ...rowMarks(columns, head, x, y + step * (0 + 0.9), true),
    segment([x, y + step * 1.25], [x + own - gap, y + step * 1.25], "inner"),
    ...rows.flatMap((row, i) => rowMarks(columns, row, x, y + step * (i + 1.15 + 0.9), false)),
  ];
}

/** The first cell starts at the left of its column, the others end at the right of theirs. */
function rowMarks(
  { widths, gap, small }: Columns,
  row: readonly string[],
  x: number,
  y: number,
  strong: boolean,
): readonly Mark[] {
  let at = x;
  return row
    .map((says, c) => {
      at += widths[c]! + gap;
      return text(
        c === 0 ? at - widths[c]! - gap : at - gap,
        y,
        cropped(says, small, widths[c]!, strong),
        small,
        {
          anchor: c === 0 ? "start" : "end",
          strong: strong || c === 0,
          ...(strong ? { quiet: true } : {}),
        },
      );
    })
    .filter((one) => one.text !== "");
}

/** The width at which columns must be cut for all of them to fit. */
function capFor(widths: readonly number[], room: number): number {
  const order = [...widths].sort((a, b) => a - b);
  let left = room;
  for (const [i, one] of order.entries()) {
    if (one * (order.length - i) > left) return Math.max(4, left / (order.length - i));
    left -= one;
  }
  return Infinity;
}
