// A chart in words and as tab-separated text, and where its holes and clashes stand
// among its rows. No drawing here.
import type { Span } from "../../../core/span.ts";
import type { ChartColumn, ChartView, Finding } from "../../../core/view.ts";

/** How the rows are read, in one sentence. */
export function modeInWords(mode: ChartView["mode"]): string {
  switch (mode) {
    case "rows":
      return "Each job falls in one row.";
    case "first-row-wins":
      return "The first row that fits decides.";
    case "keep-every-row":
      return "Every row that the answers do not rule out is kept.";
    case "straight":
      return "A straight line runs from row to row.";
    case "curve":
      return "A smooth curve runs from row to row, without overshoot.";
  }
}

/** What holds outside the rows; "" where rows have no outside. */
export function outsideInWords(chart: ChartView): string {
  if (chart.mode !== "straight" && chart.mode !== "curve") return "";
  switch (chart.outside) {
    case "nothing":
      return "Outside the rows there is no value.";
    case "hold-ends":
      return "Outside the rows the end values hold.";
  }
}

/** Words to choose from in a cell; none where one types. */
export function wordsFor(column: ChartColumn): readonly string[] {
  const own = column.words ?? (column.type === "yes-no" ? ["yes", "no"] : []);
  return column.role === "condition" && own.length > 0 ? ["any", ...own] : own;
}

/** What one may write in a cell, for a column without words; "" where the words say it. */
export function hintFor(column: ChartColumn, mode: ChartView["mode"]): string {
  if (wordsFor(column).length > 0)
    return column.role === "condition" ? "Several words: put commas between." : "";
  const unit = column.unit === "" ? "" : ` ${column.unit}`;
  if (column.role === "value")
    return column.unit === "" ? "A value or a rule." : `A number in ${column.unit}, or a rule.`;
  if (mode === "straight" || mode === "curve") return `One point: 20${unit}`;
  return `under 3${unit}, 3${unit} to under 6${unit}, 6${unit} and over, any`;
}

/** A row by what it asks for: "smc, hand-laid · under 25 mm". */
export function rowInWords(chart: ChartView, row: number): string {
  const cells = chart.rows[row]?.cells ?? [];
  return cells
    .filter((_, i) => chart.columns[i]?.role === "condition")
    .map((cell) => cell.text)
    .join(" · ");
}

/** One line of the grid: a row of the chart, or a hole drawn where its row would stand. */
export type GridLine =
  | { readonly is: "row"; readonly row: number }
  | { readonly is: "hole"; readonly hole: number };

/**
 * Rows in order, each hole before the row that its repair would come before; holes without a repair come
 * last.
 */
export function gridLines(chart: ChartView): GridLine[] {
  const before = chart.holes.map(({ repair }) => {
    const at = repair?.edits[0]?.at.start;
    if (at === undefined) return chart.rows.length;
    const next = chart.rows.findIndex((row) => row.at.start >= at);
    return next < 0 ? chart.rows.length : next;
  });
  const lines: GridLine[] = [];
  for (let row = 0; row <= chart.rows.length; row += 1) {
    before.forEach((place, hole) => place === row && lines.push({ is: "hole", hole }));
    if (row < chart.rows.length) lines.push({ is: "row", row });
  }
  return lines;
}

/**
 * For each clash a lane beside the grid, so that brackets over the same rows do not cross. Lane 0 is nearest.
 */
export function clashLanes(clashes: readonly { readonly rows: readonly [number, number] }[]): number[] {
  const lanes: [number, number][][] = [];
  const order = clashes
    .map((_, i) => i)
    .sort((a, b) => length(clashes[a]!.rows) - length(clashes[b]!.rows) || a - b);
  const given: number[] = new Array(clashes.length).fill(0);
  for (const i of order) {
    const [low, high] = ordered(clashes[i]!.rows);
    let lane = lanes.findIndex((taken) => taken.every(([from, to]) => high < from || low > to));
    if (lane < 0) lane = lanes.push([]) - 1;
    lanes[lane]!.push([low, high]);
    given[i] = lane;
  }
  return given;
}

const ordered = ([a, b]: readonly [number, number]): [number, number] => (a < b ? [a, b] : [b, a]);
const length = (rows: readonly [number, number]): number => Math.abs(rows[0] - rows[1]);

/** Findings of this chart that are not already drawn as a hole or a clash. */
export function findingsOfChart(chart: ChartView, findings: readonly Finding[]): Finding[] {
  const drawn = new Set([...chart.holes, ...chart.clashes].map((one) => one.witness));
  return findings.filter(
    (finding) =>
      within(finding.at, chart.at) && !(finding.witness !== undefined && drawn.has(finding.witness)),
  );
}

/** Findings that stand in one cell. */
export const findingsIn = (findings: readonly Finding[], cell: Span): Finding[] =>
  findings.filter((finding) => within(finding.at, cell));

const within = (inner: Span, outer: Span): boolean => inner.start >= outer.start && inner.end <= outer.end;

/**
 * Cells of tab-separated text, as table programs give them: a cell with tabs, line ends or quotes comes in
 * quotes.
 */
export function readTabbed(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [],
    cell = "",
    quoted = false;
  const plain = text.replace(/\r\n?/g, "\n").replace(/\n$/, "");
  for (let i = 0; i < plain.length; i += 1) {
    const c = plain[i]!;
    if (quoted) {
      if (c !== '"') cell += c;
      else if (plain[i + 1] === '"') {
        cell += c;
        i += 1;
      } else quoted = false;
    } else if (c === '"' && cell === "") quoted = true;
    else if (c === "\t" || c === "\n") {
      row.push(tidied(cell));
      cell = "";
      if (c === "\n") {
        rows.push(row);
        row = [];
      }
    } else cell += c;
  }
  rows.push([...row, tidied(cell)]);
  return rows;
}

// A cell of a chart stands on one line and between bars.
const tidied = (cell: string): string => cell.replace(/[\s|]+/g, " ").trim();

export const writeTabbed = (rows: readonly (readonly string[])[]): string =>
  rows
    .map((row) =>
      row.map((cell) => (/["\t\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join("\t"),
    )
    .join("\n");

/** The whole chart with its header, units in brackets. */
export function chartAsTabbed(chart: ChartView): string {
  const header = chart.columns.map(({ name, unit }) => (unit === "" ? name : `${name} (${unit})`));
  return writeTabbed([header, ...chart.rows.map((row) => row.cells.map((cell) => cell.text))]);
}
