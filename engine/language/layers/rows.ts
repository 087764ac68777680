// Rows that a layer adds to a chart underneath: the chart is written again with them in it, and each of its
// lines remembers which text it is from. A row whose conditions are those of a row underneath takes that
// row's place.
import type { Piece } from "../syntax/split.ts";
import type { ChartRow, Statement } from "../syntax/tree.ts";
import { plain } from "./item.ts";

interface Line {
  readonly text: string;
  readonly at: number;
}

export interface Added {
  readonly text: string;
  readonly lines: NonNullable<Piece["lines"]>;
  /** Rows underneath that gave way: where both are in the whole. */
  readonly replaced: readonly { readonly row: number; readonly from: number; readonly to: number }[];
}

/** The chart `under` with the rows of `own`. Undefined where either cannot be read. */
export function addRows(
  under: { readonly piece: Piece; readonly statement: Statement },
  own: { readonly piece: Piece; readonly statement: Statement },
): Added | undefined {
  const { body } = under.statement;
  if (body.keyword !== "chart" || own.statement.body.keyword !== "add") return undefined;
  const header = body.header.map((cell) => cell.text).join("|");
  const added = own.statement.body.rows.filter(
    (row) => row.cells.map((cell) => cell.text).join("|") !== header,
  );
  const lines = linesOf(under.piece);
  const rowLine = body.rows.map((row) => lineAt(under.piece.text, row.at.start));
  const keys = new Map(body.rows.map((row, i) => [keyOf(body, row), i] as const));
  const replaced: { row: number; from: number; to: number }[] = [];
  const more: { line: Line; sort: number | undefined }[] = [];
  added.forEach((row) => {
    const line: Line = { text: lineText(own.statement.text, row), at: own.piece.at.start + row.at.start - 4 };
    const twin = keys.get(keyOf(body, row));
    if (twin === undefined) {
      more.push({ line, sort: numberIn(row.cells[0]?.text) });
      return;
    }
    replaced.push({ row: twin, from: lines[rowLine[twin]!]!.at, to: line.at });
    lines[rowLine[twin]!] = line;
  });
  const last = rowLine.length === 0 ? lines.length - 1 : Math.max(...rowLine);
  const head = lines.slice(0, rowLine.length === 0 ? last + 1 : Math.min(...rowLine));
  const between = body.options.some((one) => one.option === "straight" || one.option === "curve");
  const first = body.options.some((one) => one.option === "first-row-wins");
  let rows = lines.slice(head.length, last + 1);
  // Where the first row that fits wins, a row of the layer goes before those underneath.
  if (first) rows = [...more.map((one) => one.line), ...rows];
  else if (between)
    for (const one of more) {
      const at =
        one.sort === undefined
          ? -1
          : rows.findIndex((row) => {
              const other = numberIn(row.text);
              return other !== undefined && other > one.sort!;
            });
      rows.splice(at < 0 ? rows.length : at, 0, one.line);
    }
  else rows = [...rows, ...more.map((one) => one.line)];
  return { ...joined([...head, ...rows, ...lines.slice(last + 1)]), replaced };
}

function joined(lines: readonly Line[]): Pick<Added, "text" | "lines"> {
  let from = 0;
  const places = lines.map(({ text, at }) => {
    const place = { from, at };
    from += text.length + 1;
    return place;
  });
  return { text: lines.map((one) => one.text).join("\n"), lines: places };
}

/** A statement's lines with the place of each in the whole. */
function linesOf({ text, at, lines }: Piece): Line[] {
  let from = 0;
  return text.split("\n").map((line) => {
    const place = lines?.find((one) => one.from === from)?.at ?? at.start + from;
    from += line.length + 1;
    return { text: line, at: place };
  });
}

const lineAt = (text: string, offset: number): number => text.slice(0, offset).split("\n").length - 1;

/** The row's own line, set in by four, so that its cells keep their columns but for the indent. */
const lineText = (text: string, row: ChartRow): string => {
  const end = text.indexOf("\n", row.at.end);
  return `    ${text.slice(row.at.start, end < 0 ? text.length : end).replace(/\r$/, "")}`;
};

/** The conditions of a row, whatever the blanks between their words. */
function keyOf(
  body: {
    readonly header: readonly { readonly text: string }[];
    readonly conditions: readonly { readonly text: string }[];
  },
  row: ChartRow,
): string {
  return body.conditions
    .map((condition, i) => {
      const found = body.header.findIndex((cell) => cell.text === condition.text);
      const cell = row.cells[found < 0 ? i : found];
      return cell === undefined ? "" : plain(cell.text);
    })
    .join("|");
}

function numberIn(text: string | undefined): number | undefined {
  const found = /^\s*(-?\d+(?:\.\d+)?)/.exec(text ?? "");
  return found === null ? undefined : Number(found[1]);
}
