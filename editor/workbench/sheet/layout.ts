// Where every row of the sheet stands: heights are reckoned from the text, so a book of thousands of lines
// scrolls without drawing more than what is seen.
import type { Finding, KindView, Row } from "../../../core/view.ts";

export interface Columns {
  /** Name, rule and basis beside each other, or name above rule and no basis. */
  readonly stacked: boolean;
  readonly name: number;
  readonly rule: number;
  readonly basis: number;
  readonly job: number;
}

/** Widths in px for a sheet so wide with so many jobs. */
export function columnsFor(width: number, jobs: number): Columns {
  if (width < 560)
    return { stacked: true, name: Math.max(156, Math.round(width * 0.46)), rule: 0, basis: 0, job: 104 };
  if (width < 800) return { stacked: true, name: Math.round(width * 0.42), rule: 0, basis: 0, job: 124 };
  const job = width < 1100 ? 118 : 128;
  const name = width < 1100 ? 186 : 228;
  const basis = width < 880 ? 0 : width < 1100 ? 86 : 116;
  const rule = Math.max(230, Math.min(560, width - name - basis - Math.min(Math.max(jobs, 1), 4) * job - 56));
  return { stacked: false, name, rule, basis, job };
}

/** Width in px of what a printed page takes, in the narrower of A4 and Letter. */
export const paperWidth = 690;

/** On paper all jobs share what the names and rules leave. */
export function columnsForPaper(jobs: number): Columns {
  const name = jobs > 3 ? 230 : 290;
  return { stacked: true, name, rule: 0, basis: 0, job: Math.floor((paperWidth - name) / Math.max(jobs, 1)) };
}

const ruleLine = 19;
/** Width in px of a letter of a rule, rounded up: one reckoned too narrow hides a line of the rule. */
const ruleLetter = 8.01;
const shownRuleLines = 4;

export interface HeightWish {
  readonly row: Row;
  readonly columns: Columns;
  /** Findings drawn under the row. */
  readonly findings: readonly Finding[];
  /** The rule as it was, where it changed. */
  readonly oldRule?: string;
  /** In a layer an own line says beneath it what it replaces and what it moves. */
  readonly layered?: boolean;
  /** Width of what is seen, for the findings. */
  readonly width: number;
}

export function heightOf(wish: HeightWish): number {
  const { row, columns } = wish;
  const findings = wish.findings.reduce((sum, finding) => sum + findingHeight(finding, wish.width), 0);
  if (row.keyword === "part") return 46 + findings;
  const ruleWidth = (columns.stacked ? columns.name : columns.rule) - 22;
  const ruleLines = linesOf(shownRule(row), Math.max(12, Math.floor(ruleWidth / ruleLetter)), shownRuleLines);
  const titleLines =
    shownTitle(row) === "" ? 0 : linesOf(shownTitle(row), Math.max(14, Math.floor(ruleWidth / 6.1)), 2);
  const oldLines =
    wish.oldRule === undefined ? 0 : linesOf(wish.oldRule || " ", Math.floor(ruleWidth / ruleLetter), 2);
  const ownLine =
    wish.layered && row.own && saysSomething(row)
      ? 25 +
        (row.was === undefined || row.was.rule === ""
          ? 0
          : linesOf(row.was.rule, Math.max(12, Math.floor(ruleWidth / ruleLetter)), 2) * ruleLine)
      : 0;
  const whenLines =
    wish.layered && row.was?.when !== undefined
      ? linesOf(whenWords(row) ?? "", Math.max(14, Math.floor(ruleWidth / 6.1)), 2)
      : 0;
  const rule =
    ownLine +
    whenLines * 18 +
    (ruleLines + oldLines) * ruleLine +
    titleLines * 18 +
    (titleLines > 0 ? 2 : 0) +
    (oldLines > 0 ? 2 : 0);
  // A kind has nothing to say for any job, so it is one quiet line with its words.
  const quiet = row.keyword === "kind" && !columns.stacked;
  const name = columns.stacked || quiet ? 20 : 40;
  const basis =
    columns.basis > 0 && row.basis ? linesOf(row.basis, Math.floor((columns.basis - 20) / 6.2), 3) * 17 : 0;
  const inner = columns.stacked ? name + rule : Math.max(name, rule, basis);
  return (
    Math.max(columns.stacked ? 58 : quiet ? 34 : 50, inner + (columns.stacked ? 19 : quiet ? 13 : 16)) +
    findings
  );
}

const findingHeight = (finding: Finding, width: number): number =>
  22 +
  linesOf(`Fault: ${finding.says}`, Math.max(24, Math.floor((Math.min(width, 900) - 90) / 6.7)), 6) * 22 +
  (finding.witness ? 22 : 0) +
  (finding.repairs.length > 0 ? 38 : 0) +
  finding.also.length * 22;

/** Whether an own row of a layer is a rule: not its head or a heading. */
export const saysSomething = (row: Row): boolean =>
  row.keyword !== "book" && row.keyword !== "part" && row.keyword !== "unreadable";

/** The rule as the sheet shows it, on one line. */
export function shownRule(row: Row): string {
  return row.rule.replace(/\s+/g, " ").trim();
}

/** Rows with the words of each kind as its rule, where the book gives it none on its first line. */
export function withWords(rows: readonly Row[], kinds: readonly KindView[]): readonly Row[] {
  const words = new Map(kinds.map((kind) => [kind.name, kind.words.map((one) => one.word).join(", ")]));
  return rows.map((row) =>
    row.keyword === "kind" && row.rule.trim() === ""
      ? { ...row, rule: words.get(row.name ?? "") ?? "" }
      : row,
  );
}

/**
 * Of a line of a layer that counts under a condition only: that condition, and whose word counts elsewhere.
 */
export const whenWords = ({ was }: Row): string | undefined =>
  was?.when === undefined ? undefined : `when ${was.when}; elsewhere as in ${was.layer}`;

/**
 * What stands under the rule: a question, a title. The texts of steps, cautions and stops are their rules
 * already.
 */
export function shownTitle(row: Row): string {
  switch (row.keyword) {
    case "step":
    case "caution":
    case "stop":
    case "part":
      return "";
    case "book":
    case "kind":
    case "ask":
    case "dial":
    case "figure":
    case "formula":
    case "chart":
    case "list":
    case "promise":
    case "picture":
    case "worked":
    case "use":
    case "drop":
    case "unreadable":
      return row.title;
  }
}

/** Tops of every row, and the height of all, in px. */
export function topsOf(heights: readonly number[]): Float64Array {
  const tops = new Float64Array(heights.length + 1);
  for (let n = 0; n < heights.length; n += 1) tops[n + 1] = (tops[n] ?? 0) + (heights[n] ?? 0);
  return tops;
}

/** The last row whose top is at or above `y`; 0 for an empty sheet. */
export function rowAt(tops: Float64Array, y: number): number {
  let low = 0;
  let high = Math.max(0, tops.length - 2);
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((tops[middle] ?? 0) <= y) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Lines that a text takes when words are carried over whole, at most `most`. */
function linesOf(text: string, width: number, most: number): number {
  let lines = 1;
  let used = 0;
  for (const word of text.split(" ")) {
    const length = word.length;
    if (used > 0 && used + 1 + length > width) {
      lines += 1;
      used = 0;
    }
    used += (used > 0 ? 1 : 0) + length;
    if (used > width) {
      lines += Math.floor((used - 1) / width);
      used = ((used - 1) % width) + 1;
    }
    if (lines >= most) return most;
  }
  return lines;
}
