// Where a stretch of text stands after an edit, and which findings stand at a place.
// Between an edit and the next reading of the book, findings are carried along this way.
import type { Span, TextEdit } from "../../../core/span.ts";
import type { Finding, Severity } from "../../../core/view.ts";

/** The span in the new text; what the edits take away shrinks to the place where it was. */
export function moveSpan(at: Span, edits: readonly TextEdit[]): Span {
  return {
    start: moveOffset(at.start, edits),
    end: Math.max(moveOffset(at.start, edits), moveOffset(at.end, edits)),
  };
}

function moveOffset(offset: number, edits: readonly TextEdit[]): number {
  let by = 0;
  for (const edit of edits) {
    if (edit.at.end <= offset) by += edit.text.length - (edit.at.end - edit.at.start);
    else if (edit.at.start < offset) by += edit.at.start - offset;
  }
  return offset + by;
}

/** The findings with their places moved. Repairs are left out: they fit the old text only. */
export function moveFindings(findings: readonly Finding[], edits: readonly TextEdit[]): Finding[] {
  return findings.map((finding) => ({ ...finding, at: moveSpan(finding.at, edits), repairs: [] }));
}

/**
 * Findings that hold the offset, the narrowest first; after them those that begin on the same line, the
 * gravest first.
 */
export function findingsAt(findings: readonly Finding[], offset: number, line: Span): Finding[] {
  const inside: Finding[] = [];
  const beside: Finding[] = [];
  for (const finding of findings) {
    if (finding.at.start <= offset && offset <= finding.at.end) inside.push(finding);
    else if (finding.at.start >= line.start && finding.at.start <= line.end) beside.push(finding);
  }
  inside.sort((a, b) => a.at.end - a.at.start - (b.at.end - b.at.start));
  beside.sort(
    (a, b) =>
      GRAVITY[a.weight] - GRAVITY[b.weight] || Math.abs(a.at.start - offset) - Math.abs(b.at.start - offset),
  );
  return [...inside, ...beside];
}

/** The gravest has the least number. */
export const GRAVITY: Record<Severity, number> = { error: 0, warning: 1, note: 2 };

/** The finding after (or before) an offset, going round at the ends; undefined if there are none. */
export function neighbour(findings: readonly Finding[], offset: number, step: 1 | -1): Finding | undefined {
  const ordered = [...findings].sort((a, b) => a.at.start - b.at.start);
  if (step === 1) return ordered.find((finding) => finding.at.start > offset) ?? ordered[0];
  return ordered.findLast((finding) => finding.at.start < offset) ?? ordered.at(-1);
}
