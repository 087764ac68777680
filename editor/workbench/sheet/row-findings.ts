// Which findings stand at which row of the sheet, and how many of them are read there.
import type { Finding, Row } from "../../../core/view.ts";

/**
 * A number turned over a book underneath can fail dozens of its examples: three are read here, the others in
 * the list of findings.
 */
const mostShown = 4;
const few = new WeakMap<Finding, Finding>();
export function fewShown(findings: readonly Finding[]): readonly Finding[] {
  if (findings.length <= mostShown) return findings;
  const next = findings[mostShown - 1]!;
  const more = few.get(next) ?? { ...next, code: "more", says: "", also: [], repairs: [] };
  const said = { ...more, says: `${findings.length - mostShown + 1} more stand in the list of findings.` };
  few.set(next, said);
  return [...findings.slice(0, mostShown - 1), said];
}

/** The findings of each row, by its id. */
export function groupFindings(
  findings: readonly Finding[],
  rows: readonly Row[],
): ReadonlyMap<string, readonly Finding[]> {
  const groups = new Map<string, Finding[]>();
  // Rows of a layer stand in the order of the whole, which is not that of the texts.
  const sorted = rows.every((row) => row.own) ? rows : [...rows].sort((a, b) => a.at.start - b.at.start);
  for (const finding of findings) {
    const row = rowHolding(sorted, finding.at.start);
    if (!row) continue;
    const group = groups.get(row.id);
    if (group) group.push(finding);
    else groups.set(row.id, [finding]);
  }
  return groups;
}

/** Rows stand in the order of the text, so the one that holds an offset is found by halving. */
function rowHolding(rows: readonly Row[], offset: number): Row | undefined {
  // In a book that stands on others the rows are in another order than the text.
  if (rows.some((one) => !one.own))
    return rows.find((one) => one.own && offset >= one.at.start && offset <= one.at.end);
  let low = 0;
  let high = rows.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((rows[middle]?.at.start ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  const row = rows[low];
  return row && offset >= row.at.start && offset <= row.at.end ? row : undefined;
}
