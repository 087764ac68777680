// All findings of the book in plain words, faults first, each with the way to its place and its repair.
import { useState } from "react";
import type { Span } from "../../../core/span.ts";
import type { Finding, Row } from "../../../core/view.ts";
import type { SourceLine } from "../sheet/layer-rows.ts";
import { FindingLine } from "./finding-line.tsx";

const page = 60;

export function FindingsList(props: {
  readonly findings: readonly Finding[];
  readonly rows: readonly Row[];
  readonly lineAt?: (at: Span) => SourceLine;
  readonly onGo: (finding: Finding) => void;
  readonly onRepair: (finding: Finding) => void;
}) {
  const [pages, setPages] = useState(1);
  const sorted = [...props.findings].sort((a, b) => rank(a) - rank(b) || a.at.start - b.at.start);
  if (sorted.length === 0)
    return <p className="findings-none">Nothing found. Every rule of the book can be used.</p>;
  const drawn = sorted.slice(0, page * pages);
  return (
    <ol className="findings">
      {drawn.map((finding, place) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: two findings of one code can stand at one place.
        <li key={`${finding.code} ${finding.at.start} ${place}`}>
          {placeOf(finding, props.rows) !== placeBefore(drawn, place, props.rows) && (
            <button type="button" className="findings-row" onClick={() => props.onGo(finding)}>
              {placeOf(finding, props.rows)}
              <span>go there</span>
            </button>
          )}
          <FindingLine finding={finding} lineAt={props.lineAt} onRepair={props.onRepair} />
        </li>
      ))}
      {sorted.length > drawn.length && (
        <li>
          <button type="button" className="button" onClick={() => setPages(pages + 1)}>
            {sorted.length - drawn.length} more
          </button>
        </li>
      )}
    </ol>
  );
}

/** The row that a finding stands in, if it stands in one. */
export function rowOf(finding: Finding, rows: readonly Row[]): Row | undefined {
  return rows.find((row) => finding.at.start >= row.at.start && finding.at.start <= row.at.end);
}

const rank = (finding: Finding): number => {
  switch (finding.weight) {
    case "error":
      return 0;
    case "warning":
      return 1;
    case "note":
      return 2;
  }
};

const placeBefore = (findings: readonly Finding[], place: number, rows: readonly Row[]): string => {
  const before = findings[place - 1];
  return before ? placeOf(before, rows) : "";
};

function placeOf(finding: Finding, rows: readonly Row[]): string {
  const row = rowOf(finding, rows);
  return row ? `${row.keyword} ${row.name ?? (row.title || "")}`.trim() : "the book as a whole";
}
