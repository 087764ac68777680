// What is wrong with a chart, as parts of its grid: a hole where a row is missing, and
// clashes and findings in words below.
import type { ChartView, Finding, Repair } from "../../../core/view.ts";
import { withKeys } from "../unique-keys.ts";
import { rowInWords } from "./chart-words.ts";

export function Hole({
  hole,
  here,
  readOnly,
  onRepair,
}: {
  readonly hole: ChartView["holes"][number];
  readonly here: boolean;
  readonly readOnly: boolean;
  onRepair(repair: Repair): void;
}) {
  const { repair } = hole;
  return (
    <div className="chart-hole-in">
      <span
        className="chart-hole-says"
        tabIndex={repair === undefined || readOnly ? (here ? 0 : -1) : undefined}
        data-here={here && (repair === undefined || readOnly) ? "yes" : undefined}
      >
        No row for <strong>{hole.witness}</strong>
      </span>
      {repair !== undefined && !readOnly && (
        <button
          type="button"
          className="button main"
          tabIndex={here ? 0 : -1}
          data-here={here ? "yes" : undefined}
          onClick={() => onRepair(repair)}
        >
          Fill this hole
        </button>
      )}
    </div>
  );
}

/** Clashes and findings in words, below the grid. */
export function Troubles({
  chart,
  findings,
  readOnly,
  onRepair,
}: {
  readonly chart: ChartView;
  readonly findings: readonly Finding[];
  readonly readOnly: boolean;
  onRepair(repair: Repair): void;
}) {
  if (chart.clashes.length === 0 && findings.length === 0) return null;
  return (
    <ul className="chart-troubles">
      {withKeys(chart.clashes, (one) => one.rows.join(" ")).map(({ key, item: clash }) => (
        <li key={`clash ${key}`} className="finding error">
          <p>
            Two rows fit <strong>{clash.witness}</strong>: “{rowInWords(chart, clash.rows[0])}” and “
            {rowInWords(chart, clash.rows[1])}”.
          </p>
        </li>
      ))}
      {withKeys(findings, (one) => `${one.code} ${one.at.start}`).map(({ key, item: finding }) => {
        const repair = finding.repairs[0];
        return (
          <li key={key} className={`finding ${finding.weight}`}>
            <p>{finding.says}</p>
            {finding.witness !== undefined && <p className="chart-witness">For example: {finding.witness}</p>}
            {repair !== undefined && !readOnly && (
              <button type="button" className="button" onClick={() => onRepair(repair)}>
                {repair.says}
              </button>
            )}
          </li>
        );
      })}
    </ul>
  );
}
