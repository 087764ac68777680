// Findings in the record, each with the way to its place.
import type { Finding } from "../../../core/view.ts";
import { FindingLine } from "../findings/finding-line.tsx";
import { withKeys } from "../unique-keys.ts";
import { Settled } from "./record-parts.tsx";
import type { RecordProps, StandingViewProps } from "./standing-view.tsx";
import { count, inCharts, rowWords, spokenOf } from "./standing-words.ts";

/** Holes and overlaps of the charts. */
export function ChartFindings({ props }: RecordProps) {
  const { findings, rows } = props.snapshot;
  const charts = rows.filter((row) => row.keyword === "chart").length;
  const none =
    charts === 0
      ? "The book has no charts."
      : `${count(charts, "chart", "charts")}: no hole, and no two rows for one case, ` +
        "over the whole of what can be answered.";
  return <FindingLines props={props} findings={findings.filter(inCharts)} none={none} />;
}

/** Findings that no other part of the record speaks of. */
export const OtherFindings = ({ props }: RecordProps) => (
  <FindingLines
    props={props}
    findings={props.snapshot.findings.filter((finding) => !spokenOf(finding))}
    none="None."
  />
);

function FindingLines(lines: {
  readonly props: StandingViewProps;
  readonly findings: readonly Finding[];
  /** What is said where there are none. */
  readonly none: string;
}) {
  if (lines.findings.length === 0) return <Settled>{lines.none}</Settled>;
  return (
    <ul className="record-findings">
      {withKeys(lines.findings, (one) => `${one.at.start} ${one.says}`).map(({ key, item }) => (
        <InPlace key={key} finding={item} {...lines.props} />
      ))}
    </ul>
  );
}

/** A finding with the way to its place. */
function InPlace(
  props: Pick<StandingViewProps, "snapshot" | "readOnly" | "onGo" | "onRepair"> & {
    readonly finding: Finding;
  },
) {
  const { finding } = props;
  const row = props.snapshot.rows.find(
    (one) => finding.at.start >= one.at.start && finding.at.start <= one.at.end,
  );
  return (
    <li>
      <FindingLine finding={finding} onRepair={props.readOnly ? undefined : props.onRepair} />
      {row && (
        <button type="button" className="button bare" onClick={() => props.onGo(row.id, finding.at)}>
          Go there<span className="out-of-sight">: {rowWords(row)}</span>
        </button>
      )}
    </li>
  );
}
