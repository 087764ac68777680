// The height of a row of the sheet, computed from its text, so that rows can be placed before they are drawn.
// The numbers here repeat those of the style sheets; tests/editor/workbench/sheet-steps.test.ts pins them.
import type { Finding, Row } from "../../../core/view.ts";
import type { Columns } from "./columns.ts";
import { isRule, shownRule, shownTitle, whenWords } from "./shown-row.ts";

/** Heights and widths in px that a row is made of. */
const rowMetrics = {
  part: 46,
  ruleLine: 19,
  titleLine: 18,
  basisLine: 17,
  /** Between the rule and what is above or below it. */
  gap: 2,
  /** The line below an own row of a layer, with its gap. */
  ownLine: 25,
  /** Widths of letters, rounded up: one taken too narrow hides a line. */
  ruleLetter: 8.01,
  titleLetter: 6.4,
  basisLetter: 6.2,
  findingLetter: 6.7,
  findingLine: 22,
  findingRepair: 38,
} as const;

/** Least height of a row, the height of its name, and its padding with the border below. */
const shapes = {
  stacked: { least: 58, name: 20, padding: 19 },
  /** A kind has no value for any job: one quiet line with its words. */
  quiet: { least: 34, name: 20, padding: 13 },
  full: { least: 50, name: 40, padding: 16 },
} as const;

/** Most lines shown of each text; the rest is cut off. */
const mostLines = { rule: 4, oldRule: 2, title: 2, basis: 3, finding: 6 } as const;

const m = rowMetrics;

export interface RowHeightInput {
  readonly row: Row;
  readonly columns: Columns;
  /** Findings drawn under the row. */
  readonly findings: readonly Finding[];
  /** The rule as it was, where it changed. */
  readonly oldRule?: string;
  /** In a layer an own line says beneath it what it replaces and what it affects. */
  readonly layered?: boolean;
  /** Width of what is seen, for the findings. */
  readonly width: number;
}

/** Height of a row in px, with its findings and the border below it. */
export function rowHeight(input: RowHeightInput): number {
  const { row, columns } = input;
  const findings = input.findings.reduce((sum, finding) => sum + findingHeight(finding, input.width), 0);
  if (row.keyword === "part") return m.part + findings;
  const shape = shapes[columns.stacked ? "stacked" : row.keyword === "kind" ? "quiet" : "full"];
  const rule = ruleHeight(input);
  const inner = columns.stacked ? shape.name + rule : Math.max(shape.name, rule, basisHeight(row, columns));
  return Math.max(shape.least, inner + shape.padding) + findings;
}

/** Height of a row whose rule is edited by an editor of this height, 0 while that is not known. */
export const editedHeight = (natural: number, editor: number, stacked: boolean): number =>
  editor > 0 ? Math.max(natural, editor + 14 + (stacked ? 30 : 0)) : natural;

/** Room for a statement that is being written below a row. */
export const draftHeight = (editor: number): number => Math.max(120, editor + 20);

/** Height of a finding below its row, in px. */
const findingHeight = (finding: Finding, width: number): number =>
  m.findingLine +
  linesOf(
    `Fault: ${finding.says}`,
    Math.max(24, Math.floor((Math.min(width, 900) - 90) / m.findingLetter)),
    mostLines.finding,
  ) *
    m.findingLine +
  (finding.witness ? m.findingLine : 0) +
  (finding.repairs.length > 0 ? m.findingRepair : 0) +
  finding.also.length * m.findingLine;

/** Height of all that the rule's cell shows, without its padding. */
function ruleHeight({ row, columns, layered, oldRule }: RowHeightInput): number {
  const width = (columns.stacked ? columns.name : columns.rule) - 22;
  const ruleLetters = Math.floor(width / m.ruleLetter);
  const titleLetters = Math.max(14, Math.floor(width / m.titleLetter));
  const rule = linesOf(shownRule(row), Math.max(12, ruleLetters), mostLines.rule);
  const title = shownTitle(row) === "" ? 0 : linesOf(shownTitle(row), titleLetters, mostLines.title);
  const old = oldRule === undefined ? 0 : linesOf(oldRule || " ", ruleLetters, mostLines.oldRule);
  const when =
    layered && row.was?.when !== undefined ? linesOf(whenWords(row) ?? "", titleLetters, mostLines.title) : 0;
  const below = layered && row.own && isRule(row) ? ownLineHeight(row, Math.max(12, ruleLetters)) : 0;
  return (
    below +
    when * m.titleLine +
    (rule + old) * m.ruleLine +
    title * m.titleLine +
    (title > 0 ? m.gap : 0) +
    (old > 0 ? m.gap : 0)
  );
}

/** The rule underneath, struck, and the line that says what an own row replaces. */
function ownLineHeight(row: Row, ruleLetters: number): number {
  const under =
    row.was === undefined || row.was.rule === "" ? 0 : linesOf(row.was.rule, ruleLetters, mostLines.oldRule);
  return m.ownLine + under * m.ruleLine;
}

const basisHeight = (row: Row, columns: Columns): number =>
  columns.basis > 0 && row.basis
    ? linesOf(row.basis, Math.floor((columns.basis - 20) / m.basisLetter), mostLines.basis) * m.basisLine
    : 0;

/**
 * Lines of a text that is wrapped to so many letters a line, at most `most`: at spaces and after hyphens, and
 * a longer piece wherever the line is full.
 */
function linesOf(text: string, letters: number, most: number): number {
  let lines = 1;
  let used = 0;
  // As browsers do: no line ends between a hyphen and a figure.
  for (const piece of text.split(/(?<= )|(?<=\w-)(?!\d)/)) {
    // A space at the end of a line takes no room.
    const length = piece.trimEnd().length;
    if (used > 0 && used + length > letters) {
      lines += 1;
      used = 0;
    }
    if (length > letters) lines += Math.floor((length - 1) / letters);
    used += length > letters ? ((length - 1) % letters) + 1 : piece.length;
    if (lines >= most) return most;
  }
  return lines;
}
